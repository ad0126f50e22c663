package org.mixaccord.jobs;

import jakarta.enterprise.event.Observes;
import jakarta.inject.Singleton;
import jakarta.transaction.Transactional;
import org.mixaccord.record.EventHub;
import org.mixaccord.songs.Bounce;

/** Shows on a bounce, and to whoever follows its song, how far measuring has come. */
@Singleton
public class BounceProgress {
  private final EventHub events;

  BounceProgress(EventHub events) {
    this.events = events;
  }

  @Transactional
  void told(@Observes JobStatus status) {
    if (!status.name().equals(MeasureBounce.NAME)) {
      return;
    }
    Bounce bounce = Bounce.findById(status.subject());
    if (bounce != null && !bounce.ready()) {
      // No version is raised: progress changes nothing anybody decides on.
      Bounce.update("progress = ?1 where id = ?2", status.progress(), bounce.id());
      events.progress(bounce.song().id(), bounce.id(), status.progress());
    }
  }
}
