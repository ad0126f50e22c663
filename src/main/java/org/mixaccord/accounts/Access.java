package org.mixaccord.accounts;

import java.util.Set;
import org.mixaccord.problem.Problem;
import org.mixaccord.problem.ProblemException;

/**
 * One person's way into one project: who they are there and what they may do.
 *
 * @param person the person signed in
 * @param member their active membership
 * @param project the project
 * @param people everybody active in the project
 * @param may everything this member may do, decided by {@link Rights}
 */
public record Access(
    Person person, Member member, Project project, ProjectPeople people, Set<Act> may) {

  /** Whether the member may do something. */
  public boolean may(Act act) {
    return may.contains(act);
  }

  /** Ends the request with {@code not-allowed} unless the member may do it. */
  public void require(Act act) {
    if (!may(act)) {
      throw new ProblemException(
              Problem.NOT_ALLOWED,
              "As "
                  + member.role().wire()
                  + " of this project you cannot do that. "
                  + helper()
                  + " can help.")
          .with("act", act.wire());
    }
  }

  private String helper() {
    return switch (member.role()) {
      case ENGINEER -> "The manager";
      case MANAGER -> "The engineer";
      default -> "The engineer or the manager";
    };
  }

  /** Whether the person has the last word of the project. */
  public boolean hasLastWord() {
    return may(Act.SETTLE);
  }
}
