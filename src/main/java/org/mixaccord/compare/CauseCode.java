package org.mixaccord.compare;

/** What can explain a difference that runs through a whole bounce. */
public enum CauseCode {
  OVERALL_GAIN("overall-gain"),
  LIMITER("limiter"),
  TONE("tone"),
  MONO("mono"),
  LOSSY_CODING("lossy-coding"),
  RESAMPLED("resampled"),
  DRIFT("drift"),
  WRONG_RATE("wrong-rate"),
  POLARITY("polarity"),
  CHANNELS_SWAPPED("channels-swapped"),
  DITHER("dither");

  private final String wire;

  CauseCode(String wire) {
    this.wire = wire;
  }

  /** The word used in the API. */
  public String wire() {
    return wire;
  }

  @Override
  public String toString() {
    return wire;
  }
}
