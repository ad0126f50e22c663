package org.mixaccord.measure;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.mixaccord.audio.FrameRange;

/**
 * Where a bounce is loudest and whether it keeps under the agreed ceiling, in words for people who
 * read no meters: sentences without a single figure.
 */
public final class Loudest {
  private static final Pattern NUMBERED = Pattern.compile("(.*\\S)\\s+(\\d+)");

  private Loudest() {}

  /** A section of the song where it lies on the bounce. */
  public record Named(String name, FrameRange range) {}

  /**
   * The words.
   *
   * @param sections in the order of time; none where the song has no form yet
   * @param agreed what was agreed, held against the bounce
   */
  public static String words(MeasureTrack track, List<Named> sections, List<Agreed> agreed) {
    if (track.silent(0, track.cells().count())) {
      return "There is nothing to hear in this mix.";
    }
    OptionalInt loudest = track.loudest(sections.stream().map(Named::range).toList());
    Optional<FrameRange> spot = track.loudestThreeSeconds();
    String where = where(track, sections, loudest, spot);
    Optional<Boolean> under = underTheCeiling(agreed);
    if (under.isEmpty()) {
      return where + ".";
    }
    return under.get()
        ? where + "; it stays under the agreed ceiling."
        : where + ". The mix goes over the agreed ceiling; the engineer sees where.";
  }

  private static String where(
      MeasureTrack track, List<Named> sections, OptionalInt loudest, Optional<FrameRange> spot) {
    if (loudest.isEmpty()) {
      return spot.map(s -> "The loudest spot is " + shareOf(track, s))
          .orElse("The mix is too short to say where it is loudest");
    }
    Named section = sections.get(loudest.getAsInt());
    String name = spoken(sections, section.name());
    boolean here = spot.isEmpty() || holds(section, spot.get());
    if (here) {
      return capital(name) + " is the loudest spot";
    }
    return capital(name)
        + " is the loudest part as a whole, the loudest moment comes "
        + sections.stream()
            .filter(s -> holds(s, spot.get()))
            .findFirst()
            .map(s -> "in " + spoken(sections, s.name()))
            .orElse(shareOf(track, spot.get()));
  }

  private static boolean holds(Named section, FrameRange spot) {
    long middle = (spot.from() + spot.to()) / 2;
    return middle >= section.range().from() && middle < section.range().to();
  }

  private static String shareOf(MeasureTrack track, FrameRange spot) {
    double share = (spot.from() + spot.to()) / 2.0 / track.frames();
    return share < 0.25
        ? "near the beginning"
        : share < 0.42
            ? "in the first half"
            : share < 0.58
                ? "about the middle"
                : share < 0.75 ? "in the second half" : "near the end";
  }

  /** "the last chorus" for the last of several numbered alike, else the name as it is written. */
  private static String spoken(List<Named> sections, String name) {
    Matcher numbered = NUMBERED.matcher(name);
    if (!numbered.matches()) {
      return name;
    }
    String word = numbered.group(1);
    List<String> alike =
        sections.stream()
            .map(Named::name)
            .filter(
                n -> {
                  Matcher other = NUMBERED.matcher(n);
                  return other.matches() && other.group(1).equals(word);
                })
            .toList();
    boolean last = alike.size() > 1 && alike.get(alike.size() - 1).equals(name);
    return last ? "the last " + plain(word) : name;
  }

  /** "Chorus" in the middle of a sentence; a word with capitals of its own keeps them. */
  private static String plain(String word) {
    String lower = word.toLowerCase(Locale.ROOT);
    return word.substring(1).equals(lower.substring(1)) ? lower : word;
  }

  private static Optional<Boolean> underTheCeiling(List<Agreed> agreed) {
    List<Agreed> ceilings = agreed.stream().filter(a -> a.field().startsWith("ceiling")).toList();
    return ceilings.isEmpty()
        ? Optional.empty()
        : Optional.of(ceilings.stream().allMatch(a -> a.met().orElse(true)));
  }

  private static String capital(String text) {
    return text.substring(0, 1).toUpperCase(Locale.ROOT) + text.substring(1);
  }
}
