package org.mixaccord.songs;

import io.quarkus.hibernate.orm.panache.PanacheEntityBase;
import jakarta.persistence.Column;
import jakarta.persistence.Convert;
import jakarta.persistence.Embedded;
import jakarta.persistence.Entity;
import jakarta.persistence.FetchType;
import jakarta.persistence.Id;
import jakarta.persistence.JoinColumn;
import jakarta.persistence.ManyToOne;
import jakarta.persistence.Version;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.mixaccord.accounts.Access;
import org.mixaccord.accounts.Act;
import org.mixaccord.accounts.Ids;
import org.mixaccord.accounts.Person;
import org.mixaccord.accounts.Project;
import org.mixaccord.accounts.Texts;
import org.mixaccord.problem.Problem;
import org.mixaccord.problem.ProblemException;

/** One uploaded render of a song. Its audio is never altered; it is private until it is sent. */
@Entity
public class Bounce extends PanacheEntityBase {
  /** The longest a label may be, in characters. */
  public static final int MOST_LABEL = 80;

  @Id private String id;
  @Version private int version;

  @ManyToOne(fetch = FetchType.LAZY)
  @JoinColumn(name = "song")
  private Song song;

  @Convert(converter = Converters.Kind.class)
  private BounceKind kind;

  private int number;

  @ManyToOne(fetch = FetchType.LAZY)
  @JoinColumn(name = "main")
  private Bounce main;

  @ManyToOne(fetch = FetchType.LAZY)
  @JoinColumn(name = "uploader")
  private Person uploader;

  @Column(name = "uploaded_at")
  private Instant uploadedAt;

  @Column(name = "file_name")
  private String fileName;

  private long bytes;
  private String sha256;

  @Convert(converter = Converters.State.class)
  private AudioState state;

  private double progress;

  @Column(name = "problem_code")
  private String problemCode;

  @Column(name = "problem_detail")
  private String problemDetail;

  @Column(name = "proposed_label")
  private String proposedLabel;

  private String label;
  private String message;

  @Column(name = "sent_at")
  private Instant sentAt;

  @ManyToOne(fetch = FetchType.LAZY)
  @JoinColumn(name = "sent_by")
  private Person sentBy;

  private Integer round;
  @Embedded private AudioFacts facts;
  private String defects = "[]";
  private String markers;

  @ManyToOne(fetch = FetchType.LAZY)
  @JoinColumn(name = "pair_left")
  private Bounce pairLeft;

  @ManyToOne(fetch = FetchType.LAZY)
  @JoinColumn(name = "pair_right")
  private Bounce pairRight;

  @Column(name = "session_frame")
  private Long sessionFrame;

  protected Bounce() {}

  /**
   * Records a durable upload. A rough or reference from an artist or manager counts as sent.
   *
   * @param number how many of its kind the song has, this one included
   */
  public static Bounce received(
      Song song, ReceivedFile upload, int number, boolean sentOnArrival, Instant now) {
    Bounce bounce = new Bounce();
    bounce.id = Ids.fresh();
    bounce.song = song;
    bounce.kind = upload.kind();
    bounce.number = number;
    bounce.main = upload.main();
    bounce.proposedLabel = Texts.lineOrNull("label", upload.label(), MOST_LABEL);
    bounce.uploader = upload.uploader();
    bounce.uploadedAt = now;
    bounce.fileName = upload.fileName();
    bounce.bytes = upload.bytes();
    bounce.sha256 = upload.sha256();
    bounce.state = AudioState.RECEIVED;
    if (sentOnArrival) {
      bounce.sentAt = now;
      bounce.sentBy = upload.uploader();
      bounce.label = upload.kind().words() + " " + number;
    }
    bounce.persist();
    return bounce;
  }

  /** How many bounces of a kind the song has. */
  public static int count(Song song, BounceKind kind) {
    return (int) count("song = ?1 and kind = ?2", song, kind);
  }

  /** All bounces of a song, oldest first. */
  public static List<Bounce> of(Song song) {
    return list("song = ?1 order by uploadedAt, number, id", song);
  }

  /** All bounces of a project, oldest first. */
  public static List<Bounce> of(Project project) {
    return list("song.project = ?1 order by uploadedAt, number, id", project);
  }

  /** What was made of two bounces, whichever of them is left. */
  public static Optional<Bounce> pairOf(Bounce one, Bounce other) {
    return find(
            "(pairLeft = ?1 and pairRight = ?2) or (pairLeft = ?2 and pairRight = ?1)", one, other)
        .firstResultOptional();
  }

  /** The main a song began with, sent or not. */
  public static Optional<Bounce> firstMain(Song song) {
    return find("song = ?1 and kind = ?2 order by number", song, BounceKind.MAIN)
        .firstResultOptional();
  }

  /** The newest main of the song that has been sent. */
  public static Optional<Bounce> newestSentMain(Song song) {
    return find(
            "song = ?1 and kind = ?2 and sentAt is not null order by sentAt desc, number desc",
            song,
            BounceKind.MAIN)
        .firstResultOptional();
  }

  /** The newest main that the member may hear. */
  public static Optional<Bounce> newestMain(Song song, Access access) {
    return Bounce.<Bounce>list(
            "song = ?1 and kind = ?2 order by number desc", song, BounceKind.MAIN)
        .stream()
        .filter(b -> b.mayBeHeardBy(access))
        .findFirst();
  }

  /** Private passes are for engineers and whoever uploaded them; sent ones for everybody. */
  public boolean mayBeHeardBy(Access access) {
    return sent() || access.may(Act.HEAR_PRIVATE) || uploader.id().equals(access.person().id());
  }

  /** Decoding and measuring has begun. */
  public void startMeasuring() {
    if (state != AudioState.READY) {
      state = AudioState.MEASURING;
      progress = 0;
    }
  }

  /** Measuring has come this far, 0 to 1. */
  public void measuredTo(double share) {
    progress = share;
  }

  /** The file has been decoded whole; its sound can be measured and aligned. */
  public void decoded(AudioFacts found, String foundDefects) {
    facts = found;
    defects = foundDefects;
  }

  /** Everything is known about the file. */
  public void measured(AudioFacts found, String foundDefects) {
    decoded(found, foundDefects);
    state = AudioState.READY;
    progress = 1;
  }

  /** The server put it together from a left and a right file. */
  public void madeOf(Bounce left, Bounce right) {
    pairLeft = left;
    pairRight = right;
  }

  /** The left and the right it was put together from; empty for what was uploaded whole. */
  public List<Bounce> halves() {
    return pairLeft == null ? List.of() : List.of(pairLeft, pairRight);
  }

  /** Whether another was put together from this one. */
  public boolean isHalfOf(Bounce other) {
    return other.halves().stream().anyMatch(half -> half.id().equals(id));
  }

  /** The file says where it began in the session it was made in; null if it does not. */
  public void stamped(Long frame) {
    sessionFrame = frame;
  }

  /** Frames from the beginning of the session to the file’s, if the file says. */
  public Optional<Long> sessionFrame() {
    return Optional.ofNullable(sessionFrame);
  }

  /** What is marked inside the file has been read. */
  public void marked(String foundMarkers) {
    markers = foundMarkers;
  }

  /**
   * The same outside of everything else that happens to the bounce: nobody's change collides with
   * it.
   */
  public static void markedLater(String bounceId, String foundMarkers) {
    update("markers = ?1 where id = ?2 and markers is null", foundMarkers, bounceId);
  }

  /** The file cannot be used; its bytes are kept. */
  public void failed(Problem problem, String detail) {
    state = AudioState.FAILED;
    problemCode = problem.code();
    problemDetail = detail;
  }

  /**
   * Gives the bounce its label and lets everybody hear it.
   *
   * @param newLabel what it is called from now on
   * @param words one line on what was done, or null
   * @param inRound the round it opens, or belongs to
   */
  public void send(String newLabel, String words, int inRound, Person by, Instant now) {
    if (state != AudioState.READY) {
      throw new ProblemException(
          Problem.WRONG_STATE,
          state == AudioState.FAILED
              ? "This file could not be read as audio, so it cannot be sent."
              : "This mix is still being measured. Send it when that is done.");
    }
    if (sent()) {
      throw new ProblemException(
          Problem.WRONG_STATE, "This mix has been sent already, as “" + label + "”.");
    }
    label = Texts.line("label", newLabel, MOST_LABEL);
    message = Texts.lineOrNull("message", words, 1000);
    round = inRound;
    sentAt = now;
    sentBy = by;
  }

  public boolean sent() {
    return sentAt != null;
  }

  public boolean ready() {
    return state == AudioState.READY;
  }

  /** What it is called: its label, or “Pass n” for an engineer's private main. */
  public String title() {
    if (label != null) {
      return label;
    }
    return (kind == BounceKind.MAIN ? "Pass" : kind.words()) + " " + number;
  }

  public String id() {
    return id;
  }

  public Song song() {
    return song;
  }

  public BounceKind kind() {
    return kind;
  }

  public int number() {
    return number;
  }

  /** The main an alternate was made from. */
  public Optional<Bounce> main() {
    return Optional.ofNullable(main);
  }

  public Person uploader() {
    return uploader;
  }

  public Instant uploadedAt() {
    return uploadedAt;
  }

  public String fileName() {
    return fileName;
  }

  public long bytes() {
    return bytes;
  }

  public String sha256() {
    return sha256;
  }

  public AudioState state() {
    return state;
  }

  public double progress() {
    return progress;
  }

  public Optional<String> problemCode() {
    return Optional.ofNullable(problemCode);
  }

  public Optional<String> problemDetail() {
    return Optional.ofNullable(problemDetail);
  }

  /** What it may be called once it is sent, as whoever brought it said. */
  public Optional<String> proposedLabel() {
    return Optional.ofNullable(proposedLabel);
  }

  public Optional<String> label() {
    return Optional.ofNullable(label);
  }

  public Optional<String> message() {
    return Optional.ofNullable(message);
  }

  public Optional<Instant> sentAt() {
    return Optional.ofNullable(sentAt);
  }

  public Optional<Person> sentBy() {
    return Optional.ofNullable(sentBy);
  }

  public Optional<Integer> round() {
    return Optional.ofNullable(round);
  }

  /** What decoding found out; empty until the bounce is ready. */
  public Optional<AudioFacts> facts() {
    return Optional.ofNullable(facts).filter(f -> f.pcmSha256() != null);
  }

  /** Defects of the file as a JSON list of {@code code, detail, affectsSound, from, to}. */
  public String defects() {
    return defects;
  }

  /** Markers of the file as a JSON list; empty as long as nobody has looked for them. */
  public Optional<String> markers() {
    return Optional.ofNullable(markers);
  }
}
