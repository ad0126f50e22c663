package org.mixaccord.changes;

import java.util.Locale;
import java.util.Optional;

/** How far one thing asked for has come. {@link ChangeRules} says who may move it where. */
public enum ChangeState {
  /** A question has to be answered first. */
  UNCLEAR,
  /** On the engineer's list. */
  ASKED,
  /** The engineer says that it is in a bounce. */
  DONE,
  /** Whoever asked heard it and is content. */
  GOOD,
  /** The engineer tried it or cannot do it; or it lost against a contradicting wish. */
  LEFT,
  /** No longer wanted. */
  WITHDRAWN,
  /** Heard, and a next change was asked for in its place. */
  FOLLOWED;

  /** Name on the wire and in the database. */
  public String wire() {
    return name().toLowerCase(Locale.ROOT);
  }

  /** Still to be worked on: {@code unclear} or {@code asked}. */
  public boolean open() {
    return this == UNCLEAR || this == ASKED;
  }

  /**
   * The state with that name.
   *
   * @param wire any string or null
   * @return empty when there is none
   */
  public static Optional<ChangeState> of(String wire) {
    for (ChangeState state : values()) {
      if (state.wire().equals(wire)) {
        return Optional.of(state);
      }
    }
    return Optional.empty();
  }
}
