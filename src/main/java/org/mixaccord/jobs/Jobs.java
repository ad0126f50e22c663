package org.mixaccord.jobs;

import com.github.kagkarlsson.scheduler.Scheduler;
import com.github.kagkarlsson.scheduler.task.Task;
import io.quarkus.runtime.ShutdownEvent;
import io.quarkus.runtime.StartupEvent;
import jakarta.annotation.Priority;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Event;
import jakarta.enterprise.event.Observes;
import jakarta.enterprise.inject.Any;
import jakarta.enterprise.inject.Instance;
import jakarta.transaction.Status;
import jakarta.transaction.Synchronization;
import jakarta.transaction.TransactionSynchronizationRegistry;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.TimeoutException;
import java.util.stream.Collectors;
import javax.sql.DataSource;

/**
 * The queue of background work, kept in PostgreSQL: what was promised in a committed transaction is
 * done, whatever is killed meanwhile, on whichever node has a free worker.
 */
@ApplicationScoped
public class Jobs {
  private static final int WORKERS = 2;
  private static final Duration HEARTBEAT = Duration.ofSeconds(2);
  private static final Duration POLL = Duration.ofMillis(500);
  private static final Duration LAST_WORDS = Duration.ofSeconds(10);

  private final JobTable table;
  private final DataSource dataSource;
  private final TransactionSynchronizationRegistry transactions;
  private final Event<JobStatus> events;
  private final List<Job> jobs;
  private final Set<String> names;
  private volatile Optional<Scheduler> scheduler = Optional.empty();
  private volatile boolean stopping;

  Jobs(
      JobTable table,
      DataSource dataSource,
      TransactionSynchronizationRegistry transactions,
      Event<JobStatus> events,
      @Any Instance<Job> jobs) {
    this.table = table;
    this.dataSource = dataSource;
    this.transactions = transactions;
    this.events = events;
    this.jobs = jobs.stream().toList();
    this.names = this.jobs.stream().map(Job::name).collect(Collectors.toSet());
  }

  void start(@Observes @Priority(3000) StartupEvent started) {
    List<Task<?>> tasks =
        jobs.stream()
            .<Task<?>>map(job -> new JobRun(job, table, events::fire, () -> stopping).task())
            .toList();
    ClassLoader loader = Thread.currentThread().getContextClassLoader();
    Scheduler starting =
        Scheduler.create(dataSource, tasks)
            .threads(WORKERS)
            .executorService(Workers.named("job", WORKERS, loader))
            .pollingInterval(POLL)
            .heartbeatInterval(HEARTBEAT)
            .missedHeartbeatsLimit(4)
            .shutdownMaxWait(LAST_WORDS)
            .build();
    starting.start();
    scheduler = Optional.of(starting);
  }

  void stop(@Observes ShutdownEvent ending) {
    stopping = true;
    scheduler.ifPresent(Scheduler::stop);
  }

  /**
   * Asks for a job, once: nothing happens if it waits or runs already. Inside a transaction it
   * begins only after the commit, and never if that does not come.
   */
  public void enqueue(String name, String subject) {
    if (!names.contains(name)) {
      throw new IllegalArgumentException("no job is called " + name);
    }
    if (table.enqueue(name, subject)) {
      afterCommit(() -> scheduler.ifPresent(Scheduler::triggerCheckForDueExecutions));
    }
  }

  /** How a job stands; empty if it was never asked for. */
  public Optional<JobStatus> status(String name, String subject) {
    return table.find(name, subject);
  }

  /**
   * Waits until nothing waits or runs any more.
   *
   * @throws TimeoutException if that takes longer
   */
  public void awaitIdle(Duration longest) throws InterruptedException, TimeoutException {
    long until = System.nanoTime() + longest.toNanos();
    while (table.unfinished() > 0) {
      if (System.nanoTime() > until) {
        throw new TimeoutException(table.unfinished() + " jobs are unfinished after " + longest);
      }
      Thread.sleep(50);
    }
  }

  private void afterCommit(Runnable then) {
    if (transactions.getTransactionStatus() != Status.STATUS_ACTIVE) {
      then.run();
      return;
    }
    transactions.registerInterposedSynchronization(
        new Synchronization() {
          @Override
          public void beforeCompletion() {}

          @Override
          public void afterCompletion(int status) {
            if (status == Status.STATUS_COMMITTED) {
              then.run();
            }
          }
        });
  }
}
