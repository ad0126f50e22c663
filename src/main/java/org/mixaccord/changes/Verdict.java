package org.mixaccord.changes;

import java.util.OptionalDouble;

/**
 * What moved, against what was asked for.
 *
 * @param seen the judgement
 * @param measuredDb mean change of the part's level, the overall level change removed, dB; empty
 *     when the files do not tell
 * @param deliveredDb the same as delivered, dB
 * @param detail one sentence for the engineer
 */
public record Verdict(
    Seen seen, OptionalDouble measuredDb, OptionalDouble deliveredDb, String detail) {
  static Verdict cannotTell(String detail) {
    return new Verdict(Seen.CANNOT_TELL, OptionalDouble.empty(), OptionalDouble.empty(), detail);
  }
}
