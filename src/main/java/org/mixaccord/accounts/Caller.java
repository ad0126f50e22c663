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
  private String tokenId;

  /** Set once a request that came with a cookie. */
  public void bySession(WebSession session) {
    personId = session.person().id();
    sessionId = session.id();
  }

  /** Set once a request that came with an access token. */
  public void byToken(AccessToken token) {
    personId = token.person().id();
    tokenId = token.id();
  }

  /** The server itself acts for somebody, as in its example. */
  public void is(Person person) {
    personId = person.id();
  }

  /** The person signed in, if any. */
  public Optional<Person> person() {
    return personId == null ? Optional.empty() : Person.findByIdOptional(personId);
  }

  /** The browser session, if that is how the person signed in. */
  public Optional<String> session() {
    return Optional.ofNullable(sessionId);
  }

  /** The session or the access token that let the person in; null when the server acts. */
  public String key() {
    return sessionId == null ? tokenId : sessionId;
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
