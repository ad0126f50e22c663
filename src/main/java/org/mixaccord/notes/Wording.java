package org.mixaccord.notes;

import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;

/**
 * Plain words for questions to people who never see the vocabulary, and what vague amounts mean.
 */
public final class Wording {
  private static final Map<String, String> WISHES = wishes();
  private static final Map<String, double[]> RANGES = ranges();

  private Wording() {}

  /**
   * The range an amount word usually means for a level.
   *
   * @param lowDb lower end in dB
   * @param highDb upper end in dB
   */
  public record UsualRange(double lowDb, double highDb) {}

  private static Map<String, double[]> ranges() {
    Map<String, double[]> map = new LinkedHashMap<>();
    Lexicon.lines(
        "amounts.tsv",
        (fields, line) ->
            map.put(
                fields[0],
                new double[] {Double.parseDouble(fields[1]), Double.parseDouble(fields[2])}));
    return map;
  }

  private static Map<String, String> wishes() {
    Map<String, String> map = new LinkedHashMap<>();
    map.put("level up", "louder");
    map.put("level down", "quieter");
    map.put("level match", "as loud as elsewhere");
    map.put("level set", "at a given level");
    map.put("mute out", "taken out");
    map.put("mute in", "brought in");
    map.put("pan left", "more to the left");
    map.put("pan right", "more to the right");
    map.put("pan centre", "in the middle");
    map.put("width wider", "wider");
    map.put("width narrower", "narrower");
    map.put("lows up", "more bottom");
    map.put("lows down", "less boomy");
    map.put("low mids up", "warmer");
    map.put("low mids down", "less muddy");
    map.put("mids up", "clearer in the middle");
    map.put("mids down", "less boxy");
    map.put("highs up", "brighter");
    map.put("highs down", "darker");
    map.put("harshness up", "sharper");
    map.put("harshness down", "less harsh");
    map.put("sibilance up", "more “s”");
    map.put("sibilance down", "softer “s” sounds");
    map.put("reverb up", "more reverb");
    map.put("reverb down", "less reverb");
    map.put("delay up", "more echo");
    map.put("delay down", "less echo");
    map.put("compression up", "more squeezed");
    map.put("compression down", "less squeezed");
    map.put("distortion up", "dirtier");
    map.put("distortion down", "cleaner");
    map.put("impact up", "with more punch");
    map.put("impact down", "with less punch");
    map.put("timing earlier", "earlier");
    map.put("timing later", "later");
    map.put("timing tighter", "tighter in time");
    map.put("tuning fix", "tuned");
    map.put("noise fix", "noise cleaned up");
    map.put("fade longer", "longer fade");
    map.put("fade shorter", "shorter fade");
    map.put("length longer", "longer");
    map.put("length shorter", "shorter");
    map.put("effect in", "effect on");
    map.put("effect out", "effect off");
    map.put("delivery add", "another version or file");
    map.put("other any", "see your words");
    return map;
  }

  /** What a change wishes for, such as "louder". */
  static String wish(RequestedChange change) {
    return WISHES.get(change.aspect() + " " + change.direction());
  }

  /** "The snare", "the whole mix", for use inside a sentence. */
  static String part(String element) {
    return element.equals(Vocabulary.MIX) ? "the whole mix" : "the " + element;
  }

  /**
   * An amount as people write it.
   *
   * @param amount any amount
   * @return for example {@code 1.5 dB}, {@code 4 to 5 seconds}, {@code a touch}
   */
  public static String amount(Amount amount) {
    if (amount.word().isPresent()) {
      return amount.word().get();
    }
    String unit = amount.unit().orElse("");
    double last = amount.to().orElse(amount.value().orElse(0));
    String named =
        switch (unit) {
          case "s" -> last == 1 ? " second" : " seconds";
          case "bars" -> last == 1 ? " bar" : " bars";
          default -> " " + unit;
        };
    String range = amount.to().isPresent() ? " to " + number(amount.to().getAsDouble()) : "";
    return number(amount.value().orElse(0)) + range + named;
  }

  private static String number(double value) {
    return value == Math.rint(value) && value < 1e9
        ? String.valueOf((long) value)
        : String.format(Locale.ROOT, "%.2f", value).replaceAll("0$", "");
  }

  /**
   * The range usually meant by a vague amount, as a starting guess for the engineer.
   *
   * <p>The words have no measured meaning; these ranges are a synthesis of ordinary practice and
   * are shown beside the words, never in their place.
   *
   * @param amount any amount
   * @return the range in dB for a level; empty for a number and for a word without a usual range
   */
  public static Optional<UsualRange> usualRange(Amount amount) {
    return amount
        .word()
        .map(w -> RANGES.get(w.toLowerCase(Locale.ROOT)))
        .map(r -> new UsualRange(r[0], r[1]));
  }
}
