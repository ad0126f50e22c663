package org.mixaccord.jobs;

import io.quarkus.narayana.jta.QuarkusTransaction;
import io.quarkus.runtime.StartupEvent;
import jakarta.annotation.Priority;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Observes;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import org.jboss.logging.Logger;
import org.mixaccord.songs.AudioState;
import org.mixaccord.songs.Bounce;

/**
 * Measures again, after an update, what an earlier version of the measuring measured: one bounce
 * after the other, so that a new upload always finds the second worker free. Whoever asks for a
 * bounce's figures meanwhile does not wait for their turn; it is measured at once.
 */
@ApplicationScoped
public class RenewTracks implements Job {
  static final String NAME = "renew-tracks";
  private static final String ALL = "all";
  private static final Logger LOG = Logger.getLogger(RenewTracks.class);

  private final Samples samples;
  private final Jobs jobs;

  RenewTracks(Samples samples, Jobs jobs) {
    this.samples = samples;
    this.jobs = jobs;
  }

  // After the queue has started.
  void start(@Observes @Priority(3500) StartupEvent started) throws IOException {
    ask();
  }

  /** Looks for tracks of another version and has them measured in the background. */
  public void ask() throws IOException {
    if (!behind().isEmpty()) {
      jobs.enqueue(NAME, ALL);
    }
  }

  @Override
  public String name() {
    return NAME;
  }

  @Override
  public void run(String subject, Progress progress) throws IOException {
    List<Bounce> behind = behind();
    int done = 0;
    for (Bounce bounce : behind) {
      double before = done;
      try {
        samples.track(bounce, share -> progress.at((before + share) / behind.size()));
        samples.dropOlderTracks(bounce);
      } catch (IOException e) {
        // One that cannot be opened must not keep the others from their turn.
        LOG.warnf("bounce %s could not be measured again: %s", bounce.id(), e.getMessage());
      }
      done++;
    }
  }

  private List<Bounce> behind() throws IOException {
    List<Bounce> ready =
        QuarkusTransaction.requiringNew()
            .call(() -> Bounce.list("state = ?1 order by uploadedAt desc", AudioState.READY));
    List<Bounce> behind = new ArrayList<>();
    for (Bounce bounce : ready) {
      if (samples.hasOnlyOlderTrack(bounce)) {
        behind.add(bounce);
      }
    }
    return behind;
  }
}
