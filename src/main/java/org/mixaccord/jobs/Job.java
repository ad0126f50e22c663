package org.mixaccord.jobs;

import java.time.Duration;

/**
 * A kind of work done in the background. Every bean of this type is known to {@link Jobs} by its
 * name.
 *
 * <p>A job may be run again after a crash at any instant: it must lead to the same result when what
 * it wants to make is there already, wholly or in part.
 */
public interface Job {
  /** Kebab-case name, never changed: waiting work is found by it. */
  String name();

  /**
   * Does the work; whatever it throws counts as a failed attempt.
   *
   * @param subject id of what is worked on
   */
  void run(String subject, Progress progress) throws Exception;

  /** How often it is tried, kills included. */
  default int attempts() {
    return 4;
  }

  /** The pause after the first failure; doubled after each further one. */
  default Duration pause() {
    return Duration.ofSeconds(2);
  }

  /** Called once when the last attempt has failed; {@code reason} is what it failed with. */
  default void gaveUp(String subject, String reason) {}

  /** Tells how far a job has come. */
  @FunctionalInterface
  interface Progress {
    /** Share that is done, 0 to 1. */
    void at(double share);
  }
}
