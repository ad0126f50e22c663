package org.mixaccord.jobs;

import io.quarkus.narayana.jta.QuarkusTransaction;
import jakarta.enterprise.context.ApplicationScoped;
import java.nio.file.Path;
import java.util.Optional;
import org.mixaccord.intake.DecodedFile;
import org.mixaccord.intake.LightCopy;
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

  /** The small lossy copy; empty while it is being made, which is asked for if need be. */
  public Optional<LightCopy> light(Bounce bounce) {
    DecodedFile file = Samples.decodedFile(bounce.facts().orElseThrow());
    Optional<LightCopy> found = copies.light(file);
    if (found.isEmpty() && copies.hasLight(file)) {
      jobs.enqueue(NAME, bounce.id());
    }
    return found;
  }

  /**
   * What there is of a copy.
   *
   * @param progress of making all of it, 0 to 1
   * @param segments how many are there, counted from the first without a gap
   * @param light the small copy, if it is there
   * @param hasLight false where there will be none
   * @param problem why the last attempt to make it did not succeed, if it has not since
   */
  public record State(
      double progress,
      int segments,
      Optional<Path> whole,
      Optional<LightCopy> light,
      boolean hasLight,
      Optional<String> problem) {}

  /** What there is of a bounce's copy; what is missing is asked for. */
  public State state(Bounce bounce) {
    DecodedFile file = Samples.decodedFile(bounce.facts().orElseThrow());
    Optional<Path> whole = copies.whole(file);
    Optional<LightCopy> light = copies.light(file);
    boolean hasLight = copies.hasLight(file);
    int segments = copies.segmentsThere(file);
    boolean complete =
        whole.isPresent()
            && segments == ListeningCopy.manifest(file).segments()
            && light.isPresent() == hasLight;
    Optional<JobStatus> job = complete ? Optional.empty() : jobs.status(NAME, bounce.id());
    if (!complete) {
      jobs.enqueue(NAME, bounce.id());
    }
    boolean atWork = job.filter(j -> j.state() != JobStatus.State.DONE).isPresent();
    double progress = complete ? 1 : atWork ? Math.min(0.99, job.orElseThrow().progress()) : 0;
    return new State(
        progress, segments, whole, light, hasLight, job.flatMap(JobStatus::lastReason));
  }

  private Optional<Path> orAsk(Bounce bounce, Optional<Path> found) {
    if (found.isEmpty()) {
      jobs.enqueue(NAME, bounce.id());
    }
    return found;
  }
}
