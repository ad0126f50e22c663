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
import java.util.Optional;
import org.mixaccord.accounts.Ids;
import org.mixaccord.accounts.Person;
import org.mixaccord.review.BlindPickRules;

/** One person's part in a blind pick: their order, what they were served, what they picked. */
@Entity
@Table(name = "blind_ear")
public class BlindEar extends PanacheEntityBase {
  @Id private String id;

  @ManyToOne(fetch = FetchType.LAZY)
  @JoinColumn(name = "pick")
  private BlindPick pick;

  @ManyToOne(fetch = FetchType.LAZY)
  @JoinColumn(name = "person")
  private Person person;

  private long seed;

  @Column(name = "first_heard_at")
  private Instant firstHeardAt;

  @Column(name = "second_heard_at")
  private Instant secondHeardAt;

  private String choice;

  @Column(name = "picked_at")
  private Instant pickedAt;

  protected BlindEar() {}

  /** Lets a person take part. */
  static BlindEar open(BlindPick pick, Person person) {
    BlindEar ear = new BlindEar();
    ear.id = Ids.fresh();
    ear.pick = pick;
    ear.person = person;
    ear.seed = Ids.seed();
    ear.persist();
    return ear;
  }

  /** Everybody's part, by when they picked. */
  static List<BlindEar> of(BlindPick pick) {
    return list(
        "from BlindEar e join fetch e.person where e.pick = ?1 order by e.pickedAt, e.id", pick);
  }

  /** A person's part, if they have one. */
  static Optional<BlindEar> of(BlindPick pick, Person person) {
    return find("pick = ?1 and person = ?2", pick, person).firstResultOptional();
  }

  void heard(BlindPickRules.Choice which, Instant now) {
    if (which == BlindPickRules.Choice.FIRST) {
      firstHeardAt = now;
    } else {
      secondHeardAt = now;
    }
  }

  void pick(BlindPickRules.Choice picked, Instant now) {
    choice = picked.wire();
    pickedAt = now;
  }

  boolean heardBoth() {
    return firstHeardAt != null && secondHeardAt != null;
  }

  public String id() {
    return id;
  }

  public BlindPick pick() {
    return pick;
  }

  public Person person() {
    return person;
  }

  /** The mix behind "the first" or "the second" of this person. */
  BlindPickRules.Mix behind(BlindPickRules.Choice which) {
    return BlindPickRules.meant(which, seed).orElseThrow();
  }

  /** What was picked; empty until then. */
  public Optional<BlindPickRules.Choice> choice() {
    return BlindPickRules.Choice.of(choice);
  }

  /** The mix that was picked; empty for no difference, or nothing yet. */
  Optional<BlindPickRules.Mix> picked() {
    return choice().flatMap(c -> BlindPickRules.meant(c, seed));
  }
}
