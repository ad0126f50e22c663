package org.mixaccord.songs;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import io.quarkus.hibernate.orm.panache.PanacheEntityBase;
import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.FetchType;
import jakarta.persistence.Id;
import jakarta.persistence.JoinColumn;
import jakarta.persistence.ManyToOne;
import jakarta.persistence.Table;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.mixaccord.accounts.Ids;
import org.mixaccord.accounts.Person;
import org.mixaccord.audio.TempoMap;
import org.mixaccord.audio.midi.MidiReading;

/**
 * The tempo map of a song as it was given for one bounce. Each one given is a row of its own and is
 * kept; the newest is in force unless it was taken away.
 */
@Entity
@Table(name = "tempo_map")
public class TempoMapRecord extends PanacheEntityBase {
  private static final ObjectMapper JSON = new ObjectMapper();

  @Id private String id;

  @ManyToOne(fetch = FetchType.LAZY)
  @JoinColumn(name = "song")
  private Song song;

  @ManyToOne(fetch = FetchType.LAZY)
  @JoinColumn(name = "bounce")
  private Bounce bounce;

  @ManyToOne(fetch = FetchType.LAZY)
  @JoinColumn(name = "given_by")
  private Person givenBy;

  @Column(name = "given_at")
  private Instant givenAt;

  @Column(name = "at_seconds")
  private double atSeconds;

  private String content;

  @Column(name = "removed_at")
  private Instant removedAt;

  protected TempoMapRecord() {}

  private record Content(
      List<TempoMap.Tempo> tempos,
      List<TempoMap.Meter> meters,
      List<MidiReading.Mark> marks,
      String remark) {}

  /**
   * Keeps what a MIDI file says.
   *
   * @param bounce the bounce it was given for
   * @param atSeconds where the file's beginning lies on that bounce
   */
  public static TempoMapRecord give(
      Bounce bounce, double atSeconds, MidiReading.Read read, Person by, Instant now) {
    TempoMapRecord record = new TempoMapRecord();
    record.id = Ids.fresh();
    record.song = bounce.song();
    record.bounce = bounce;
    record.givenBy = by;
    record.givenAt = now;
    record.atSeconds = atSeconds;
    try {
      record.content =
          JSON.writeValueAsString(
              new Content(
                  read.map().tempos(),
                  read.map().meters(),
                  read.marks(),
                  read.remark().orElse(null)));
    } catch (JsonProcessingException e) {
      throw new IllegalStateException("a tempo map cannot be written", e);
    }
    record.persist();
    return record;
  }

  /** The tempo map in force for a song. */
  public static Optional<TempoMapRecord> of(Song song) {
    return TempoMapRecord.<TempoMapRecord>find("song = ?1 order by givenAt desc, id desc", song)
        .firstResultOptional()
        .filter(record -> record.removedAt == null);
  }

  /** Takes the map away; those given before do not come back. */
  public void remove(Instant now) {
    removedAt = now;
  }

  /** The map and its markers, on the time line of {@link #bounce()}. */
  public MidiReading.Read read() {
    try {
      Content kept = JSON.readValue(content, Content.class);
      return new MidiReading.Read(
          TempoMap.of(atSeconds, kept.tempos(), kept.meters()),
          kept.marks(),
          Optional.ofNullable(kept.remark()));
    } catch (JsonProcessingException e) {
      throw new IllegalStateException("tempo map " + id + " cannot be read", e);
    }
  }

  public Bounce bounce() {
    return bounce;
  }

  public double atSeconds() {
    return atSeconds;
  }

  public Person givenBy() {
    return givenBy;
  }

  public Instant givenAt() {
    return givenAt;
  }
}
