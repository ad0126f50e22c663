package org.mixaccord.songs;

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

/** What comparing two bounces said, for one state of what went in. */
@Entity
@Table(name = "comparison")
public class ComparisonRecord extends PanacheEntityBase {
  @Id private String id;

  @ManyToOne(fetch = FetchType.LAZY)
  @JoinColumn(name = "here")
  private Bounce here;

  @ManyToOne(fetch = FetchType.LAZY)
  @JoinColumn(name = "there")
  private Bounce there;

  private String inputs;
  private String state;
  private double progress;
  private String result;

  @Column(name = "created_at")
  private Instant createdAt;

  protected ComparisonRecord() {}

  /** Asks for a comparison; its job fills it in. */
  public static ComparisonRecord ask(Bounce here, Bounce there, String inputs, Instant now) {
    ComparisonRecord record = new ComparisonRecord();
    record.id = Ids.fresh();
    record.here = here;
    record.there = there;
    record.inputs = inputs;
    record.state = "waiting";
    record.createdAt = now;
    record.persist();
    return record;
  }

  /** The comparison of two bounces for given inputs. */
  public static Optional<ComparisonRecord> of(Bounce here, Bounce there, String inputs) {
    return find("here = ?1 and there = ?2 and inputs = ?3", here, there, inputs)
        .firstResultOptional();
  }

  /** The newest finished comparison of two bounces, whatever its inputs. */
  public static Optional<ComparisonRecord> newestReady(Bounce here, Bounce there) {
    return find("here = ?1 and there = ?2 and state = 'ready' order by createdAt desc", here, there)
        .firstResultOptional();
  }

  /** A finished comparison by its ids, without its result. */
  public record Pair(String id, String here, String there) {}

  /** The finished comparisons of a song, oldest first. */
  public static List<Pair> readyPairs(Song song) {
    return getEntityManager()
        .createQuery(
            "select c.id, c.here.id, c.there.id from ComparisonRecord c"
                + " where c.here.song = :song and c.state = 'ready' order by c.createdAt",
            Object[].class)
        .setParameter("song", song)
        .getResultStream()
        .map(row -> new Pair((String) row[0], (String) row[1], (String) row[2]))
        .toList();
  }

  public void reached(double share) {
    progress = share;
  }

  public void finish(String json) {
    result = json;
    state = "ready";
    progress = 1;
  }

  public void fail() {
    state = "failed";
  }

  public boolean ready() {
    return "ready".equals(state);
  }

  public boolean failed() {
    return "failed".equals(state);
  }

  public String id() {
    return id;
  }

  public Bounce here() {
    return here;
  }

  public Bounce there() {
    return there;
  }

  public String inputs() {
    return inputs;
  }

  public double progress() {
    return progress;
  }

  /** The result as JSON; empty until ready. */
  public Optional<String> result() {
    return Optional.ofNullable(result);
  }
}
