package org.mixaccord.jobs;

import io.quarkus.runtime.ShutdownEvent;
import io.quarkus.runtime.StartupEvent;
import jakarta.annotation.Priority;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Observes;
import java.io.IOException;
import java.time.Clock;
import java.time.Duration;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.TimeUnit;
import org.jboss.logging.Logger;
import org.mixaccord.storage.DerivedFiles;

/**
 * Looks after uploads that were broken off, and clears away what was rendered for listening long
 * ago: at the start, and from then on every quarter hour.
 */
@ApplicationScoped
public class Sweep {
  private static final Logger LOG = Logger.getLogger(Sweep.class);
  private static final long EVERY_MINUTES = 15;

  /** Whoever listens to it later than that waits once more until it is rendered. */
  private static final Duration RENDERED_LASTS = Duration.ofDays(30);

  private final Resuming resuming;
  private final DerivedFiles derived;
  private final Clock clock;
  private ScheduledExecutorService clockwork;

  Sweep(Resuming resuming, DerivedFiles derived, Clock clock) {
    this.resuming = resuming;
    this.derived = derived;
    this.clock = clock;
  }

  // After the queue has started, which takes what a completed upload asks for.
  void start(@Observes @Priority(3500) StartupEvent started) {
    ClassLoader loader = Thread.currentThread().getContextClassLoader();
    clockwork =
        Executors.newSingleThreadScheduledExecutor(
            work -> {
              Thread thread = new Thread(work, "sweep");
              thread.setContextClassLoader(loader);
              thread.setDaemon(true);
              return thread;
            });
    clockwork.scheduleWithFixedDelay(this::sweep, 0, EVERY_MINUTES, TimeUnit.MINUTES);
  }

  void stop(@Observes ShutdownEvent ending) {
    clockwork.shutdownNow();
  }

  private void sweep() {
    try {
      resuming.sweep();
    } catch (IOException | RuntimeException e) {
      LOG.warn("unfinished uploads could not be looked after", e);
    }
    try {
      derived.removeRenderedBefore(clock.instant().minus(RENDERED_LASTS));
    } catch (IOException e) {
      LOG.warn("what was rendered could not be cleared away", e);
    }
  }
}
