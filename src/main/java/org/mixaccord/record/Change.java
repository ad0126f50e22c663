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
import org.mixaccord.accounts.Ids;
import org.mixaccord.accounts.Person;
import org.mixaccord.accounts.Project;
import org.mixaccord.changes.ChangeAnswer;
import org.mixaccord.changes.ChangeFacts;
import org.mixaccord.changes.ChangeState;
import org.mixaccord.changes.NewWork;
import org.mixaccord.notes.Amount;
import org.mixaccord.notes.Where;
import org.mixaccord.songs.Bounce;
import org.mixaccord.songs.Song;

/** One thing asked for, drawn from a note. Who may move it is decided by the rules of changes. */
@Entity
public class Change extends PanacheEntityBase {
  static final String NO_NEW_WORK = "none";

  @Id private String id;
  @Version private int version;

  @ManyToOne(fetch = FetchType.LAZY)
  @JoinColumn(name = "song")
  private Song song;

  @ManyToOne(fetch = FetchType.LAZY)
  @JoinColumn(name = "note")
  private Note note;

  @ManyToOne(fetch = FetchType.LAZY)
  @JoinColumn(name = "asker")
  private Person asker;

  @ManyToOne(fetch = FetchType.LAZY)
  @JoinColumn(name = "bounce")
  private Bounce bounce;

  private int position;
  private String element;
  private String aspect;
  private String direction;
  private String amount;
  private String place;
  private String text;

  @Column(name = "span_start")
  private int spanStart;

  @Column(name = "span_end")
  private int spanEnd;

  @Convert(converter = RecordConverters.State.class)
  private ChangeState state;

  @Convert(converter = RecordConverters.Answer.class)
  private ChangeAnswer answer;

  private String reason;

  @ManyToOne(fetch = FetchType.LAZY)
  @JoinColumn(name = "settled_by")
  private Person settledBy;

  @ManyToOne(fetch = FetchType.LAZY)
  @JoinColumn(name = "done_in")
  private Bounce doneIn;

  @ManyToOne(fetch = FetchType.LAZY)
  @JoinColumn(name = "follows")
  private Change follows;

  private int round;

  @Column(name = "list_rank")
  private Integer listRank;

  private String joined;

  @Column(name = "new_work")
  private String newWork;

  @Column(name = "asked_at")
  private Instant askedAt;

  @Column(name = "moved_at")
  private Instant movedAt;

  protected Change() {}

  /**
   * What a change says.
   *
   * @param start where its words begin in the note (UTF-16 units)
   * @param end where they end
   */
  public record Asked(
      String element,
      String aspect,
      String direction,
      Optional<Amount> amount,
      Where where,
      String text,
      int start,
      int end) {
    /** The same at another place. */
    Asked at(Where place) {
      return new Asked(element, aspect, direction, amount, place, text, start, end);
    }
  }

  /** Draws a change from a note. */
  static Change draw(Note note, int position, Asked asked, ChangeState state, int round) {
    Change change = new Change();
    change.id = Ids.fresh();
    change.song = note.song();
    change.note = note;
    change.asker = note.author();
    change.bounce = note.bounce();
    change.position = position;
    change.say(asked);
    change.state = state;
    change.round = round;
    change.askedAt = note.at();
    change.movedAt = note.at();
    change.persist();
    return change;
  }

  /** The next change, asked for after hearing this one. */
  Change followUp(Person by, Bounce heard, Asked asked, int inRound, Instant now) {
    Change next = draw(note, position, asked, ChangeState.ASKED, inRound);
    next.asker = by;
    next.bounce = heard;
    next.follows = this;
    next.askedAt = now;
    next.movedAt = now;
    return next;
  }

  /** One part of this change as one of its own, with the same words and history. */
  Change splitOff(Asked asked, int at) {
    Change part = draw(note, at, asked, state, round);
    part.asker = asker;
    part.bounce = bounce;
    part.follows = follows;
    part.askedAt = askedAt;
    part.newWork = newWork;
    return part;
  }

  /** The changes of a song in the engineer's order, those without one last and oldest first. */
  static List<Change> of(Song song) {
    return list(
        "from Change c join fetch c.note n join fetch c.asker join fetch c.bounce"
            + " join fetch n.author join fetch n.writtenBy join fetch n.bounce"
            + " left join fetch c.doneIn where c.song = ?1"
            + " order by c.listRank nulls last, c.askedAt, c.position, c.id",
        song);
  }

  /** The changes drawn from a note, follow-ups included. */
  static List<Change> of(Note note) {
    return list("note = ?1 order by askedAt, position, id", note);
  }

  /** The changes marked done in a bounce. */
  static List<Change> doneIn(Bounce bounce) {
    return list("doneIn = ?1 and state = ?2 order by askedAt, id", bounce, ChangeState.DONE);
  }

  /** What was called good in the songs of a project, newest last. */
  static List<Change> calledGood(Project project) {
    return list(
        "from Change c join fetch c.asker join fetch c.doneIn"
            + " where c.song.project = ?1 and c.state = ?2 order by c.movedAt, c.id",
        project,
        ChangeState.GOOD);
  }

  /** Puts new words in place of the old; the note keeps what was written. */
  final void say(Asked asked) {
    element = asked.element();
    aspect = asked.aspect();
    direction = asked.direction();
    amount = asked.amount().map(a -> WireJson.write(a.wire())).orElse(null);
    place = WireJson.write(asked.where().wire());
    text = asked.text();
    spanStart = asked.start();
    spanEnd = asked.end();
  }

  void becomeDone(Bounce in, ChangeAnswer said, String why, Instant now) {
    move(ChangeState.DONE, said, why, now);
    doneIn = in;
  }

  /** Moves to any state but done; whatever was said about being done goes. */
  void become(ChangeState to, ChangeAnswer said, String why, Instant now) {
    move(to, said, why, now);
    doneIn = null;
    settledBy = null;
  }

  /** It was heard, and is good or followed by another; where it was done stays. */
  void heard(ChangeState to, Instant now) {
    state = to;
    movedAt = now;
  }

  /** Left because a contradiction was settled the other way. */
  void lose(Person by, String why, Instant now) {
    become(ChangeState.LEFT, null, why, now);
    settledBy = by;
  }

  private void move(ChangeState to, ChangeAnswer said, String why, Instant now) {
    state = to;
    answer = said;
    reason = why;
    movedAt = now;
  }

  void putInto(int newRound) {
    round = newRound;
  }

  void rank(int place) {
    listRank = place;
  }

  /** Is worked as one with all that have the same mark; null for alone. */
  void join(String mark) {
    joined = mark;
  }

  Optional<String> joined() {
    return Optional.ofNullable(joined);
  }

  /** Whether it was joined to others by hand. */
  public boolean isJoined() {
    return joined != null;
  }

  /** What the engineer says it is; empty takes it for a matter of mixing. */
  void callWork(Optional<NewWork> kind) {
    newWork = kind.map(NewWork::wire).orElse(NO_NEW_WORK);
  }

  /** What goes beyond mixing, as the engineer said or else as its words seem to say. */
  public Optional<NewWork> newWork() {
    return newWork == null ? NewWork.guess(aspect, direction, amount(), text) : NewWork.of(newWork);
  }

  /** What the rules have to know of it. */
  public ChangeFacts facts() {
    return new ChangeFacts(state, doneIn != null && doneIn.sent(), settledBy != null);
  }

  public Asked asked() {
    return new Asked(element, aspect, direction, amount(), where(), text, spanStart, spanEnd);
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

  /** Its place among what was drawn from the note. */
  int position() {
    return position;
  }

  /** The person it belongs to. */
  public Person asker() {
    return asker;
  }

  /** The bounce on whose time line the place lies. */
  public Bounce bounce() {
    return bounce;
  }

  public String element() {
    return element;
  }

  public String aspect() {
    return aspect;
  }

  public String direction() {
    return direction;
  }

  public Optional<Amount> amount() {
    return amount == null ? Optional.empty() : WireJson.amount(WireJson.tree(amount));
  }

  public Where where() {
    return WireJson.where(WireJson.tree(place));
  }

  /** Whether its place lies after the end of the mix it was written for. */
  public boolean isAfterEnd() {
    return SongPlaces.isAfterEnd(where(), bounce);
  }

  public String text() {
    return text;
  }

  public ChangeState state() {
    return state;
  }

  public Optional<ChangeAnswer> answer() {
    return Optional.ofNullable(answer);
  }

  public Optional<String> reason() {
    return Optional.ofNullable(reason);
  }

  public Optional<Person> settledBy() {
    return Optional.ofNullable(settledBy);
  }

  public Optional<Bounce> doneIn() {
    return Optional.ofNullable(doneIn);
  }

  public Optional<Change> follows() {
    return Optional.ofNullable(follows);
  }

  public int round() {
    return round;
  }

  public Instant askedAt() {
    return askedAt;
  }

  /** When its state changed last. */
  public Instant movedAt() {
    return movedAt;
  }
}
