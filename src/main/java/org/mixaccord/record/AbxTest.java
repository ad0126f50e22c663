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
import org.mixaccord.review.AbxRules;
import org.mixaccord.songs.Bounce;
import org.mixaccord.songs.Song;

/** A listening test of one engineer on two mixes at one place; nobody else's business. */
@Entity
@Table(name = "abx_test")
public class AbxTest extends PanacheEntityBase {
  @Id private String id;

  @ManyToOne(fetch = FetchType.LAZY)
  @JoinColumn(name = "song")
  private Song song;

  @ManyToOne(fetch = FetchType.LAZY)
  @JoinColumn(name = "person")
  private Person person;

  @ManyToOne(fetch = FetchType.LAZY)
  @JoinColumn(name = "a")
  private Bounce a;

  @ManyToOne(fetch = FetchType.LAZY)
  @JoinColumn(name = "b")
  private Bounce b;

  @Column(name = "from_seconds")
  private double fromSeconds;

  @Column(name = "to_seconds")
  private double toSeconds;

  private String place;
  private int trials;
  private long seed;
  private String answers;

  @Column(name = "begun_at")
  private Instant begunAt;

  @Column(name = "broken_off_at")
  private Instant brokenOffAt;

  protected AbxTest() {}

  static AbxTest begin(
      HeardPlaces.Pair pair, HeardPlaces.Place place, int trials, Person person, Instant now) {
    AbxTest test = new AbxTest();
    test.id = Ids.fresh();
    test.song = pair.one().song();
    test.person = person;
    test.a = pair.one();
    test.b = pair.two();
    test.fromSeconds = place.span().from();
    test.toSeconds = place.span().to();
    test.place = place.words();
    test.trials = trials;
    test.seed = Ids.seed();
    test.answers = "";
    test.begunAt = now;
    test.persist();
    return test;
  }

  /** A person's tests on a song that were not broken off, newest first. */
  static List<AbxTest> of(Song song, Person person) {
    return list(
        "song = ?1 and person = ?2 and brokenOffAt is null order by begunAt desc, id",
        song,
        person);
  }

  void answer(boolean saysA) {
    answers += saysA ? "a" : "b";
  }

  void breakOff(Instant now) {
    brokenOffAt = now;
  }

  boolean brokenOff() {
    return brokenOffAt != null;
  }

  /** Whether the hidden one of a trial, from 0, is A. */
  boolean hiddenIsA(int trial) {
    return AbxRules.hiddenIsA(seed, trial);
  }

  /** How many were right; only to be told when the test is over. */
  int right() {
    return AbxRules.right(seed, answers);
  }

  public String id() {
    return id;
  }

  public Song song() {
    return song;
  }

  public Person person() {
    return person;
  }

  public Bounce a() {
    return a;
  }

  public Bounce b() {
    return b;
  }

  /** Where it is heard, on A. */
  public TimeSpan span() {
    return new TimeSpan(fromSeconds, toSeconds);
  }

  public String place() {
    return place;
  }

  public int trials() {
    return trials;
  }

  public int answered() {
    return answers.length();
  }
}
