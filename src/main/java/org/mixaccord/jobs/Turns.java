package org.mixaccord.jobs;

import java.time.Duration;
import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import org.mixaccord.problem.Problem;
import org.mixaccord.problem.ProblemException;

/**
 * One request at a time for each upload. The newest wins: a phone whose line died comes back while
 * the server still waits for the rest of what it sent before.
 */
final class Turns {
  private static final Duration PATIENCE = Duration.ofSeconds(30);

  /** The right to work on an upload, until it is closed. */
  final class Turn implements AutoCloseable {
    private final String id;
    private final Runnable end;
    private boolean asked;

    private Turn(String id, Runnable end) {
      this.id = id;
      this.end = end;
    }

    @Override
    public void close() {
      leave(this);
    }
  }

  private final Map<String, Turn> held = new HashMap<>();

  /**
   * Takes the turn, ending whoever has it.
   *
   * @param end makes the holder stop reading what is sent, when somebody newer comes
   * @throws ProblemException {@code busy} if the holder does not leave, busy with the disk
   */
  synchronized Turn take(String id, Runnable end) {
    long until = System.nanoTime() + PATIENCE.toNanos();
    for (Turn before = held.get(id); before != null; before = held.get(id)) {
      if (!before.asked) {
        before.asked = true;
        before.end.run();
      }
      awaitUntil(until);
    }
    return begin(id, end);
  }

  /** Takes the turn if nobody has it. */
  synchronized Optional<Turn> takeIfFree(String id) {
    return held.containsKey(id) ? Optional.empty() : Optional.of(begin(id, () -> {}));
  }

  private Turn begin(String id, Runnable end) {
    Turn turn = new Turn(id, end);
    held.put(id, turn);
    return turn;
  }

  private synchronized void leave(Turn turn) {
    held.remove(turn.id, turn);
    notifyAll();
  }

  private void awaitUntil(long until) {
    long millis = (until - System.nanoTime()) / 1_000_000;
    if (millis <= 0) {
      throw new ProblemException(
          Problem.BUSY, "What you sent before is still being written to the disk. Wait a moment.");
    }
    try {
      wait(millis);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new ProblemException(Problem.BUSY, "The server is stopping. Go on in a moment.");
    }
  }
}
