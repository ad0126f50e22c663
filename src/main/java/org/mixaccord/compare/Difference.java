package org.mixaccord.compare;

/** What comparing says of one section. */
public enum Difference {
  /** The same, apart from what the named causes explain. */
  UNCHANGED("unchanged"),
  /** Something in it was altered. */
  CHANGED("changed"),
  /** The files differ too much everywhere to tell. */
  UNCERTAIN("uncertain"),
  /** The other bounce does not have it. */
  ONLY_HERE("only-here"),
  /** This bounce does not have it. */
  ONLY_THERE("only-there");

  private final String wire;

  Difference(String wire) {
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
