package org.mixaccord.worksheet;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;

/** What is asked for, in the words of the page. */
public final class AskWords {
  private static final char TRUE_MINUS = '\u2212';

  private static final Map<String, String> WAYS =
      Map.ofEntries(
          Map.entry("level up", "up"),
          Map.entry("level down", "down"),
          Map.entry("level match", "as loud as elsewhere"),
          Map.entry("level set", "set to a level"),
          Map.entry("mute out", "out"),
          Map.entry("mute in", "back in"),
          Map.entry("pan left", "to the left"),
          Map.entry("pan right", "to the right"),
          Map.entry("pan centre", "to the middle"),
          Map.entry("width wider", "wider"),
          Map.entry("width narrower", "narrower"),
          Map.entry("lows up", "more lows"),
          Map.entry("lows down", "fewer lows"),
          Map.entry("low mids up", "warmer"),
          Map.entry("low mids down", "less muddy"),
          Map.entry("mids up", "more mids"),
          Map.entry("mids down", "less boxy"),
          Map.entry("highs up", "brighter"),
          Map.entry("highs down", "less bright"),
          Map.entry("harshness up", "more edge"),
          Map.entry("harshness down", "less harsh"),
          Map.entry("sibilance up", "sharper esses"),
          Map.entry("sibilance down", "softer esses"),
          Map.entry("reverb up", "more reverb"),
          Map.entry("reverb down", "drier"),
          Map.entry("delay up", "more delay"),
          Map.entry("delay down", "less delay"),
          Map.entry("compression up", "tighter dynamics"),
          Map.entry("compression down", "looser dynamics"),
          Map.entry("distortion up", "more grit"),
          Map.entry("distortion down", "cleaner"),
          Map.entry("impact up", "hit harder"),
          Map.entry("impact down", "hit softer"),
          Map.entry("timing earlier", "earlier"),
          Map.entry("timing later", "later"),
          Map.entry("timing tighter", "tighter in time"),
          Map.entry("tuning fix", "put in tune"),
          Map.entry("noise fix", "take the noise out"),
          Map.entry("fade longer", "longer fade"),
          Map.entry("fade shorter", "shorter fade"),
          Map.entry("length longer", "longer"),
          Map.entry("length shorter", "shorter"),
          Map.entry("effect in", "with the effect"),
          Map.entry("effect out", "without the effect"),
          Map.entry("delivery add", "one more file"),
          Map.entry("other any", "see the words"));

  private AskWords() {}

  /** "Up, a touch", without the part. */
  public static String ask(String aspect, String direction, Optional<String> amount) {
    String way = WAYS.getOrDefault(aspect + " " + direction, aspect + ", " + direction);
    return amount.map(much -> way + ", " + much).orElse(way);
  }

  /** "Lead vocal", and "Whole mix" where no part is meant. */
  public static String part(String element) {
    return element.equals("mix") ? "Whole mix" : capital(element);
  }

  /** "Chorus 1, 2 and 3": sections that share a word are said once. */
  public static String sections(List<String> names) {
    List<String> words = new ArrayList<>();
    List<List<String>> numbers = new ArrayList<>();
    for (String name : names) {
      int cut = name.lastIndexOf(' ');
      boolean numbered = cut > 0 && name.substring(cut + 1).matches("\\d+");
      String word = numbered ? name.substring(0, cut) : name;
      int last = words.size() - 1;
      if (numbered && last >= 0 && words.get(last).equals(word) && !numbers.get(last).isEmpty()) {
        numbers.get(last).add(name.substring(cut + 1));
      } else {
        words.add(word);
        numbers.add(new ArrayList<>(numbered ? List.of(name.substring(cut + 1)) : List.of()));
      }
    }
    List<String> said = new ArrayList<>();
    for (int i = 0; i < words.size(); i++) {
      said.add(
          numbers.get(i).isEmpty() ? words.get(i) : words.get(i) + " " + listed(numbers.get(i)));
    }
    boolean nested = numbers.stream().anyMatch(n -> n.size() > 1);
    return nested ? String.join(", ", said) : listed(said);
  }

  /** "Ines, Joss and Wim". */
  public static String listed(List<String> names) {
    int last = names.size() - 1;
    return last < 1
        ? String.join("", names)
        : String.join(", ", names.subList(0, last)) + " and " + names.get(last);
  }

  /** "1:05". */
  public static String clock(double seconds) {
    long whole = (long) Math.floor(seconds + 0.0005);
    return String.format(Locale.ROOT, "%d:%02d", whole / 60, whole % 60);
  }

  /** "1:05.250", to the millisecond. */
  public static String clockMillis(double seconds) {
    long millis = Math.round(seconds * 1000);
    return String.format(
        Locale.ROOT, "%d:%02d.%03d", millis / 60_000, millis / 1000 % 60, millis % 1000);
  }

  /** "+1.0 dB" with a true minus. */
  public static String decibels(double db) {
    String figure = String.format(Locale.ROOT, "%+.1f", db);
    return (figure.matches("[+-]0\\.0") ? "0.0" : figure.replace('-', TRUE_MINUS)) + " dB";
  }

  static String capital(String text) {
    return text.isEmpty()
        ? text
        : text.substring(0, text.offsetByCodePoints(0, 1)).toUpperCase(Locale.ROOT)
            + text.substring(text.offsetByCodePoints(0, 1));
  }
}
