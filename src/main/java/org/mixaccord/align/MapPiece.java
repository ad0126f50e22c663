package org.mixaccord.align;

/**
 * A stretch of music that is in both bounces, running straight through in each.
 *
 * @param from start on this bounce, seconds
 * @param to end on this bounce, seconds, after {@code from}
 * @param otherFrom start on the other bounce, seconds
 * @param otherTo end on the other bounce, seconds, after {@code otherFrom}
 * @param sure how sure the match is, 0 to 1
 */
public record MapPiece(double from, double to, double otherFrom, double otherTo, double sure) {
  public MapPiece {
    if (!(from >= 0) || !(to > from) || !(otherFrom >= 0) || !(otherTo > otherFrom)) {
      throw new IllegalArgumentException(
          "not a piece of a time map: " + from + ".." + to + " on " + otherFrom + ".." + otherTo);
    }
    if (!(sure >= 0 && sure <= 1)) {
      throw new IllegalArgumentException("sure must be 0 to 1, not " + sure);
    }
  }

  /** Seconds here for one second there; 1 unless the clocks or the rates differ. */
  public double speedRatio() {
    return (to - from) / (otherTo - otherFrom);
  }

  /** The other bounce's time for a time on this one; straight on beyond the ends. */
  public double toOther(double seconds) {
    return otherFrom + (seconds - from) / speedRatio();
  }

  /** This bounce's time for a time on the other one; straight on beyond the ends. */
  public double fromOther(double seconds) {
    return from + (seconds - otherFrom) * speedRatio();
  }

  /** Length on this bounce in seconds. */
  public double seconds() {
    return to - from;
  }

  /** The same piece seen from the other bounce. */
  public MapPiece inverse() {
    return new MapPiece(otherFrom, otherTo, from, to, sure);
  }
}
