package org.mixaccord.align;

/**
 * How one bounce lies against another.
 *
 * @param timeMap which time here is which time there; without pieces when nothing matches
 * @param offsetSeconds {@code otherFrom − from} of the longest piece: positive when the same music
 *     comes later in the other bounce; 0 when nothing matches
 * @param speedRatio seconds here for one second there, of the longest piece; 1 when nothing matches
 * @param polarity +1, or −1 when one is the other turned upside down
 * @param channelsSwapped whether left here is right there
 * @param clockDiffers whether the speed is measurably not 1 although both name their rates rightly
 * @param wrongRate whether one file carries the wrong sample rate (plays at another speed)
 * @param sure how sure the whole map is, 0 to 1, pieces weighted by length
 */
public record Alignment(
    TimeMap timeMap,
    double offsetSeconds,
    double speedRatio,
    int polarity,
    boolean channelsSwapped,
    boolean clockDiffers,
    boolean wrongRate,
    double sure) {

  /** Whether anything matches at all. */
  public boolean matched() {
    return !timeMap.pieces().isEmpty();
  }

  static Alignment none(double secondsHere, double secondsThere) {
    return new Alignment(TimeMap.none(secondsHere, secondsThere), 0, 1, 1, false, false, false, 0);
  }
}
