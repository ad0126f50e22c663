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
import org.mixaccord.problem.Problem;
import org.mixaccord.problem.ProblemException;

/** A link that works once: to set the server up, or to sign a person in on another device. */
@Entity
@Table(name = "one_time_link")
public class OneTimeLink extends PanacheEntityBase {
  static final Duration SIGN_IN_LASTS = Duration.ofDays(7);
  private static final Duration SET_UP_LASTS = Duration.ofDays(365);
  private static final String SET_UP = "set-up";
  private static final String SIGN_IN = "sign-in";

  @Id private String id;

  @Column(name = "token_hash")
  private String tokenHash;

  private String purpose;

  @ManyToOne(fetch = FetchType.LAZY)
  @JoinColumn(name = "person")
  private Person person;

  @Column(name = "expires_at")
  private Instant expiresAt;

  @Column(name = "used_at")
  private Instant usedAt;

  protected OneTimeLink() {}

  /** A fresh set-up link takes the place of any earlier one. */
  public static void forSetUp(String secret, Instant now) {
    delete("purpose", SET_UP);
    make(SET_UP, null, secret, now.plus(SET_UP_LASTS));
  }

  /** A link that signs the person in once, within a week. */
  public static void forSignIn(Person person, String secret, Instant now) {
    make(SIGN_IN, person, secret, now.plus(SIGN_IN_LASTS));
  }

  private static void make(String purpose, Person person, String secret, Instant expiresAt) {
    OneTimeLink link = new OneTimeLink();
    link.id = Ids.fresh();
    link.tokenHash = Hashes.sha256(secret);
    link.purpose = purpose;
    link.person = person;
    link.expiresAt = expiresAt;
    link.persist();
  }

  /** Uses the set-up link up. */
  static void useForSetUp(String secret, Instant now) {
    use(SET_UP, secret, now);
  }

  /** Uses a sign-in link up and says whose it is. */
  static Person useForSignIn(String secret, Instant now) {
    return use(SIGN_IN, secret, now).person;
  }

  private static OneTimeLink use(String purpose, String secret, Instant now) {
    Optional<OneTimeLink> found =
        find("tokenHash = ?1 and purpose = ?2", Hashes.sha256(secret), purpose)
            .withLock(jakarta.persistence.LockModeType.PESSIMISTIC_WRITE)
            .firstResultOptional();
    OneTimeLink link =
        found.orElseThrow(
            () -> new ProblemException(Problem.NOT_FOUND, "This link is not known here."));
    if (link.usedAt != null || now.isAfter(link.expiresAt)) {
      throw new ProblemException(
          Problem.LINK_USED,
          "This link works once and has been used or has run out. Ask for a new one.");
    }
    link.usedAt = now;
    return link;
  }
}
