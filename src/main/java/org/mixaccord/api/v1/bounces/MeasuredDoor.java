package org.mixaccord.api.v1.bounces;

import io.quarkus.narayana.jta.QuarkusTransaction;
import jakarta.enterprise.context.ApplicationScoped;
import java.util.List;
import java.util.Optional;
import org.mixaccord.accounts.Access;
import org.mixaccord.accounts.Act;
import org.mixaccord.audio.FrameRange;
import org.mixaccord.jobs.Comparing;
import org.mixaccord.measure.MeasureTrack;
import org.mixaccord.problem.Problem;
import org.mixaccord.problem.ProblemException;
import org.mixaccord.songs.Bounce;
import org.mixaccord.songs.SongDoor;

/** Lets the caller to a bounce that has been measured. */
@ApplicationScoped
class MeasuredDoor {
  /** A measured bounce, the sections in force as they lie on it, and what the caller may do. */
  record Measured(Access access, Bounce bounce, List<Comparing.PlacedSection> sections) {
    /** The sections that are there on the bounce. */
    List<Comparing.PlacedSection> there() {
      return sections.stream().filter(s -> s.sure() > 0).toList();
    }
  }

  private final SongDoor door;
  private final Comparing comparing;

  MeasuredDoor(SongDoor door, Comparing comparing) {
    this.door = door;
    this.comparing = comparing;
  }

  /** The bounce, for whoever may hear it. */
  Measured to(String id) {
    return to(id, Optional.empty());
  }

  /** The bounce, for whoever may hear it and do that. */
  Measured to(String id, Act act) {
    return to(id, Optional.of(act));
  }

  private Measured to(String id, Optional<Act> act) {
    return QuarkusTransaction.requiringNew()
        .call(
            () -> {
              SongDoor.ToBounce to = door.bounce(id);
              act.ifPresent(to.access()::require);
              if (!to.bounce().ready()) {
                throw new ProblemException(
                    Problem.NOT_MEASURED,
                    "This mix is still being measured, or could not be read.");
              }
              // Read while the transaction lasts: measuring comes after it.
              to.bounce().song().project().spec();
              return new Measured(to.access(), to.bounce(), comparing.placedOn(to.bounce()));
            });
  }

  /** Where a section lies on the audio. */
  static FrameRange range(MeasureTrack track, Comparing.PlacedSection placed) {
    return FrameRange.ofSeconds(
        placed.section().from(), placed.section().to(), track.sampleRate(), track.frames());
  }
}
