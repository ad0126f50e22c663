package org.mixaccord.demo.music;

import java.util.List;

/**
 * How one mix is made of the parts.
 *
 * @param number 1 for the first mix
 * @param headCutFrames frames left off at the start of the song
 * @param moves level moves beside the song's own balance
 */
record MixPlan(int number, int headCutFrames, List<Move> moves) {
  static final double OUT = Double.NEGATIVE_INFINITY;

  /**
   * One part, other than balanced, in some sections.
   *
   * @param part which part; "mix" moves every part alike
   * @param sections names of sections; empty for the whole song
   * @param db level in dB beside the balance; {@link #OUT} takes the part away
   */
  record Move(String part, List<String> sections, double db) {
    static Move of(String part, double db, String... sections) {
      return new Move(part, List.of(sections), db);
    }
  }

  MixPlan {
    moves = List.copyOf(moves);
  }

  /** The move of a part in a section, in dB; several moves add up. */
  double moveDb(String part, String section) {
    double db = 0;
    for (Move move : moves) {
      boolean here = move.sections().isEmpty() || move.sections().contains(section);
      if (here && (move.part().equals(part) || move.part().equals("mix"))) {
        db += move.db();
      }
    }
    return db;
  }
}
