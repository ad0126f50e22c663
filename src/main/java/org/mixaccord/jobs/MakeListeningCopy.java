package org.mixaccord.jobs;

import io.quarkus.narayana.jta.QuarkusTransaction;
import jakarta.enterprise.context.ApplicationScoped;
import java.nio.file.Path;
import java.util.Optional;
import org.mixaccord.intake.DecodedFile;
import org.mixaccord.intake.ListeningCopy;
import org.mixaccord.intake.ListeningManifest;
import org.mixaccord.intake.PcmFile;
import org.mixaccord.record.EventHub;
import org.mixaccord.songs.AudioFacts;
import org.mixaccord.songs.Bounce;

/** Makes the copy of a bounce that browsers play, and finds its pieces. */
@ApplicationScoped
public class MakeListeningCopy implements Job {
  static final String NAME = "listening-copy";

  private final Samples samples;
  private final ListeningCopy copies;
  private final Jobs jobs;
  private final EventHub events;

  MakeListeningCopy(Samples samples, ListeningCopy copies, Jobs jobs, EventHub events) {
    this.samples = samples;
    this.copies = copies;
    this.jobs = jobs;
    this.events = events;
  }

  @Override
  public String name() {
    return NAME;
  }

  @Override
  public void run(String id, Progress progress) throws Exception {
    Bounce bounce = QuarkusTransaction.requiringNew().call(() -> Bounce.<Bounce>findById(id));
    // Opening makes sure the samples are there: they may have been removed to make room.
    try (PcmFile there = samples.open(bounce)) {
      copies.make(Samples.decodedFile(bounce.facts().orElseThrow()), progress::at);
    }
    events.progress(bounce.song().id(), id, 1);
  }

  /** How the copy of a bounce is cut. */
  public ListeningManifest manifest(AudioFacts facts) {
    return ListeningCopy.manifest(Samples.decodedFile(facts));
  }

  /** One segment; empty while it is being made, which is asked for if need be. */
  public Optional<Path> segment(Bounce bounce, int index) {
    DecodedFile file = Samples.decodedFile(bounce.facts().orElseThrow());
    return orAsk(bounce, copies.segment(file, index));
  }

  /** The whole copy; empty while it is being made, which is asked for if need be. */
  public Optional<Path> whole(Bounce bounce) {
    DecodedFile file = Samples.decodedFile(bounce.facts().orElseThrow());
    return orAsk(bounce, copies.whole(file));
  }

  /** How much of the copy is there, 0 to 1. */
  public double progress(Bounce bounce) {
    if (copies.whole(Samples.decodedFile(bounce.facts().orElseThrow())).isPresent()) {
      return 1;
    }
    return jobs.status(NAME, bounce.id()).map(JobStatus::progress).orElse(0.0);
  }

  private Optional<Path> orAsk(Bounce bounce, Optional<Path> found) {
    if (found.isEmpty()) {
      jobs.enqueue(NAME, bounce.id());
    }
    return found;
  }
}
