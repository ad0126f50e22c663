package org.mixaccord.accounts;

import io.quarkus.hibernate.orm.panache.PanacheEntityBase;
import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.FetchType;
import jakarta.persistence.Id;
import jakarta.persistence.JoinColumn;
import jakarta.persistence.ManyToOne;
import jakarta.persistence.Table;
import java.time.Duration;
import java.time.Instant;
import java.util.Optional;

/** A signed-in browser. The cookie holds the secret, the database its hash. */
@Entity
@Table(name = "web_session")
public class WebSession extends PanacheEntityBase {
  /** A browser unused for this long has to sign in again. */
  public static final Duration IDLE = Duration.ofDays(30);

  private static final Duration TOUCH_EVERY = Duration.ofMinutes(10);

  @Id private String id;

  @Column(name = "token_hash")
  private String tokenHash;

  @ManyToOne(fetch = FetchType.LAZY)
  @JoinColumn(name = "person")
  private Person person;

  @Column(name = "created_at")
  private Instant createdAt;

  @Column(name = "last_seen_at")
  private Instant lastSeenAt;

  protected WebSession() {}

  static WebSession begin(Person person, String secret, Instant now) {
    WebSession session = new WebSession();
    session.id = Ids.fresh();
    session.tokenHash = Hashes.sha256(secret);
    session.person = person;
    session.createdAt = now;
    session.lastSeenAt = now;
    session.persist();
    return session;
  }

  static Optional<WebSession> withSecret(String secret, Instant now) {
    Optional<WebSession> found =
        find("tokenHash = ?1 and lastSeenAt > ?2", Hashes.sha256(secret), now.minus(IDLE))
            .firstResultOptional();
    found.ifPresent(
        session -> {
          if (session.lastSeenAt.isBefore(now.minus(TOUCH_EVERY))) {
            session.lastSeenAt = now;
          }
        });
    return found;
  }

  public String id() {
    return id;
  }

  public Person person() {
    return person;
  }
}
