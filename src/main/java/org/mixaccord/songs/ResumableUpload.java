package org.mixaccord.songs;

import io.quarkus.hibernate.orm.panache.PanacheEntityBase;
import jakarta.persistence.Column;
import jakarta.persistence.Convert;
import jakarta.persistence.Entity;
import jakarta.persistence.Id;
import jakarta.persistence.Table;
import jakarta.persistence.Version;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import org.mixaccord.accounts.Ids;

/** An upload that may be broken off and taken up again. */
@Entity
@Table(name = "resumable_upload")
public class ResumableUpload extends PanacheEntityBase {
  @Id private String id;
  @Version private int version;
  private String person;
  private String song;

  @Column(name = "file_name")
  private String fileName;

  @Convert(converter = Converters.Kind.class)
  private BounceKind kind;

  private String main;
  private String label;
  private String element;
  private String bounce;
  private long bytes;

  @Column(name = "created_at")
  private Instant createdAt;

  @Column(name = "expires_at")
  private Instant expiresAt;

  private String metadata;

  @Column(name = "unchecked_from")
  private Long checkedTo;

  private String sha256;

  @Column(name = "made_bounce")
  private String madeBounce;

  @Column(name = "made_stem")
  private String madeStem;

  protected ResumableUpload() {}

  /**
   * What is to come of an upload: a bounce, or with an element a part of a bounce.
   *
   * @param main the main an alternate belongs to, or null
   * @param label what the bounce may be called once it is sent, or null
   * @param element name of the part, or null
   * @param bounce the bounce the part belongs to, or null
   */
  public record Target(
      String song,
      String fileName,
      BounceKind kind,
      String main,
      String label,
      String element,
      String bounce) {}

  /**
   * Begins an upload of that many bytes.
   *
   * @param metadata what the sender said of it, as it was said
   */
  public static ResumableUpload begin(
      String person, Target target, String metadata, long bytes, Instant now, Duration lasts) {
    ResumableUpload upload = new ResumableUpload();
    upload.id = Ids.fresh();
    upload.person = person;
    upload.song = target.song();
    upload.fileName = target.fileName();
    upload.kind = target.kind();
    upload.main = target.main();
    upload.label = target.label();
    upload.element = target.element();
    upload.bounce = target.bounce();
    upload.bytes = bytes;
    upload.metadata = metadata;
    upload.createdAt = now;
    upload.expiresAt = now.plus(lasts);
    upload.persist();
    return upload;
  }

  /** Uploads that have run out. */
  public static List<ResumableUpload> expired(Instant now) {
    return list("expiresAt <= ?1", now);
  }

  /** Uploads that have not become anything yet. */
  public static List<ResumableUpload> unfinished() {
    return list("madeBounce is null and madeStem is null");
  }

  /** How many uploads a person has begun that have not become anything yet. */
  public static long unfinishedOf(String person) {
    return count("person = ?1 and madeBounce is null and madeStem is null", person);
  }

  /** Whether only what has been checked counts from now on, which is so many bytes, or all. */
  public void counts(boolean checkedOnly, long bytesChecked) {
    checkedTo = checkedOnly ? bytesChecked : null;
  }

  /** Somebody goes on with it. */
  public void movedOn(Instant now, Duration lasts) {
    expiresAt = now.plus(lasts);
  }

  /** All bytes are here; these are they. */
  public void arrived(String hash) {
    sha256 = hash;
  }

  public void became(Bounce made) {
    madeBounce = made.id();
  }

  public void became(Stem made) {
    madeStem = made.id();
  }

  public boolean finished() {
    return madeBounce != null || madeStem != null;
  }

  public String id() {
    return id;
  }

  public String person() {
    return person;
  }

  public Target target() {
    return new Target(song, fileName, kind, main, label, element, bounce);
  }

  public long bytes() {
    return bytes;
  }

  public String metadata() {
    return metadata;
  }

  public Instant expiresAt() {
    return expiresAt;
  }

  /** How many bytes are known to be right, when those behind them do not count. */
  public OptionalLong checkedTo() {
    return checkedTo == null ? OptionalLong.empty() : OptionalLong.of(checkedTo);
  }

  /** The hash of the file, once it has come whole. */
  public Optional<String> sha256() {
    return Optional.ofNullable(sha256);
  }

  public Optional<String> madeBounce() {
    return Optional.ofNullable(madeBounce);
  }

  public Optional<String> madeStem() {
    return Optional.ofNullable(madeStem);
  }
}
