package org.mixaccord.record;

import io.quarkus.hibernate.orm.panache.PanacheEntityBase;
import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.FetchType;
import jakarta.persistence.Id;
import jakarta.persistence.JoinColumn;
import jakarta.persistence.ManyToOne;
import jakarta.persistence.Version;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.mixaccord.accounts.Access;
import org.mixaccord.accounts.Act;
import org.mixaccord.accounts.Ids;
import org.mixaccord.accounts.Person;
import org.mixaccord.accounts.Texts;
import org.mixaccord.problem.Problem;
import org.mixaccord.problem.ProblemException;
import org.mixaccord.songs.Bounce;
import org.mixaccord.songs.Song;

/** Words somebody wrote about a bounce, kept for ever as they were written. */
@Entity
public class Note extends PanacheEntityBase {
  /** Longest note, in bytes of UTF-8. */
  public static final int MOST_BYTES = 102_400;

  @Id private String id;
  @Version private int version;

  @ManyToOne(fetch = FetchType.LAZY)
  @JoinColumn(name = "song")
  private Song song;

  @ManyToOne(fetch = FetchType.LAZY)
  @JoinColumn(name = "bounce")
  private Bounce bounce;

  @ManyToOne(fetch = FetchType.LAZY)
  @JoinColumn(name = "author")
  private Person author;

  @ManyToOne(fetch = FetchType.LAZY)
  @JoinColumn(name = "written_by")
  private Person writtenBy;

  private String text;

  @Column(name = "from_seconds")
  private Double fromSeconds;

  @Column(name = "to_seconds")
  private Double toSeconds;

  @Column(name = "engineer_only")
  private boolean engineerOnly;

  private Instant at;

  @Column(name = "said_when")
  private String saidWhen;

  @Column(name = "memo_sha256")
  private String memoSha256;

  @Column(name = "memo_type")
  private String memoType;

  @Column(name = "memo_bytes")
  private Long memoBytes;

  @Column(name = "memo_seconds")
  private Double memoSeconds;

  @Column(name = "memo_line")
  private String memoLine;

  @Column(name = "sent_at")
  private Instant sentAt;

  protected Note() {}

  /**
   * Keeps a note.
   *
   * @param author whom it belongs to
   * @param writtenBy who typed it
   * @param fromSeconds place on the bounce, or null for the whole song
   * @param toSeconds end of the place, or null for a moment
   * @param gathered waits until the band hands its notes over
   */
  static Note write(
      Bounce bounce,
      Person author,
      Person writtenBy,
      String text,
      Double fromSeconds,
      Double toSeconds,
      boolean engineerOnly,
      boolean gathered,
      Instant now) {
    Note note = new Note();
    note.id = Ids.fresh();
    note.song = bounce.song();
    note.bounce = bounce;
    note.author = author;
    note.writtenBy = writtenBy;
    note.text = checked(text);
    note.fromSeconds = fromSeconds;
    note.toSeconds = toSeconds;
    note.engineerOnly = engineerOnly;
    note.at = now;
    note.sentAt = gathered ? null : now;
    note.persist();
    return note;
  }

  /**
   * What was spoken instead of written.
   *
   * @param sha256 of the bytes as they came
   * @param type media type, told from the bytes
   */
  public record Memo(String sha256, long bytes, String type, double seconds) {}

  /** It was spoken; its text only says so. */
  void spoken(Memo memo) {
    memoSha256 = memo.sha256();
    memoBytes = memo.bytes();
    memoType = memo.type();
    memoSeconds = memo.seconds();
  }

  /** What was spoken, of a note that was. */
  public Optional<Memo> memo() {
    return memoSha256 == null
        ? Optional.empty()
        : Optional.of(new Memo(memoSha256, memoBytes, memoType, memoSeconds));
  }

  /** Somebody listened and wrote down what is asked. */
  void writeLine(String line) {
    memoLine = line;
  }

  /** What was written down of a memo; empty while it is still to be listened to. */
  public Optional<String> memoLine() {
    return Optional.ofNullable(memoLine);
  }

  /** It was said elsewhere before it was written down here; when, as it was written there. */
  void saidElsewhere(String when) {
    saidWhen = when;
  }

  /** When it was said elsewhere, as it was written there. */
  public Optional<String> saidWhen() {
    return Optional.ofNullable(saidWhen).filter(when -> !when.isBlank());
  }

  /** A text that can be kept as a note, or a problem. */
  static String checked(String text) {
    if (text == null || text.isBlank()) {
      throw new ProblemException(Problem.INVALID, "The note is empty. Write what you would like.")
          .with("field", "text");
    }
    // A character takes at most three bytes, so most texts need not be encoded to be judged.
    if (text.length() > MOST_BYTES / 3
        && text.getBytes(StandardCharsets.UTF_8).length > MOST_BYTES) {
      throw new ProblemException(
              Problem.NOTE_TOO_LONG, "A note may be 100 kB long. Send it in parts, or attach less.")
          .with("maxBytes", MOST_BYTES);
    }
    Texts.checkStorable(text);
    return text;
  }

  /** The notes of a song, oldest first. */
  static List<Note> of(Song song) {
    return list(
        "from Note n join fetch n.author join fetch n.writtenBy join fetch n.bounce where n.song = ?1"
            + " order by n.at, n.id",
        song);
  }

  /** Notes the band has not handed over yet. */
  static List<Note> gathered(Song song) {
    return list("song = ?1 and sentAt is null order by at, id", song);
  }

  /** How many people have written notes that wait to be handed over. */
  public static int writing(Song song) {
    return (int) gathered(song).stream().map(note -> note.author().id()).distinct().count();
  }

  /**
   * Whether a member may read the note: nobody who may not know its mix, whoever wrote it; nobody
   * without the list; only engineers and its writers when it is for the engineer; everybody but the
   * engineers while the band still gathers.
   */
  public boolean maySee(Access access) {
    if (!bounce.mayBeHeardBy(access)) {
      return false;
    }
    if (mine(access.person())) {
      return true;
    }
    if (!access.may(Act.SEE_LIST)) {
      return false;
    }
    if (engineerOnly) {
      return access.may(Act.WORK_LIST);
    }
    return !stillGathered(access) || !access.may(Act.WORK_LIST) || access.hasLastWord();
  }

  private boolean stillGathered(Access access) {
    return sentAt == null && access.project().gatherNotes();
  }

  boolean mine(Person person) {
    return author.id().equals(person.id()) || writtenBy.id().equals(person.id());
  }

  void handOver(Instant now) {
    sentAt = now;
  }

  boolean handedOver() {
    return sentAt != null;
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

  public Person author() {
    return author;
  }

  public Person writtenBy() {
    return writtenBy;
  }

  public String text() {
    return text;
  }

  public OptionalDouble fromSeconds() {
    return fromSeconds == null ? OptionalDouble.empty() : OptionalDouble.of(fromSeconds);
  }

  public OptionalDouble toSeconds() {
    return toSeconds == null ? OptionalDouble.empty() : OptionalDouble.of(toSeconds);
  }

  public boolean engineerOnly() {
    return engineerOnly;
  }

  public Instant at() {
    return at;
  }

  public Optional<Instant> sentAt() {
    return Optional.ofNullable(sentAt);
  }
}
