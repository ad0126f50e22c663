package org.mixaccord.record;

import io.quarkus.hibernate.orm.panache.PanacheEntityBase;
import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.FetchType;
import jakarta.persistence.Id;
import jakarta.persistence.IdClass;
import jakarta.persistence.JoinColumn;
import jakarta.persistence.ManyToOne;
import jakarta.persistence.Table;
import java.io.Serializable;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.mixaccord.accounts.Hashes;
import org.mixaccord.accounts.Person;

/** One row of a song's history: written once, chained to the row before by its hash. */
@Entity
@Table(name = "history")
@IdClass(HistoryEntry.Key.class)
public class HistoryEntry extends PanacheEntityBase {
  /** Song and place in its sequence. */
  public record Key(String song, long seq) implements Serializable {
    public Key() {
      this(null, 0);
    }
  }

  @Id private String song;
  @Id private long seq;
  private Instant at;

  @ManyToOne(fetch = FetchType.LAZY)
  @JoinColumn(name = "by")
  private Person by;

  private String type;
  private String act;
  private String subject;
  private String detail;
  private String bounce;
  private String change;

  @Column(name = "gate_bounce")
  private String gateBounce;

  @Column(name = "gate_note")
  private String gateNote;

  @Column(name = "engineers_only")
  private boolean engineersOnly;

  @Column(name = "previous_hash")
  private String previousHash;

  private String hash;

  protected HistoryEntry() {}

  static HistoryEntry next(
      String song, long seq, Person by, Happening happening, String previousHash, Instant now) {
    HistoryEntry entry = new HistoryEntry();
    entry.song = song;
    entry.seq = seq;
    // PostgreSQL keeps microseconds; the hash is over what is kept.
    entry.at = now.truncatedTo(ChronoUnit.MICROS);
    entry.by = by;
    entry.type = happening.type();
    entry.act = happening.act();
    entry.subject = happening.subject();
    entry.detail = happening.detail();
    entry.bounce = happening.bounce();
    entry.change = happening.change();
    entry.gateBounce = happening.gateBounce();
    entry.gateNote = happening.gateNote();
    entry.engineersOnly = happening.engineersOnly();
    entry.previousHash = previousHash;
    entry.hash = entry.computeHash();
    return entry;
  }

  /** SHA-256 of the RFC 8785 form of what the row says, the hash of the row before included. */
  String computeHash() {
    Map<String, Object> fields = new HashMap<>();
    fields.put("seq", seq);
    fields.put("at", at.toString());
    fields.put("by", by.id());
    fields.put("act", act);
    fields.put("subject", subject);
    fields.put("detail", detail);
    fields.put("previousHash", previousHash);
    return Hashes.sha256(CanonicalJson.object(fields));
  }

  /** The rows of a song after a place in its sequence, in order. */
  public static List<HistoryEntry> after(String song, long seq, int limit) {
    return find(
            "from HistoryEntry h join fetch h.by where h.song = ?1 and h.seq > ?2 order by h.seq",
            song,
            seq)
        .page(0, limit)
        .list();
  }

  public long seq() {
    return seq;
  }

  public Instant at() {
    return at;
  }

  public Person by() {
    return by;
  }

  public String type() {
    return type;
  }

  public String act() {
    return act;
  }

  public String subject() {
    return subject;
  }

  public String detail() {
    return detail;
  }

  public String bounce() {
    return bounce;
  }

  public String change() {
    return change;
  }

  String gateBounce() {
    return gateBounce;
  }

  String gateNote() {
    return gateNote;
  }

  boolean engineersOnly() {
    return engineersOnly;
  }

  public String previousHash() {
    return previousHash;
  }

  public String hash() {
    return hash;
  }
}
