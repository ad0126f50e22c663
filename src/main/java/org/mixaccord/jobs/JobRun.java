package org.mixaccord.jobs;

import com.github.kagkarlsson.scheduler.task.CompletionHandler;
import com.github.kagkarlsson.scheduler.task.ExecutionContext;
import com.github.kagkarlsson.scheduler.task.TaskInstance;
import com.github.kagkarlsson.scheduler.task.helper.CustomTask;
import com.github.kagkarlsson.scheduler.task.helper.Tasks;
import io.quarkus.arc.Arc;
import io.quarkus.arc.ManagedContext;
import java.time.Duration;
import java.time.Instant;
import java.util.function.BooleanSupplier;
import java.util.function.Consumer;
import org.jboss.logging.Logger;
import org.mixaccord.jobs.JobStatus.State;

/** Runs one kind of job under the engine: counts attempts, keeps reasons, decides what follows. */
final class JobRun {
  private static final Logger LOG = Logger.getLogger(JobRun.class);
  private static final long BETWEEN_UPDATES_NANOS = 250_000_000L;

  private final Job job;
  private final JobTable table;
  private final Consumer<JobStatus> listeners;
  private final BooleanSupplier stopping;

  JobRun(Job job, JobTable table, Consumer<JobStatus> listeners, BooleanSupplier stopping) {
    this.job = job;
    this.table = table;
    this.listeners = listeners;
    this.stopping = stopping;
  }

  CustomTask<Void> task() {
    return Tasks.custom(job.name(), Void.class)
        .onDeadExecutionRevive()
        .execute((instance, context) -> attempt(instance, context));
  }

  private CompletionHandler<Void> attempt(TaskInstance<Void> instance, ExecutionContext context) {
    String subject = instance.getId();
    ManagedContext request = Arc.container().requestContext();
    request.activate();
    try {
      int attempt = table.begin(job.name(), subject);
      if (attempt > job.attempts()) {
        return giveUp(subject, "the server went down each time this was tried");
      }
      tell(subject);
      return attempt(subject, attempt);
    } finally {
      request.terminate();
    }
  }

  private CompletionHandler<Void> attempt(String subject, int attempt) {
    try {
      job.run(subject, progress(subject));
      table.end(job.name(), subject, State.DONE, null);
      tell(subject);
      return new CompletionHandler.OnCompleteRemove<>();
    } catch (Exception | LinkageError | OutOfMemoryError | StackOverflowError e) {
      if (stopping.getAsBoolean()) {
        table.takeBack(job.name(), subject);
        return at(Instant.now());
      }
      String reason = e.getMessage() == null ? e.getClass().getSimpleName() : e.getMessage();
      LOG.warnf(e, "job %s of %s failed, attempt %d", job.name(), subject, attempt);
      if (attempt >= job.attempts()) {
        return giveUp(subject, reason);
      }
      table.end(job.name(), subject, State.WAITING, reason);
      tell(subject);
      Duration pause = job.pause().multipliedBy(1L << Math.min(20, attempt - 1));
      return at(Instant.now().plus(pause));
    }
  }

  private CompletionHandler<Void> giveUp(String subject, String reason) {
    try {
      job.gaveUp(subject, reason);
    } catch (RuntimeException e) {
      LOG.errorf(e, "giving up job %s of %s failed", job.name(), subject);
    }
    table.end(job.name(), subject, State.FAILED, reason);
    tell(subject);
    return new CompletionHandler.OnCompleteRemove<>();
  }

  private static CompletionHandler<Void> at(Instant next) {
    return (complete, operations) -> operations.reschedule(complete, next);
  }

  private Job.Progress progress(String subject) {
    long[] last = {System.nanoTime() - BETWEEN_UPDATES_NANOS};
    return share -> {
      long now = System.nanoTime();
      if (now - last[0] >= BETWEEN_UPDATES_NANOS) {
        last[0] = now;
        table.progress(job.name(), subject, Math.max(0, Math.min(1, share)));
        tell(subject);
      }
    };
  }

  private void tell(String subject) {
    try {
      table.find(job.name(), subject).ifPresent(listeners);
    } catch (RuntimeException e) {
      LOG.warnf(e, "telling how job %s of %s stands failed", job.name(), subject);
    }
  }
}
