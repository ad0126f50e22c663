package org.mixaccord.changes;

import java.util.Map;
import java.util.Optional;

/** Which way is the other way. Words as in {@link org.mixaccord.notes.Vocabulary}. */
final class Directions {
  private static final Map<String, String> OPPOSITE =
      Map.ofEntries(
          Map.entry("up", "down"),
          Map.entry("down", "up"),
          Map.entry("out", "in"),
          Map.entry("in", "out"),
          Map.entry("left", "right"),
          Map.entry("right", "left"),
          Map.entry("wider", "narrower"),
          Map.entry("narrower", "wider"),
          Map.entry("earlier", "later"),
          Map.entry("later", "earlier"),
          Map.entry("longer", "shorter"),
          Map.entry("shorter", "longer"));

  private Directions() {}

  /** The opposite; empty where there is none (match, set, centre, fix, add, any, tighter). */
  static Optional<String> opposite(String direction) {
    return Optional.ofNullable(OPPOSITE.get(direction));
  }

  /**
   * Whether two directions of one aspect cannot both be followed: opposites, and the centre against
   * either side.
   */
  static boolean exclude(String one, String other) {
    return opposite(one).filter(other::equals).isPresent()
        || (one.equals("centre") && (other.equals("left") || other.equals("right")))
        || (other.equals("centre") && (one.equals("left") || one.equals("right")));
  }
}
