package org.mixaccord.accounts;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Event;
import jakarta.persistence.EntityManager;
import jakarta.transaction.Transactional;
import java.time.Clock;
import java.time.Instant;
import java.util.Locale;
import java.util.Optional;
import org.mixaccord.problem.Problem;
import org.mixaccord.problem.ProblemException;

/** Signing in and out: by password, by link, by token. */
@ApplicationScoped
public class SignIn {
  /** A person signed in, and the secret for their cookie. */
  public record Opened(Person person, String secret) {}

  private final AccountsConfig config;
  private final Clock clock;
  private final EntityManager entities;
  private final Event<AccessEnded> ended;

  SignIn(AccountsConfig config, Clock clock, EntityManager entities, Event<AccessEnded> ended) {
    this.config = config;
    this.clock = clock;
    this.entities = entities;
    this.ended = ended;
  }

  /** Opens a session for a person; always a new one. */
  @Transactional
  public Opened open(Person person) {
    String secret = Ids.secret();
    WebSession.begin(person, secret, clock.instant());
    return new Opened(person, secret);
  }

  /**
   * Signs in by address and password.
   *
   * @throws ProblemException {@code wrong-credentials}, or {@code slow-down} after too many tries
   */
  @Transactional(dontRollbackOn = ProblemException.class)
  public Opened byPassword(String email, String password) {
    String subject = email == null ? "" : email.strip().toLowerCase(Locale.ROOT);
    Instant now = clock.instant();
    if (failuresOf(subject, now) >= config.signInTries()) {
      throw new ProblemException(
              Problem.SLOW_DOWN,
              "Too many failed tries for this address. Wait a quarter of an hour, or use a link.")
          .with("retryAfterSeconds", config.signInWindow().toSeconds());
    }
    Optional<Person> person = subject.isEmpty() ? Optional.empty() : Person.withEmail(subject);
    String given = password == null ? "" : password;
    boolean known =
        person
            .map(p -> p.knowsPassword(given))
            .orElseGet(
                () -> {
                  io.quarkus.elytron.security.common.BcryptUtil.matches(given, Person.NO_PASSWORD);
                  return false;
                });
    if (!known) {
      entities
          .createNativeQuery("insert into sign_in_failure (subject, at) values (?1, ?2)")
          .setParameter(1, Hashes.sha256(subject))
          .setParameter(2, now)
          .executeUpdate();
      throw new ProblemException(
          Problem.WRONG_CREDENTIALS, "Check the address and the password, and try again.");
    }
    entities
        .createNativeQuery("delete from sign_in_failure where subject = ?1")
        .setParameter(1, Hashes.sha256(subject))
        .executeUpdate();
    return open(person.orElseThrow());
  }

  /** Signs in by a one-time link and uses it up. */
  @Transactional
  public Opened byLink(String secret) {
    return open(OneTimeLink.useForSignIn(secret, clock.instant()));
  }

  /** Makes the owner by the one-time set-up link and uses it up. */
  @Transactional
  public Opened setUp(String secret, String name, String email, String password) {
    OneTimeLink.useForSetUp(secret, clock.instant());
    if (Person.ownerExists()) {
      throw new ProblemException(
          Problem.LINK_USED, "This server has been set up already. Sign in, or ask its owner.");
    }
    return open(makeOwner(name, email, password));
  }

  /** Makes the server's owner. */
  @Transactional
  public Person makeOwner(String name, String email, String password) {
    if (password == null) {
      throw new ProblemException(Problem.INVALID, "“password” is missing.");
    }
    Person owner = Person.named(name, email, true, clock.instant());
    owner.choosePassword(password);
    return owner;
  }

  /** Makes the owner named by the operator, if the server has none yet. */
  @Transactional
  public Optional<Person> makeFirstOwner(String email, String password) {
    return Person.ownerExists()
        ? Optional.empty()
        : Optional.of(makeOwner("Owner", email, password));
  }

  /** A link that signs a person in once. */
  @Transactional
  public String linkFor(Person person) {
    String secret = Ids.secret();
    OneTimeLink.forSignIn(person, secret, clock.instant());
    return secret;
  }

  /** A link that sets the server up once; empty when it has its owner already. */
  @Transactional
  public Optional<String> setUpLink() {
    if (Person.ownerExists()) {
      return Optional.empty();
    }
    String secret = Ids.secret();
    OneTimeLink.forSetUp(secret, clock.instant());
    return Optional.of(secret);
  }

  /** The session a cookie belongs to. */
  @Transactional
  public Optional<WebSession> session(String secret) {
    Optional<WebSession> session = WebSession.withSecret(secret, clock.instant());
    session.ifPresent(s -> s.person().name());
    return session;
  }

  /** The access token with that secret. */
  @Transactional
  public Optional<AccessToken> token(String secret) {
    Optional<AccessToken> token = AccessToken.withSecret(secret);
    token.ifPresent(t -> t.person().name());
    return token;
  }

  /** Whether a session or an access token still lets its person in. */
  @Transactional
  public boolean opens(String key) {
    return WebSession.findByIdOptional(key).isPresent()
        || AccessToken.findByIdOptional(key).isPresent();
  }

  /** Drops one of a person's access tokens; open streams end with it. */
  @Transactional
  public void dropToken(Person owner, String tokenId) {
    AccessToken token =
        AccessToken.<AccessToken>findByIdOptional(tokenId)
            .filter(t -> t.person().id().equals(owner.id()))
            .orElseThrow(Doorkeeper::notFound);
    ended.fire(new AccessEnded(owner.id(), token.id(), null));
    token.delete();
  }

  /** Ends a session on the server; its open streams end with it. */
  @Transactional
  public void out(String sessionId) {
    WebSession.<WebSession>findByIdOptional(sessionId)
        .ifPresent(
            session -> {
              ended.fire(new AccessEnded(session.person().id(), session.id(), null));
              session.delete();
            });
  }

  private long failuresOf(String subject, Instant now) {
    return ((Number)
            entities
                .createNativeQuery(
                    "select count(*) from sign_in_failure where subject = ?1 and at > ?2")
                .setParameter(1, Hashes.sha256(subject))
                .setParameter(2, now.minus(config.signInWindow()))
                .getSingleResult())
        .longValue();
  }
}
