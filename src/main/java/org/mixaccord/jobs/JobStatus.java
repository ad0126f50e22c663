package org.mixaccord.jobs;

import java.util.Optional;

/**
 * How one job stands; also fired as a CDI event whenever that changes.
 *
 * @param attempts runs begun so far
 * @param lastReason what the last failure was
 */
public record JobStatus(
    String name,
    String subject,
    State state,
    double progress,
    int attempts,
    Optional<String> lastReason) {
  /** Where a job is. */
  public enum State {
    WAITING,
    RUNNING,
    DONE,
    FAILED
  }
}
