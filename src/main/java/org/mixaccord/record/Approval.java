package org.mixaccord.record;

import io.quarkus.hibernate.orm.panache.PanacheEntityBase;
import jakarta.persistence.Column;
import jakarta.persistence.Convert;
import jakarta.persistence.Entity;
import jakarta.persistence.FetchType;
import jakarta.persistence.Id;
import jakarta.persistence.JoinColumn;
import jakarta.persistence.ManyToOne;
import jakarta.persistence.Version;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.mixaccord.accounts.Ids;
import org.mixaccord.accounts.Member;
import org.mixaccord.accounts.Person;
import org.mixaccord.review.ApprovalDecision;
import org.mixaccord.review.Given;
import org.mixaccord.songs.Bounce;
import org.mixaccord.songs.Song;

/** What a person said to a bounce as a whole. Only its end can be added later. */
@Entity
public class Approval extends PanacheEntityBase {
  @Id private String id;
  @Version private int version;

  @ManyToOne(fetch = FetchType.LAZY)
  @JoinColumn(name = "song")
  private Song song;

  @ManyToOne(fetch = FetchType.LAZY)
  @JoinColumn(name = "bounce")
  private Bounce bounce;

  @ManyToOne(fetch = FetchType.LAZY)
  @JoinColumn(name = "person")
  private Person person;

  private String identity;

  @Convert(converter = RecordConverters.Decision.class)
  private ApprovalDecision decision;

  private String comment;

  @Column(name = "pcm_sha256")
  private String pcmSha256;

  private String heard;
  private Instant at;
  private String despite;
  private String reason;

  @Column(name = "once_done")
  private String onceDone;

  @Column(name = "ended_at")
  private Instant endedAt;

  @ManyToOne(fetch = FetchType.LAZY)
  @JoinColumn(name = "ended_by")
  private Person endedBy;

  @Column(name = "end_reason")
  private String endReason;

  protected Approval() {}

  /** What is said with a decision. */
  record Words(
      ApprovalDecision decision,
      String comment,
      List<String> despite,
      String reason,
      List<String> onceDone) {}

  /**
   * Puts a decision on the record.
   *
   * @param heard the quality the person was served, or null when they were served nothing
   */
  static Approval give(
      Bounce bounce, Member by, Words words, String pcmSha256, String heard, Instant now) {
    Approval approval = new Approval();
    approval.id = Ids.fresh();
    approval.song = bounce.song();
    approval.bounce = bounce;
    approval.person = by.person();
    approval.identity = by.identity();
    approval.decision = words.decision();
    approval.comment = words.comment();
    approval.pcmSha256 = pcmSha256;
    approval.heard = heard;
    approval.at = now;
    approval.despite = WireJson.write(words.despite());
    approval.reason = words.reason();
    approval.onceDone = WireJson.write(words.onceDone());
    approval.persist();
    return approval;
  }

  /** Every decision on a song, oldest first. */
  static List<Approval> of(Song song) {
    return list(
        "from Approval a join fetch a.person join fetch a.bounce where a.song = ?1"
            + " order by a.at, a.id",
        song);
  }

  void end(Person by, String why, Instant now) {
    endedAt = now;
    endedBy = by;
    endReason = why;
  }

  /** As the rules read it. */
  Given given(Set<String> carriedTo) {
    return new Given(
        id,
        person.id(),
        decision,
        bounce.id(),
        pcmSha256,
        at,
        endedAt != null,
        onceDone(),
        carriedTo);
  }

  public String id() {
    return id;
  }

  public Song song() {
    return song;
  }

  public Bounce bounce() {
    return bounce;
  }

  public Person person() {
    return person;
  }

  public String identity() {
    return identity;
  }

  public ApprovalDecision decision() {
    return decision;
  }

  public Optional<String> comment() {
    return Optional.ofNullable(comment);
  }

  public String pcmSha256() {
    return pcmSha256;
  }

  /** {@code lossless} or {@code light}: what was heard of it when it was given. */
  public Optional<String> heard() {
    return Optional.ofNullable(heard);
  }

  public Instant at() {
    return at;
  }

  /** Open points it was given in spite of. */
  public List<String> despite() {
    return WireJson.strings(despite);
  }

  public Optional<String> reason() {
    return Optional.ofNullable(reason);
  }

  /** Ids of the changes it waits for. */
  public List<String> onceDone() {
    return WireJson.strings(onceDone);
  }

  boolean ended() {
    return endedAt != null;
  }
}
