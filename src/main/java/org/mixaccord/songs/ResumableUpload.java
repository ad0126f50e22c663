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
import org.mixaccord.accounts.Ids;

/** An upload that may be broken off and taken up again. */
@Entity
@Table(name = "resumable_upload")
public class ResumableUpload extends PanacheEntityBase {
  /** One left alone for longer is forgotten. */
  public static final Duration LASTS = Duration.ofDays(7);

  @Id private String id;
  @Version private int version;
  private String person;
  private String song;

  @Column(name = "file_name")
  private String fileName;

  @Convert(converter = Converters.Kind.class)
  private BounceKind kind;

  private String main;
  private String element;
  private String bounce;
  private long bytes;

  @Column(name = "created_at")
  private Instant createdAt;

  @Column(name = "made_bounce")
  private String madeBounce;

  @Column(name = "made_stem")
  private String madeStem;

  protected ResumableUpload() {}

  /**
   * What is to come of an upload: a bounce, or with an element a part of a bounce.
   *
   * @param main the main an alternate belongs to, or null
   * @param element name of the part, or null
   * @param bounce the bounce the part belongs to, or null
   */
  public record Target(
      String song, String fileName, BounceKind kind, String main, String element, String bounce) {}

  /** Begins an upload of that many bytes. */
  public static ResumableUpload begin(String person, Target target, long bytes, Instant now) {
    ResumableUpload upload = new ResumableUpload();
    upload.id = Ids.fresh();
    upload.person = person;
    upload.song = target.song();
    upload.fileName = target.fileName();
    upload.kind = target.kind();
    upload.main = target.main();
    upload.element = target.element();
    upload.bounce = target.bounce();
    upload.bytes = bytes;
    upload.createdAt = now;
    upload.persist();
    return upload;
  }

  /** Uploads that have run out. */
  public static List<ResumableUpload> expired(Instant now) {
    return list("createdAt < ?1", now.minus(LASTS));
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
    return new Target(song, fileName, kind, main, element, bounce);
  }

  public long bytes() {
    return bytes;
  }

  public Instant expiresAt() {
    return createdAt.plus(LASTS);
  }

  public Optional<String> madeBounce() {
    return Optional.ofNullable(madeBounce);
  }

  public Optional<String> madeStem() {
    return Optional.ofNullable(madeStem);
  }
}
