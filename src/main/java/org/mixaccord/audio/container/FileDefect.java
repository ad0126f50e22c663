package org.mixaccord.audio.container;

import java.util.Locale;
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
    return whole(
        "truncated",
        "The file is cut off: "
            + share(there, claimed)
            + " of the length it claims is there. Export or upload it again.",
        true);
  }

  /**
   * Less sound could be decoded than the file claims, and whether its end is missing or something
   * within is not known.
   *
   * @param there frames that could be decoded
   * @param claimed how many the file claims, more than {@code there}
   */
  public static FileDefect incomplete(long there, long claimed) {
    return whole(
        "truncated",
        "The file is cut off or damaged: "
            + share(there, claimed)
            + " of the sound it claims could be read. Export or upload it again.",
        true);
  }

  private static String share(long there, long claimed) {
    double percent = 100.0 * there / claimed;
    return percent < 1 ? "less than 1 %" : (long) Math.min(99, Math.floor(percent)) + " %";
  }

  /** The end of the file is missing, and nothing says how much of it. */
  public static FileDefect cutOff() {
    return whole(
        "truncated",
        "The end of the file is missing, so it was probably cut off on its way. Export or upload it"
            + " again.",
        true);
  }

  /** The file carries the time at which it began in the session it was made in. */
  static FileDefect placeInSession(double seconds) {
    long millis = Math.round(seconds * 1000);
    return whole(
        "place-in-session",
        String.format(
            Locale.ROOT,
            "The file is stamped to begin at %d:%02d:%02d.%03d of its session. Mixes are laid against"
                + " each other by their sound, not by this stamp.",
            millis / 3_600_000,
            millis / 60_000 % 60,
            millis / 1000 % 60,
            millis % 1000),
        false);
  }

  /** The file ends inside a frame. */
  static FileDefect partialFrame() {
    return whole(
        "partial-frame",
        "The file ends in the middle of a sample, so it was probably cut off on its way. The"
            + " incomplete last sample is left out.",
        true);
  }

  /** The writer never came back to fill in the length. */
  static FileDefect unfinishedHeader() {
    return whole(
        "unfinished-header",
        "The file's header was never finished, so its length was taken from the file itself. Check"
            + " that the end is there.",
        false);
  }

  /** Bytes behind the sound that are no part of the file's format. */
  static FileDefect trailing(long bytes) {
    return whole(
        "trailing-data",
        "Behind the sound are " + bytes + " bytes that belong to nothing; they are left out.",
        false);
  }
}
