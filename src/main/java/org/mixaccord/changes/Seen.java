package org.mixaccord.changes;

import java.util.Locale;

/** What the evidence says of one change in one bounce. */
public enum Seen {
  AS_ASKED,
  /** In the direction asked for, but less, or not everywhere. */
  PARTLY,
  /** In the direction asked for, but more. */
  TOO_FAR,
  /** The other way. */
  OPPOSITE,
  /** No more than what cannot be told from nothing. */
  NOT_SEEN,
  /** The files do not tell. */
  CANNOT_TELL;

  /** Name on the wire. */
  public String wire() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }
}
