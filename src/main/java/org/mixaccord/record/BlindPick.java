package org.mixaccord.record;

import io.quarkus.hibernate.orm.panache.PanacheEntityBase;
import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.FetchType;
import jakarta.persistence.Id;
import jakarta.persistence.JoinColumn;
import jakarta.persistence.ManyToOne;
import jakarta.persistence.Table;
import java.time.Instant;
import java.util.List;
import org.mixaccord.accounts.Ids;
import org.mixaccord.accounts.Person;
import org.mixaccord.align.TimeSpan;
import org.mixaccord.review.BlindPickRules;
import org.mixaccord.songs.Bounce;
import org.mixaccord.songs.Song;

/** Two sent mixes offered at one place without their names. */
@Entity
@Table(name = "blind_pick")
public class BlindPick extends PanacheEntityBase {
  @Id private String id;

  @ManyToOne(fetch = FetchType.LAZY)
  @JoinColumn(name = "song")
  private Song song;

  @ManyToOne(fetch = FetchType.LAZY)
  @JoinColumn(name = "one")
  private Bounce one;

  @ManyToOne(fetch = FetchType.LAZY)
  @JoinColumn(name = "two")
  private Bounce two;

  @Column(name = "from_seconds")
  private double fromSeconds;

  @Column(name = "to_seconds")
  private double toSeconds;

  private String place;

  @ManyToOne(fetch = FetchType.LAZY)
  @JoinColumn(name = "change_one")
  private Change changeOne;

  @ManyToOne(fetch = FetchType.LAZY)
  @JoinColumn(name = "change_two")
  private Change changeTwo;

  @ManyToOne(fetch = FetchType.LAZY)
  @JoinColumn(name = "offered_by")
  private Person offeredBy;

  @Column(name = "offered_at")
  private Instant offeredAt;

  @Column(name = "ended_at")
  private Instant endedAt;

  protected BlindPick() {}

  /** Offers two mixes; {@code changes} are none, or the two that contradict each other. */
  static BlindPick offer(
      Bounce one,
      Bounce two,
      TimeSpan span,
      String place,
      List<Change> changes,
      Person by,
      Instant now) {
    BlindPick pick = new BlindPick();
    pick.id = Ids.fresh();
    pick.song = one.song();
    pick.one = one;
    pick.two = two;
    pick.fromSeconds = span.from();
    pick.toSeconds = span.to();
    pick.place = place;
    pick.changeOne = changes.isEmpty() ? null : changes.get(0);
    pick.changeTwo = changes.isEmpty() ? null : changes.get(1);
    pick.offeredBy = by;
    pick.offeredAt = now;
    pick.persist();
    return pick;
  }

  /** All of a song, newest first. */
  static List<BlindPick> of(Song song) {
    return list("song = ?1 order by offeredAt desc, id", song);
  }

  void end(Instant now) {
    endedAt = now;
  }

  /** Whether it takes picks: it ends by itself once its contradiction is settled. */
  public boolean open() {
    return BlindPickRules.open(
        endedAt != null, changes().stream().map(c -> c.facts().stillWanted()).toList());
  }

  /** The changes that contradict each other; empty where it belongs to none. */
  public List<Change> changes() {
    return changeOne == null ? List.of() : List.of(changeOne, changeTwo);
  }

  /** One of the two mixes. */
  public Bounce mix(BlindPickRules.Mix which) {
    return which == BlindPickRules.Mix.ONE ? one : two;
  }

  public String id() {
    return id;
  }

  public Song song() {
    return song;
  }

  /** Where it is heard, on the first of the two mixes. */
  public TimeSpan span() {
    return new TimeSpan(fromSeconds, toSeconds);
  }

  /** The place in words that tell nothing of the mixes. */
  public String place() {
    return place;
  }

  public Person offeredBy() {
    return offeredBy;
  }

  public Instant offeredAt() {
    return offeredAt;
  }
}
