package org.mixaccord.record;

import io.quarkus.hibernate.orm.panache.PanacheEntityBase;
import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.Id;
import jakarta.persistence.IdClass;
import jakarta.persistence.Table;
import java.io.Serializable;
import java.time.Instant;
import java.util.HashMap;
import java.util.HashSet;
import java.util.Map;
import java.util.Set;
import org.mixaccord.songs.Bounce;
import org.mixaccord.songs.Song;

/** That an approval holds for a later bounce that is not identical, and how alike the two are. */
@Entity
@Table(name = "approval_carried")
@IdClass(CarriedApproval.Key.class)
public class CarriedApproval extends PanacheEntityBase {
  /** Approval and bounce. */
  public record Key(String approval, String bounce) implements Serializable {
    public Key() {
      this(null, null);
    }
  }

  @Id private String approval;
  @Id private String bounce;
  private String likeness;

  @Column(name = "residual_db")
  private Double residualDb;

  private Instant at;

  protected CarriedApproval() {}

  static void carry(
      Approval approval, Bounce bounce, String likeness, Double residualDb, Instant now) {
    CarriedApproval carried = new CarriedApproval();
    carried.approval = approval.id();
    carried.bounce = bounce.id();
    carried.likeness = likeness;
    carried.residualDb = residualDb;
    carried.at = now;
    carried.persist();
  }

  /** Bounces that approvals of a song hold for as well, by approval. */
  static Map<String, Set<String>> of(Song song) {
    Map<String, Set<String>> found = new HashMap<>();
    CarriedApproval.<CarriedApproval>list(
            "from CarriedApproval c where exists"
                + " (from Approval a where a.id = c.approval and a.song = ?1)",
            song)
        .forEach(c -> found.computeIfAbsent(c.approval, key -> new HashSet<>()).add(c.bounce));
    return found;
  }
}
