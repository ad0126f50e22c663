package org.mixaccord.changes;

import java.util.Locale;
import java.util.Optional;

/** What the engineer answers to a change, beside marking it done or left. */
public enum ChangeAnswer {
  /** Done the way it was said. */
  AS_ASKED,
  /** Done, by other means. */
  DIFFERENTLY,
  /** Tried, and better without. */
  TRIED,
  /** Not possible. */
  CANNOT,
  /** Files are missing. */
  NEED_FILES,
  /** More than a change to the mix. */
  NEW_WORK;

  /** Name on the wire and in the database. */
  public String wire() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  /** Whether the answer goes with that state: the first two with done, the others with left. */
  public boolean fits(ChangeState state) {
    return this == AS_ASKED || this == DIFFERENTLY
        ? state == ChangeState.DONE
        : state == ChangeState.LEFT;
  }

  /**
   * The answer with that name.
   *
   * @param wire any string or null
   * @return empty when there is none
   */
  public static Optional<ChangeAnswer> of(String wire) {
    for (ChangeAnswer answer : values()) {
      if (answer.wire().equals(wire)) {
        return Optional.of(answer);
      }
    }
    return Optional.empty();
  }
}
