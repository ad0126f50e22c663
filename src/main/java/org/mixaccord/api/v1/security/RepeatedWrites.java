package org.mixaccord.api.v1.security;

import io.quarkus.runtime.StartupEvent;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Observes;
import jakarta.persistence.EntityManager;
import jakarta.transaction.Transactional;
import java.time.Clock;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import org.mixaccord.problem.Problem;
import org.mixaccord.problem.ProblemException;

/** Remembers for two weeks which writes were done under which {@code Idempotency-Key}. */
@ApplicationScoped
public class RepeatedWrites {
  /** What the first write was answered; the body as JSON or null. */
  record FirstAnswer(int status, String body) {}

  private static final Duration KEPT = Duration.ofDays(14);

  private final EntityManager entities;
  private final Clock clock;

  RepeatedWrites(EntityManager entities, Clock clock) {
    this.entities = entities;
    this.clock = clock;
  }

  /** What was at work when the server ended is not at work any more, so its keys are free. */
  @Transactional
  void start(@Observes StartupEvent started) {
    entities.createNativeQuery("delete from idempotency where status is null").executeUpdate();
  }

  /**
   * Takes a key for a write.
   *
   * @return empty when the write is new; else the answer to the first
   */
  @Transactional
  Optional<FirstAnswer> take(String person, String key, String what) {
    entities
        .createNativeQuery("delete from idempotency where created_at < ?1")
        .setParameter(1, clock.instant().minus(KEPT))
        .executeUpdate();
    int mine =
        entities
            .createNativeQuery(
                "insert into idempotency (person, key, request, created_at)"
                    + " values (?1, ?2, ?3, ?4) on conflict do nothing")
            .setParameter(1, person)
            .setParameter(2, key)
            .setParameter(3, what)
            .setParameter(4, clock.instant())
            .executeUpdate();
    return mine == 1 ? Optional.empty() : Optional.of(first(person, key, what));
  }

  private FirstAnswer first(String person, String key, String what) {
    List<?> rows =
        entities
            .createNativeQuery(
                "select request, status, body from idempotency where person = ?1 and key = ?2")
            .setParameter(1, person)
            .setParameter(2, key)
            .getResultList();
    Object[] row = rows.isEmpty() ? new Object[3] : (Object[]) rows.get(0);
    if (row[0] != null && !row[0].equals(what)) {
      throw new ProblemException(
          Problem.INVALID, "This Idempotency-Key belongs to another request already.");
    }
    if (row[1] == null) {
      throw new ProblemException(
              Problem.IN_PROGRESS,
              "The first request with this Idempotency-Key is still at work. Send it again in a"
                  + " moment, and you get its answer.")
          .with("retryAfterSeconds", 2);
    }
    return new FirstAnswer(((Number) row[1]).intValue(), (String) row[2]);
  }

  /** Nothing was done, so the key may be used again. */
  @Transactional
  void giveBack(String person, String key) {
    entities
        .createNativeQuery("delete from idempotency where person = ?1 and key = ?2")
        .setParameter(1, person)
        .setParameter(2, key)
        .executeUpdate();
  }

  @Transactional
  void keep(String person, String key, FirstAnswer answer) {
    entities
        .createNativeQuery(
            "update idempotency set status = ?3, body = ?4 where person = ?1 and key = ?2")
        .setParameter(1, person)
        .setParameter(2, key)
        .setParameter(3, answer.status())
        .setParameter(4, answer.body())
        .executeUpdate();
  }
}
