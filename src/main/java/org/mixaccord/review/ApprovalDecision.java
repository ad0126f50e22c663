package org.mixaccord.review;

import java.util.Locale;
import java.util.Optional;

/** What a person can say to a whole bounce. */
public enum ApprovalDecision {
  /** This audio is it. */
  APPROVE,
  /** Content, without being asked to approve. */
  FINE_BY_ME,
  /** Something is still missing. */
  NOT_YET,
  /** Nothing goes on until this is lifted. */
  STOP,
  /** Nobody else is there to approve; the engineer is done. */
  FINISHED;

  /** Name on the wire and in the database. */
  public String wire() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  /** Whether it binds the audio, so that open points and a false hash refuse it. */
  public boolean binds() {
    return this == APPROVE || this == FINISHED;
  }

  /** What is called so, if anything. */
  public static Optional<ApprovalDecision> of(String wire) {
    for (ApprovalDecision decision : values()) {
      if (decision.wire().equals(wire)) {
        return Optional.of(decision);
      }
    }
    return Optional.empty();
  }
}
