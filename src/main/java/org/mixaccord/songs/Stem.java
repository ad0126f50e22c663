package org.mixaccord.songs;

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
import org.mixaccord.accounts.Texts;
import org.mixaccord.problem.Problem;

/** One part alone, of the same start and length as the bounce it belongs to. */
@Entity
public class Stem extends PanacheEntityBase {
  @Id private String id;
  @Version private int version;

  @ManyToOne(fetch = FetchType.LAZY)
  @JoinColumn(name = "bounce")
  private Bounce bounce;

  private String element;

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

  @Column(name = "problem_code")
  private String problemCode;

  @Column(name = "problem_detail")
  private String problemDetail;

  @Column(name = "sample_rate")
  private Integer sampleRate;

  private Integer channels;
  private Long frames;

  @Column(name = "sample_format")
  private String sampleFormat;

  @Column(name = "pcm_sha256")
  private String pcmSha256;

  private Boolean silent;

  @Column(name = "session_frame")
  private Long sessionFrame;

  @Column(name = "replaced_at")
  private Instant replacedAt;

  protected Stem() {}

  /** Records a durable upload of a part; the caller replaces an earlier one of the element. */
  public static Stem received(Bounce bounce, String element, ReceivedFile upload, Instant now) {
    Stem stem = new Stem();
    stem.id = Ids.fresh();
    stem.bounce = bounce;
    stem.element = element(element);
    stem.uploader = upload.uploader();
    stem.uploadedAt = now;
    stem.fileName = upload.fileName();
    stem.bytes = upload.bytes();
    stem.sha256 = upload.sha256();
    stem.state = AudioState.RECEIVED;
    stem.persist();
    return stem;
  }

  /** A part's name as it is kept: one line, lower case. */
  public static String element(String name) {
    return Texts.line("element", name, 60).toLowerCase(java.util.Locale.ROOT);
  }

  /** The parts of a bounce that are in force, by name. */
  public static List<Stem> of(Bounce bounce) {
    return list("bounce = ?1 and replacedAt is null order by element", bounce);
  }

  /** Parts of a song's bounces that could not be used and were not brought anew. */
  public static List<Stem> failedOf(Song song) {
    return list("bounce.song = ?1 and replacedAt is null and state = ?2", song, AudioState.FAILED);
  }

  /** Names of all parts the song has files of, by name. */
  public static List<String> elementsOf(Song song) {
    return find(
            "select distinct s.element from Stem s where s.bounce.song = ?1 and s.replacedAt is null"
                + " order by s.element",
            song)
        .project(String.class)
        .list();
  }

  /** The file has been decoded, whether or not it fits. */
  public void decoded(int rate, int channelCount, long frameCount, String format, String pcmHash) {
    sampleRate = rate;
    channels = channelCount;
    frames = frameCount;
    sampleFormat = format;
    pcmSha256 = pcmHash;
  }

  /**
   * What else was found in it.
   *
   * @param nothingThere whether it holds nothing but silence
   * @param startFrame where it begins in the session, or null if the file does not say
   */
  public void lookedAt(boolean nothingThere, Long startFrame) {
    silent = nothingThere;
    sessionFrame = startFrame;
  }

  /** It can be used beside its bounce. */
  public void measured() {
    state = AudioState.READY;
  }

  public void failed(Problem problem, String detail) {
    state = AudioState.FAILED;
    problemCode = problem.code();
    problemDetail = detail;
  }

  /** Takes the part out of use; its bytes are kept. */
  public void replace(Instant now) {
    replacedAt = now;
  }

  public boolean inForce() {
    return replacedAt == null;
  }

  public String id() {
    return id;
  }

  public Bounce bounce() {
    return bounce;
  }

  public String element() {
    return element;
  }

  public Person uploader() {
    return uploader;
  }

  public String fileName() {
    return fileName;
  }

  public String sha256() {
    return sha256;
  }

  public AudioState state() {
    return state;
  }

  public boolean ready() {
    return state == AudioState.READY;
  }

  public Optional<String> problemCode() {
    return Optional.ofNullable(problemCode);
  }

  public Optional<String> problemDetail() {
    return Optional.ofNullable(problemDetail);
  }

  /** Whether rate and length are known. */
  public boolean decoded() {
    return frames != null && sampleRate != null;
  }

  /** Whether it holds nothing but silence, as far as anybody has looked. */
  public boolean silent() {
    return Boolean.TRUE.equals(silent);
  }

  /** Frames from the beginning of the session to the file’s, if the file says. */
  public Optional<Long> sessionFrame() {
    return Optional.ofNullable(sessionFrame);
  }

  public int sampleRate() {
    return sampleRate;
  }

  public int channels() {
    return channels;
  }

  public long frames() {
    return frames;
  }

  public String sampleFormat() {
    return sampleFormat;
  }

  public String pcmSha256() {
    return pcmSha256;
  }
}
