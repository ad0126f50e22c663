package org.mixaccord.songs;

import io.quarkus.hibernate.orm.panache.PanacheEntityBase;
import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.Id;
import jakarta.persistence.IdClass;
import java.io.Serializable;
import java.time.Instant;
import java.util.Optional;
import org.mixaccord.accounts.Person;

/** That a person was served a bounce's sound, and in which quality. */
@Entity
@IdClass(Hearing.Key.class)
public class Hearing extends PanacheEntityBase {
  /** Full quality wins over the light copy on the record. */
  public static final String LOSSLESS = "lossless";

  /** A lossy copy for slow lines. */
  public static final String LIGHT = "light";

  /** Person and bounce. */
  public record Key(String person, String bounce) implements Serializable {
    public Key() {
      this(null, null);
    }
  }

  @Id private String person;
  @Id private String bounce;
  private String quality;

  @Column(name = "first_at")
  private Instant firstAt;

  @Column(name = "last_at")
  private Instant lastAt;

  protected Hearing() {}

  /** Notes that a person is being served a bounce; safe to call for every segment. */
  public static void heard(Person person, Bounce bounce, String quality, Instant now) {
    getEntityManager()
        .createNativeQuery(
            "insert into hearing (person, bounce, quality, first_at, last_at)"
                + " values (?1, ?2, ?3, ?4, ?4) on conflict (person, bounce) do update set"
                + " last_at = excluded.last_at, quality = case when hearing.quality = 'lossless'"
                + " then 'lossless' else excluded.quality end")
        .setParameter(1, person.id())
        .setParameter(2, bounce.id())
        .setParameter(3, quality)
        .setParameter(4, now)
        .executeUpdate();
  }

  /** What a person has heard of a bounce. */
  public static Optional<Hearing> of(String personId, String bounceId) {
    return find("person = ?1 and bounce = ?2", personId, bounceId).firstResultOptional();
  }

  /** The sent main of the song a person heard last. */
  public static Optional<Bounce> lastMainHeard(String personId, Song song) {
    return Bounce.find(
            "from Bounce b where b.song = ?1 and b.kind = ?2 and b.sentAt is not null and exists"
                + " (from Hearing h where h.bounce = b.id and h.person = ?3)"
                + " order by b.sentAt desc",
            song,
            BounceKind.MAIN,
            personId)
        .firstResultOptional();
  }

  public String quality() {
    return quality;
  }

  public Instant firstAt() {
    return firstAt;
  }

  public Instant lastAt() {
    return lastAt;
  }
}
