package org.mixaccord.align;

/**
 * A stretch of one bounce's time line in seconds, 0 at its first sample.
 *
 * @param from start, 0 or more
 * @param to end, not before {@code from}
 */
public record TimeSpan(double from, double to) {
  public TimeSpan {
    if (!(from >= 0) || !(to >= from) || Double.isInfinite(to)) {
      throw new IllegalArgumentException("not a stretch of time: " + from + " to " + to);
    }
  }

  /** Length in seconds. */
  public double seconds() {
    return to - from;
  }
}
