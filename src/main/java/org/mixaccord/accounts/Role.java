package org.mixaccord.accounts;

import java.util.Locale;
import org.mixaccord.problem.Problem;
import org.mixaccord.problem.ProblemException;

/** What a person is in a project. */
public enum Role {
  ENGINEER,
  ARTIST,
  MANAGER,
  LISTENER;

  /** Name on the wire and in the database. */
  public String wire() {
    return name().toLowerCase(Locale.ROOT);
  }

  /** The role with that name on the wire, or the problem {@code unknown-role}. */
  public static Role of(String wire) {
    for (Role role : values()) {
      if (role.wire().equals(wire)) {
        return role;
      }
    }
    throw new ProblemException(
        Problem.UNKNOWN_ROLE,
        "A role is one of engineer, artist, manager or listener; "
            + (wire == null ? "none was given." : "“" + wire + "” is none of them."));
  }
}
