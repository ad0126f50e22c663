package org.mixaccord.record;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.persistence.EntityManager;
import jakarta.transaction.Transactional;
import java.time.Clock;
import java.util.List;
import org.mixaccord.accounts.Access;
import org.mixaccord.accounts.Act;
import org.mixaccord.accounts.Hashes;
import org.mixaccord.accounts.Person;
import org.mixaccord.songs.Bounce;
import org.mixaccord.songs.Song;

/**
 * Writes what happened to a song and reads it for one person. Writing takes the song's clock row,
 * so one transaction at a time adds to a song, and tells every node when it commits.
 */
@ApplicationScoped
public class History {
  private final EntityManager entities;
  private final Clock clock;

  History(EntityManager entities, Clock clock) {
    this.entities = entities;
    this.clock = clock;
  }

  /** What the chain of a song begins with. */
  static String beginning(String song) {
    return Hashes.sha256("song " + song);
  }

  /**
   * Appends a row inside the transaction that did the thing.
   *
   * @return the row, with its hash: the newest head of the song
   */
  @Transactional(Transactional.TxType.MANDATORY)
  public HistoryEntry append(Song song, Person by, Happening happening) {
    entities.flush();
    entities
        .createNativeQuery(
            "insert into song_clock (song, seq, head) values (?1, 0, ?2) on conflict do nothing")
        .setParameter(1, song.id())
        .setParameter(2, beginning(song.id()))
        .executeUpdate();
    Object[] row =
        (Object[])
            entities
                .createNativeQuery("select seq, head from song_clock where song = ?1 for update")
                .setParameter(1, song.id())
                .getSingleResult();
    long seq = ((Number) row[0]).longValue() + 1;
    HistoryEntry entry =
        HistoryEntry.next(song.id(), seq, by, happening, (String) row[1], clock.instant());
    entry.persistAndFlush();
    entities
        .createNativeQuery("update song_clock set seq = ?2, head = ?3 where song = ?1")
        .setParameter(1, song.id())
        .setParameter(2, seq)
        .setParameter(3, entry.hash())
        .executeUpdate();
    entities
        .createNativeQuery("select cast(pg_notify('mixaccord_song', ?1) as text)")
        .setParameter(1, song.id() + " " + seq)
        .getSingleResult();
    return entry;
  }

  /** The rows of a song after a place, as far as this person may see them. */
  @Transactional
  public List<HistoryEntry> visible(Access access, String songId, long afterSeq, int limit) {
    return HistoryEntry.after(songId, afterSeq, limit).stream()
        .filter(entry -> maySee(access, entry))
        .toList();
  }

  /** The place of the newest row; 0 when nothing has happened. */
  @Transactional
  public long newest(String songId) {
    List<?> seqs =
        entities
            .createNativeQuery("select seq from song_clock where song = ?1")
            .setParameter(1, songId)
            .getResultList();
    return seqs.isEmpty() ? 0 : ((Number) seqs.get(0)).longValue();
  }

  private static boolean maySee(Access access, HistoryEntry entry) {
    if (entry.engineersOnly() && !access.may(Act.SEE_CHECKS)) {
      return false;
    }
    if (entry.gateBounce() != null
        && !Bounce.<Bounce>findById(entry.gateBounce()).mayBeHeardBy(access)) {
      return false;
    }
    return entry.gateNote() == null
        || Note.<Note>findByIdOptional(entry.gateNote()).filter(n -> n.maySee(access)).isPresent();
  }
}
