package org.mixaccord.notes;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;

/**
 * The place a request is about: sections by name, or a stretch of time, or the whole song.
 *
 * @param sections section names in song order; empty for a stretch of time and for the whole song
 * @param fromSeconds begin of the stretch; present only together with {@code toSeconds}
 * @param toSeconds end of the stretch; equal to the begin for a single moment
 */
public record Where(List<String> sections, OptionalDouble fromSeconds, OptionalDouble toSeconds) {
  /** The whole song, or a place left unsaid. */
  public static final Where WHOLE_SONG =
      new Where(List.of(), OptionalDouble.empty(), OptionalDouble.empty());

  /**
   * Copies the list and checks the stretch.
   *
   * @throws IllegalArgumentException if both kinds of place are given, or the ends are out of order
   */
  public Where {
    sections = List.copyOf(sections);
    if (fromSeconds.isPresent() != toSeconds.isPresent()) {
      throw new IllegalArgumentException("a stretch of time has two ends");
    }
    if (fromSeconds.isPresent() && !sections.isEmpty()) {
      throw new IllegalArgumentException("a place is either sections or a stretch of time");
    }
    if (fromSeconds.isPresent()
        && !(fromSeconds.getAsDouble() >= 0
            && toSeconds.getAsDouble() >= fromSeconds.getAsDouble()
            && Double.isFinite(toSeconds.getAsDouble()))) {
      throw new IllegalArgumentException(
          "from " + fromSeconds.getAsDouble() + " to " + toSeconds.getAsDouble());
    }
  }

  /** Named sections, in song order. */
  public static Where in(List<String> sections) {
    return sections.isEmpty()
        ? WHOLE_SONG
        : new Where(sections, OptionalDouble.empty(), OptionalDouble.empty());
  }

  /** A stretch of time in seconds on the bounce the note is about. */
  public static Where between(double fromSeconds, double toSeconds) {
    return new Where(List.of(), OptionalDouble.of(fromSeconds), OptionalDouble.of(toSeconds));
  }

  /** Whether nothing narrower than the whole song is named. */
  public boolean isWholeSong() {
    return sections.isEmpty() && fromSeconds.isEmpty();
  }

  /**
   * The place as it travels in JSON.
   *
   * @return a list of section names (empty for the whole song) or {@code {from, to}} in seconds
   */
  public Object wire() {
    if (fromSeconds.isEmpty()) {
      return sections;
    }
    Map<String, Object> map = new LinkedHashMap<>();
    map.put("from", fromSeconds.getAsDouble());
    map.put("to", toSeconds.getAsDouble());
    return map;
  }
}
