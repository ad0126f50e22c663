package org.mixaccord.record;

import io.quarkus.hibernate.orm.panache.PanacheEntityBase;
import jakarta.persistence.CollectionTable;
import jakarta.persistence.Column;
import jakarta.persistence.ElementCollection;
import jakarta.persistence.Entity;
import jakarta.persistence.FetchType;
import jakarta.persistence.Id;
import jakarta.persistence.JoinColumn;
import jakarta.persistence.ManyToOne;
import jakarta.persistence.OrderColumn;
import jakarta.persistence.Version;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.mixaccord.accounts.Ids;
import org.mixaccord.accounts.Person;
import org.mixaccord.songs.Song;

/** What has to be answered before work on some changes can begin. */
@Entity
public class Question extends PanacheEntityBase {
  @Id private String id;
  @Version private int version;

  @ManyToOne(fetch = FetchType.LAZY)
  @JoinColumn(name = "song")
  private Song song;

  @ManyToOne(fetch = FetchType.LAZY)
  @JoinColumn(name = "note")
  private Note note;

  private int position;
  private String text;
  private String choices;

  @Column(name = "asked_at")
  private Instant askedAt;

  @ElementCollection(fetch = FetchType.LAZY)
  @CollectionTable(name = "question_change", joinColumns = @JoinColumn(name = "question"))
  @OrderColumn(name = "position")
  @Column(name = "change")
  private List<String> changes = new ArrayList<>();

  private String answer;
  private boolean skipped;

  @ManyToOne(fetch = FetchType.LAZY)
  @JoinColumn(name = "answered_by")
  private Person answeredBy;

  @Column(name = "answered_at")
  private Instant answeredAt;

  protected Question() {}

  /** Asks something about changes of one note. */
  static Question ask(
      Note note,
      int position,
      String text,
      List<String> choices,
      List<Change> changes,
      Instant now) {
    Question question = new Question();
    question.id = Ids.fresh();
    question.song = note.song();
    question.note = note;
    question.position = position;
    question.text = text;
    question.choices = WireJson.write(choices);
    question.askedAt = now;
    changes.forEach(change -> question.changes.add(change.id()));
    question.persist();
    return question;
  }

  /** The questions of a song, oldest first. */
  static List<Question> of(Song song) {
    return list(
        "from Question q join fetch q.note n join fetch n.author join fetch n.bounce"
            + " where q.song = ?1 order by q.askedAt, q.position, q.id",
        song);
  }

  /** The unanswered questions about a change. */
  static List<Question> openAbout(Change change) {
    return list(
        "note = ?1 and answeredAt is null and ?2 member of changes", change.note(), change.id());
  }

  /** It was answered, in one of the choices or the person's own words. */
  void answer(String words, Person by, Instant now) {
    answer = words;
    answeredBy = by;
    answeredAt = now;
  }

  /** Nobody answered, and it is taken as it was read. */
  void skip(Person by, Instant now) {
    skipped = true;
    answeredBy = by;
    answeredAt = now;
  }

  public boolean answered() {
    return answeredAt != null;
  }

  /** The choice with that id or that text. */
  Optional<String> choice(String wanted) {
    List<String> all = choices();
    for (int i = 0; i < all.size(); i++) {
      if (Integer.toString(i + 1).equals(wanted) || all.get(i).equals(wanted)) {
        return Optional.of(all.get(i));
      }
    }
    return Optional.empty();
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

  public String text() {
    return text;
  }

  /** Likely answers; the id of each is its place in the list, from 1. */
  public List<String> choices() {
    return WireJson.strings(choices);
  }

  /** Ids of the changes that wait for it. */
  public List<String> changes() {
    return List.copyOf(changes);
  }

  public Instant askedAt() {
    return askedAt;
  }

  /** What was answered; empty while open or when it was skipped. */
  public Optional<String> answer() {
    return Optional.ofNullable(answer);
  }

  public boolean skipped() {
    return skipped;
  }
}
