package org.mixaccord.accounts;

import jakarta.enterprise.context.RequestScoped;
import java.util.Optional;
import org.mixaccord.problem.Problem;
import org.mixaccord.problem.ProblemException;

/** Who sends the present request: by cookie, by access token, or nobody. */
@RequestScoped
public class Caller {
  private String personId;
  private String sessionId;

  /** Set once a request, by whatever checked the cookie or the token. */
  public void is(String person, String session) {
    personId = person;
    sessionId = session;
  }

  /** The person signed in, if any. */
  public Optional<Person> person() {
    return personId == null ? Optional.empty() : Person.findByIdOptional(personId);
  }

  /** The browser session, if that is how the person signed in. */
  public Optional<String> session() {
    return Optional.ofNullable(sessionId);
  }

  /** The person signed in, or the problem {@code not-signed-in}. */
  public Person required() {
    return person()
        .orElseThrow(
            () ->
                new ProblemException(
                    Problem.NOT_SIGNED_IN, "Sign in, or open the link you were given."));
  }
}
