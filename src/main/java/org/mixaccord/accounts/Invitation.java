package org.mixaccord.accounts;

import io.quarkus.hibernate.orm.panache.PanacheEntityBase;
import jakarta.persistence.Column;
import jakarta.persistence.Convert;
import jakarta.persistence.Entity;
import jakarta.persistence.FetchType;
import jakarta.persistence.Id;
import jakarta.persistence.JoinColumn;
import jakarta.persistence.LockModeType;
import jakarta.persistence.ManyToOne;
import jakarta.persistence.Version;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.mixaccord.problem.Problem;
import org.mixaccord.problem.ProblemException;

/** A link that lets one person, or a whole band, into a project. */
@Entity
public class Invitation extends PanacheEntityBase {
  static final Duration LASTS = Duration.ofDays(30);
  static final int MOST_PEOPLE = 50;

  @Id private String id;
  @Version private int version;

  @Column(name = "token_hash")
  private String tokenHash;

  @ManyToOne(fetch = FetchType.LAZY)
  @JoinColumn(name = "project")
  private Project project;

  private String email;

  @Convert(converter = RoleConverter.class)
  private Role role;

  private int people;
  private int used;
  private boolean mailed;

  @ManyToOne(fetch = FetchType.LAZY)
  @JoinColumn(name = "invited_by")
  private Person invitedBy;

  @Column(name = "created_at")
  private Instant createdAt;

  @Column(name = "expires_at")
  private Instant expiresAt;

  @Column(name = "revoked_at")
  private Instant revokedAt;

  protected Invitation() {}

  static Invitation make(
      Project project, String email, Role role, int people, Person by, String secret, Instant now) {
    if (people < 1 || people > MOST_PEOPLE) {
      throw new ProblemException(
          Problem.INVALID, "An invitation is for 1 to " + MOST_PEOPLE + " people.");
    }
    Invitation invitation = new Invitation();
    invitation.id = Ids.fresh();
    invitation.tokenHash = Hashes.sha256(secret);
    invitation.project = project;
    invitation.email = email == null || email.isBlank() ? null : Person.address(email);
    invitation.role = role;
    invitation.people = people;
    invitation.invitedBy = by;
    invitation.createdAt = now;
    invitation.expiresAt = now.plus(LASTS);
    invitation.persist();
    return invitation;
  }

  /** Finds an invitation to be used now and holds it against others; throws when it is not good. */
  static Invitation usable(String secret, Instant now) {
    Optional<Invitation> found =
        find("tokenHash", Hashes.sha256(secret))
            .withLock(LockModeType.PESSIMISTIC_WRITE)
            .firstResultOptional();
    Invitation invitation =
        found
            .filter(i -> i.revokedAt == null)
            .orElseThrow(
                () ->
                    new ProblemException(
                        Problem.NOT_FOUND,
                        "This invitation is not known here. Ask for a new one."));
    if (invitation.used >= invitation.people) {
      throw new ProblemException(
          Problem.INVITATION_USED, "This invitation has been used up. Ask for a new one.");
    }
    if (now.isAfter(invitation.expiresAt)) {
      throw new ProblemException(
          Problem.INVITATION_EXPIRED, "This invitation has run out. Ask for a new one.");
    }
    return invitation;
  }

  /** The invitations of a project that can still be used, newest first. */
  public static List<Invitation> open(Project project, Instant now) {
    return list(
        "project = ?1 and revokedAt is null and used < people and expiresAt > ?2"
            + " order by createdAt desc, id",
        project,
        now);
  }

  void useOnce() {
    used++;
  }

  /** The link went to the address by mail, so that whoever uses it has read that mail. */
  void sentByMail() {
    mailed = true;
  }

  public void revoke(Instant now) {
    revokedAt = now;
  }

  public String id() {
    return id;
  }

  public Project project() {
    return project;
  }

  public Optional<String> email() {
    return Optional.ofNullable(email);
  }

  public Role role() {
    return role;
  }

  public int people() {
    return people;
  }

  public int used() {
    return used;
  }

  boolean mailed() {
    return mailed;
  }

  public Person invitedBy() {
    return invitedBy;
  }

  public Instant expiresAt() {
    return expiresAt;
  }
}
