package org.mixaccord.jobs;

import io.quarkus.runtime.ShutdownEvent;
import io.quarkus.runtime.StartupEvent;
import jakarta.annotation.Priority;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Observes;
import java.io.IOException;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.TimeUnit;
import org.jboss.logging.Logger;

/** Looks after uploads that were broken off: at the start, and from then on every quarter hour. */
@ApplicationScoped
public class UploadSweep {
  private static final Logger LOG = Logger.getLogger(UploadSweep.class);
  private static final long EVERY_MINUTES = 15;

  private final Resuming resuming;
  private ScheduledExecutorService clockwork;

  UploadSweep(Resuming resuming) {
    this.resuming = resuming;
  }

  // After the queue has started, which takes what a completed upload asks for.
  void start(@Observes @Priority(3500) StartupEvent started) {
    ClassLoader loader = Thread.currentThread().getContextClassLoader();
    clockwork =
        Executors.newSingleThreadScheduledExecutor(
            work -> {
              Thread thread = new Thread(work, "upload-sweep");
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
  }
}
