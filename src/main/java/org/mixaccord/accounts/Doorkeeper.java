package org.mixaccord.accounts;

import jakarta.enterprise.context.ApplicationScoped;
import org.mixaccord.problem.Problem;
import org.mixaccord.problem.ProblemException;

/** Lets the caller into a project, or says that there is nothing here for them. */
@ApplicationScoped
public class Doorkeeper {
  private final Caller caller;

  Doorkeeper(Caller caller) {
    this.caller = caller;
  }

  /** The caller's access to a project; {@code not-found} for strangers and those who left. */
  public Access project(String projectId) {
    return access(caller.required(), projectId);
  }

  /** A given person's access to a project; {@code not-found} for strangers and those who left. */
  public Access access(Person person, String projectId) {
    Member member = Member.of(projectId, person.id()).orElseThrow(Doorkeeper::notFound);
    ProjectPeople people = ProjectPeople.of(member.project());
    return new Access(person, member, member.project(), people, people.mayOf(member));
  }

  /**
   * The answer to whoever may not know whether something exists: the same words whatever it is and
   * whether or not it is there.
   */
  public static ProblemException notFound() {
    return new ProblemException(
        Problem.NOT_FOUND,
        "Either it does not exist, or you do not belong to it. Ask whoever sent you here.");
  }
}
