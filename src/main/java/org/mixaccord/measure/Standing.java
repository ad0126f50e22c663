package org.mixaccord.measure;

import java.util.Locale;

/** What stands behind a limit. docs/measurement.md lists the same. */
public enum Standing {
  /** What the people of the project agreed on. */
  AGREEMENT,
  /** A standard, which says it itself. */
  STANDARD,
  /** A recommendation or technical document of a body that others follow. */
  RECOMMENDATION,
  /** Many do so; nobody has laid it down. */
  HABIT;

  /** The word on the wire. */
  public String wire() {
    return name().toLowerCase(Locale.ROOT);
  }
}
