package org.mixaccord.songs;

import java.util.Locale;

/** How far an uploaded file has come. */
public enum AudioState {
  RECEIVED,
  MEASURING,
  READY,
  FAILED;

  /** Name on the wire and in the database. */
  public String wire() {
    return name().toLowerCase(Locale.ROOT);
  }
}
