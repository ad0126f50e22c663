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

  /** Ends the request with {@code not-signed-in} when nobody is signed in. */
  public void signedIn() {
    caller.required();
  }

  /** The caller's access to a project; {@code not-found} for strangers and those who left. */
  public Access project(String projectId) {
    return access(caller.required(), projectId);
  }

  /** A given person's access to a project; {@code not-found} for strangers and those who left. */
  public Access access(Person person, String projectId) {
    Member member =
        Member.of(projectId, person.id()).orElseThrow(() -> notFound("There is no such project."));
    ProjectPeople people = ProjectPeople.of(member.project());
    return new Access(person, member, member.project(), people, people.mayOf(member));
  }

  /** The answer to whoever may not know whether something exists. */
  public static ProblemException notFound(String detail) {
    return new ProblemException(Problem.NOT_FOUND, detail + " Or you do not belong to it.");
  }
}
