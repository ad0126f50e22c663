package org.mixaccord.audio.container;

import java.util.OptionalDouble;

/**
 * Something wrong with a file that can still be heard.
 *
 * @param code kebab-case name, stable for other programs
 * @param detail what it is and what to do, in a musician's words
 * @param affectsSound true if what is heard is not, or may not be, what was meant
 * @param fromSeconds where it begins, if it has a place
 * @param toSeconds where it ends, if it has a place
 */
public record FileDefect(
    String code,
    String detail,
    boolean affectsSound,
    OptionalDouble fromSeconds,
    OptionalDouble toSeconds) {

  /** A defect of the whole file. */
  public static FileDefect whole(String code, String detail, boolean affectsSound) {
    return new FileDefect(
        code, detail, affectsSound, OptionalDouble.empty(), OptionalDouble.empty());
  }

  /** A defect with a place, in seconds of the file. */
  public static FileDefect at(String code, String detail, double fromSeconds, double toSeconds) {
    return new FileDefect(
        code, detail, true, OptionalDouble.of(fromSeconds), OptionalDouble.of(toSeconds));
  }

  /**
   * The file is shorter than it claims.
   *
   * @param there frames or bytes that are there
   * @param claimed how many it claims, more than {@code there}
   */
  public static FileDefect truncated(long there, long claimed) {
    double percent = 100.0 * there / claimed;
    String share = percent < 1 ? "less than 1 %" : (long) Math.min(99, Math.floor(percent)) + " %";
    return whole(
        "truncated",
        "The file is cut off: "
            + share
            + " of the length it claims is there. Export or upload it again.",
        true);
  }
}
