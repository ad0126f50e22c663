package org.mixaccord.notes;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;

/** The closed word lists a reading is expressed in; the strings are the names on the wire. */
public final class Vocabulary {
  /** Everything, or nothing in particular. */
  public static final String MIX = "mix";

  /** Canonical names of parts. Any other part keeps the writer's word, lower case. */
  public static final Set<String> ELEMENTS =
      Set.of(
          "lead vocal",
          "backing vocals",
          "vocals",
          "drums",
          "kick",
          "snare",
          "toms",
          "hi-hat",
          "cymbals",
          "overheads",
          "room mics",
          "percussion",
          "bass",
          "sub bass",
          "guitars",
          "electric guitar",
          "acoustic guitar",
          "guitar solo",
          "piano",
          "keys",
          "organ",
          "synth",
          "pad",
          "strings",
          "brass",
          "woodwinds",
          "effects",
          MIX);

  private static final List<String> UP_DOWN = List.of("up", "down");
  private static final Map<String, List<String>> DIRECTIONS = directions();

  private Vocabulary() {}

  private static Map<String, List<String>> directions() {
    Map<String, List<String>> map = new LinkedHashMap<>();
    map.put("level", List.of("up", "down", "match", "set"));
    map.put("mute", List.of("out", "in"));
    map.put("pan", List.of("left", "right", "centre"));
    map.put("width", List.of("wider", "narrower"));
    for (String band : List.of("lows", "low mids", "mids", "highs", "harshness", "sibilance")) {
      map.put(band, UP_DOWN);
    }
    for (String treatment : List.of("reverb", "delay", "compression", "distortion", "impact")) {
      map.put(treatment, UP_DOWN);
    }
    map.put("timing", List.of("earlier", "later", "tighter"));
    map.put("tuning", List.of("fix"));
    map.put("noise", List.of("fix"));
    map.put("fade", List.of("longer", "shorter"));
    map.put("length", List.of("longer", "shorter"));
    map.put("effect", List.of("in", "out"));
    map.put("delivery", List.of("add"));
    map.put("other", List.of("any"));
    return map;
  }

  /** All aspects, in a fixed order. */
  public static List<String> aspects() {
    return List.copyOf(DIRECTIONS.keySet());
  }

  /**
   * The directions an aspect can have.
   *
   * @param aspect any string
   * @return its directions; empty for an unknown aspect
   */
  public static List<String> directions(String aspect) {
    return aspect == null ? List.of() : DIRECTIONS.getOrDefault(aspect, List.of());
  }

  /** Whether aspect and direction are known and go together. */
  public static boolean knows(String aspect, String direction) {
    return direction != null && directions(aspect).contains(direction);
  }
}
