package org.mixaccord.jobs;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import io.quarkus.narayana.jta.QuarkusTransaction;
import io.quarkus.test.common.QuarkusTestResource;
import io.quarkus.test.junit.QuarkusTest;
import jakarta.enterprise.event.Observes;
import jakarta.inject.Inject;
import jakarta.inject.Singleton;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import javax.sql.DataSource;
import org.junit.jupiter.api.Test;
import org.mixaccord.PostgresForTests;
import org.mixaccord.jobs.JobStatus.State;

@QuarkusTest
@QuarkusTestResource(PostgresForTests.class)
class JobsTest {
  private static final Duration LONG = Duration.ofSeconds(60);
  @Inject Jobs jobs;
  @Inject Trial trial;
  @Inject DataSource dataSource;

  /** Does as its subject says. */
  @Singleton
  static class Trial implements Job {
    final List<String> runs = new CopyOnWriteArrayList<>();
    final List<String> givenUp = new CopyOnWriteArrayList<>();
    final List<JobStatus> told = new CopyOnWriteArrayList<>();
    final CountDownLatch gate = new CountDownLatch(1);

    @Override
    public String name() {
      return "trial";
    }

    @Override
    public void run(String subject, Progress progress) throws Exception {
      runs.add(subject);
      if (subject.startsWith("fails")) {
        throw new IllegalStateException("the disk of " + subject + " is gone");
      }
      if (subject.startsWith("second") && runs.stream().filter(subject::equals).count() < 2) {
        throw new IllegalStateException("not yet");
      }
      if (subject.startsWith("gated")) {
        gate.await(30, TimeUnit.SECONDS);
      }
      if (subject.startsWith("steps")) {
        for (int i = 0; i <= 1000; i++) {
          progress.at(i / 1000.0);
          Thread.sleep(1);
        }
      }
    }

    @Override
    public int attempts() {
      return 3;
    }

    @Override
    public Duration pause() {
      return Duration.ofMillis(50);
    }

    @Override
    public void gaveUp(String subject, String reason) {
      givenUp.add(subject + ": " + reason);
    }

    void hear(@Observes JobStatus status) {
      if (status.name().equals("trial")) {
        told.add(status);
      }
    }

    long runsOf(String subject) {
      return runs.stream().filter(subject::equals).count();
    }
  }

  @Test
  void aCommittedPromiseIsKeptOnceAndARolledBackOneNever() throws Exception {
    QuarkusTransaction.requiringNew()
        .run(
            () -> {
              jobs.enqueue("trial", "kept");
              jobs.enqueue("trial", "kept");
            });
    assertThrows(
        IllegalStateException.class,
        () ->
            QuarkusTransaction.requiringNew()
                .run(
                    () -> {
                      jobs.enqueue("trial", "dropped");
                      throw new IllegalStateException("roll back");
                    }));
    jobs.awaitIdle(LONG);
    assertEquals(1, trial.runsOf("kept"));
    assertEquals(0, trial.runsOf("dropped"));
    assertEquals(Optional.empty(), jobs.status("trial", "dropped"));
    var status = jobs.status("trial", "kept").orElseThrow();
    assertEquals(State.DONE, status.state());
    assertEquals(1.0, status.progress());
  }

  @Test
  void whatRunsIsNotStartedASecondTimeAndMayBeAskedForAgainAfterwards() throws Exception {
    jobs.enqueue("trial", "gated");
    for (int i = 0; i < 400 && trial.runsOf("gated") == 0; i++) {
      Thread.sleep(50);
    }
    jobs.enqueue("trial", "gated");
    trial.gate.countDown();
    jobs.awaitIdle(LONG);
    assertEquals(1, trial.runsOf("gated"));
    // The queue forgets a finished job a moment after it is done.
    for (int i = 0; i < 400 && trial.runsOf("gated") == 1; i++) {
      jobs.enqueue("trial", "gated");
      Thread.sleep(50);
    }
    jobs.awaitIdle(LONG);
    assertEquals(2, trial.runsOf("gated"));
  }

  @Test
  void failuresAreTriedAgainWithALimitAndTheLastReasonIsKept() throws Exception {
    jobs.enqueue("trial", "fails");
    jobs.enqueue("trial", "second");
    jobs.awaitIdle(LONG);
    assertEquals(3, trial.runsOf("fails"));
    var failed = jobs.status("trial", "fails").orElseThrow();
    assertEquals(State.FAILED, failed.state());
    assertEquals(3, failed.attempts());
    assertEquals(Optional.of("the disk of fails is gone"), failed.lastReason());
    assertEquals(List.of("fails: the disk of fails is gone"), trial.givenUp);
    var second = jobs.status("trial", "second").orElseThrow();
    assertEquals(State.DONE, second.state());
    assertEquals(2, second.attempts());
  }

  @Test
  void progressIsToldLiveButNotMoreThanFourTimesASecond() throws Exception {
    long began = System.nanoTime();
    jobs.enqueue("trial", "steps");
    jobs.awaitIdle(LONG);
    double seconds = (System.nanoTime() - began) / 1e9;
    List<Double> shares =
        trial.told.stream()
            .filter(s -> s.subject().equals("steps") && s.state() == State.RUNNING)
            .map(JobStatus::progress)
            .toList();
    assertTrue(shares.size() >= 3, shares.toString());
    assertTrue(shares.size() <= seconds * 4 + 3, shares.size() + " in " + seconds + " s");
    assertEquals(shares.stream().sorted().toList(), shares);
  }

  @Test
  void workOfANodeThatDiedIsTakenOver() throws Exception {
    try (var connection = dataSource.getConnection();
        var statement = connection.createStatement()) {
      statement.execute(
          "insert into scheduled_tasks (task_name, task_instance, execution_time, picked,"
              + " picked_by, last_heartbeat, version) values ('trial', 'orphan', now(), true,"
              + " 'dead node', now() - interval '1 minute', 1)");
      statement.execute(
          "insert into jobs (name, subject, state, attempts, progress) values ('trial', 'orphan',"
              + " 'RUNNING', 1, 0.4)");
    }
    jobs.awaitIdle(LONG);
    assertEquals(1, trial.runsOf("orphan"));
    assertEquals(2, jobs.status("trial", "orphan").orElseThrow().attempts());
  }

  @Test
  void anUnknownNameIsAMistake() {
    assertThrows(IllegalArgumentException.class, () -> jobs.enqueue("nobody", "x"));
    assertFalse(jobs.status("nobody", "x").isPresent());
  }
}
