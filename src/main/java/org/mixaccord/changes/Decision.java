package org.mixaccord.changes;

/**
 * Whether something may be done, and why not.
 *
 * @param outcome what was decided
 * @param reason one sentence for the person; empty when it is allowed
 */
public record Decision(Outcome outcome, String reason) {
  /** What can come of asking. */
  public enum Outcome {
    ALLOWED,
    /** Somebody else may, this person may not. */
    NOT_YOURS,
    /** Nobody may at this point. */
    WRONG_STATE,
    /** Allowed once a reason is given. */
    REASON_NEEDED
  }

  /** It may be done. */
  public static final Decision ALLOWED = new Decision(Outcome.ALLOWED, "");

  /** Somebody else may. */
  public static Decision notYours(String reason) {
    return new Decision(Outcome.NOT_YOURS, reason);
  }

  /** Nobody may at this point. */
  public static Decision wrongState(String reason) {
    return new Decision(Outcome.WRONG_STATE, reason);
  }

  static Decision reasonNeeded(String reason) {
    return new Decision(Outcome.REASON_NEEDED, reason);
  }

  /** Whether it may be done. */
  public boolean allowed() {
    return outcome == Outcome.ALLOWED;
  }
}
