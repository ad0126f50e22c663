package org.mixaccord.compare;

/** How alike two bounces are, from the same samples to nothing in common. */
public enum Likeness {
  /** Equal decoded samples, whatever the lossless container. */
  IDENTICAL("identical"),
  /** Equal samples apart from silence at head or tail, or stored in another number format. */
  SAME_AUDIO("same-audio"),
  /** Every difference is explained by how the file was made: word length, dither, rate, codec. */
  REQUANTISED("requantised"),
  /** As {@link #REQUANTISED}, with an overall level change or a limiter among the causes. */
  LEVEL_ONLY("level-only"),
  /** Some sections differ, others do not. */
  SECTIONS("sections"),
  /** Nearly every section differs. */
  REWORK("rework"),
  /** Nothing, or too little, matches in time. */
  NOT_COMPARABLE("not-comparable");

  private final String wire;

  Likeness(String wire) {
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
