package org.mixaccord.jobs.sections;

import jakarta.enterprise.context.ApplicationScoped;
import java.util.Optional;
import org.mixaccord.align.TimeMap;
import org.mixaccord.jobs.Comparing;
import org.mixaccord.songs.AudioFacts;
import org.mixaccord.songs.Bounce;
import org.mixaccord.songs.TempoMapRecord;

/** Lays the tempo map of a song onto its bounces. */
@ApplicationScoped
public class TempoMaps {
  private final Comparing comparing;

  TempoMaps(Comparing comparing) {
    this.comparing = comparing;
  }

  /** The tempo map in force where it lies on a bounce; to be called inside a transaction. */
  public Optional<PlacedTempoMap> on(Bounce bounce) {
    return TempoMapRecord.of(bounce.song()).map(given -> placed(given, bounce));
  }

  private PlacedTempoMap placed(TempoMapRecord given, Bounce bounce) {
    double seconds = bounce.facts().map(AudioFacts::seconds).orElse(0.0);
    if (given.bounce().id().equals(bounce.id())) {
      return new PlacedTempoMap(given.read(), Optional.empty(), true, seconds);
    }
    Optional<TimeMap> map = comparing.timeMap(given.bounce(), bounce);
    if (map.isEmpty()
        && bounce.ready()
        && given.bounce().ready()
        && Comparing.comparable(bounce, given.bounce())) {
      comparing.ask(bounce, given.bounce());
    }
    return new PlacedTempoMap(given.read(), map, map.isPresent(), seconds);
  }
}
