package org.mixaccord.record;

import io.quarkus.hibernate.orm.panache.PanacheEntityBase;
import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.FetchType;
import jakarta.persistence.Id;
import jakarta.persistence.JoinColumn;
import jakarta.persistence.ManyToOne;
import jakarta.persistence.Version;
import java.time.Instant;
import java.util.List;
import org.mixaccord.accounts.Ids;
import org.mixaccord.accounts.Person;
import org.mixaccord.notes.Where;
import org.mixaccord.songs.Song;

/** Something a note asks to be left as it is. */
@Entity
public class Keep extends PanacheEntityBase {
  @Id private String id;
  @Version private int version;

  @ManyToOne(fetch = FetchType.LAZY)
  @JoinColumn(name = "song")
  private Song song;

  @ManyToOne(fetch = FetchType.LAZY)
  @JoinColumn(name = "note")
  private Note note;

  private int position;
  private String element;
  private String place;
  private String text;

  @Column(name = "withdrawn_at")
  private Instant withdrawnAt;

  @ManyToOne(fetch = FetchType.LAZY)
  @JoinColumn(name = "withdrawn_by")
  private Person withdrawnBy;

  protected Keep() {}

  /** Draws a keep from a note. */
  static Keep draw(Note note, int position, String element, Where where, String text) {
    Keep keep = new Keep();
    keep.id = Ids.fresh();
    keep.song = note.song();
    keep.note = note;
    keep.position = position;
    keep.element = element;
    keep.place = WireJson.write(where.wire());
    keep.text = text;
    keep.persist();
    return keep;
  }

  /** The keeps of a song that hold. */
  static List<Keep> of(Song song) {
    return list(
        "from Keep k join fetch k.note n join fetch n.bounce where k.song = ?1"
            + " and k.withdrawnAt is null order by n.at, k.position, k.id",
        song);
  }

  /** The keeps drawn from a note. */
  static List<Keep> of(Note note) {
    return list("note = ?1 order by position, id", note);
  }

  void withdraw(Person by, Instant now) {
    withdrawnAt = now;
    withdrawnBy = by;
  }

  public boolean holds() {
    return withdrawnAt == null;
  }

  public String id() {
    return id;
  }

  public Song song() {
    return song;
  }

  public Note note() {
    return note;
  }

  public String element() {
    return element;
  }

  public Where where() {
    return WireJson.where(WireJson.tree(place));
  }

  /** Whether its place lies after the end of the mix it was written for. */
  public boolean isAfterEnd() {
    return SongPlaces.isAfterEnd(where(), note.bounce());
  }

  public String text() {
    return text;
  }
}
