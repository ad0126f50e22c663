package org.mixaccord.accounts;

import org.mixaccord.problem.Problem;
import org.mixaccord.problem.ProblemException;

/** How alike a later bounce must be to an approved one for the approval to stay by itself. */
public enum ApprovalStays {
  IDENTICAL("identical"),
  SAME_AUDIO("same-audio"),
  REQUANTISED("requantised");

  private final String wire;

  ApprovalStays(String wire) {
    this.wire = wire;
  }

  public String wire() {
    return wire;
  }

  /** The value with that name on the wire, or the problem {@code invalid}. */
  public static ApprovalStays of(String wire) {
    for (ApprovalStays value : values()) {
      if (value.wire.equals(wire)) {
        return value;
      }
    }
    throw new ProblemException(
        Problem.INVALID, "approvalStays is one of identical, same-audio or requantised.");
  }
}
