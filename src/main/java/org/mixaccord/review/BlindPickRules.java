package org.mixaccord.review;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.mixaccord.changes.Decision;

/**
 * Two mixes heard at one place without their names, to settle a contradiction: who may pick, how
 * often, until when, in which order each person hears them, and who is told.
 *
 * <p>Source: docs/review-rules.md, "A blind pick".
 */
public final class BlindPickRules {
  private BlindPickRules() {}

  /** What can be said after hearing both. */
  public enum Choice {
    FIRST,
    SECOND,
    NO_DIFFERENCE;

    /** Name on the wire. */
    public String wire() {
      return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    /** The choice of that name. */
    public static Optional<Choice> of(String wire) {
      return List.of(values()).stream().filter(c -> c.wire().equals(wire)).findFirst();
    }
  }

  /** The mixes of a blind pick as the engineer named them. */
  public enum Mix {
    ONE,
    TWO
  }

  /**
   * Where a person stands with a blind pick.
   *
   * @param mayWrite whether they may write notes in the project
   * @param heardBoth whether they were served both
   * @param picked whether they have picked
   */
  public record Ear(boolean mayWrite, boolean heardBoth, boolean picked) {}

  /** Whether two mixes can be offered. */
  public static Decision offer(boolean bothSent, boolean different) {
    if (!different) {
      return Decision.wrongState("Choose two different mixes.");
    }
    return bothSent
        ? Decision.ALLOWED
        : Decision.wrongState("Only mixes that have been sent can be heard by everybody.");
  }

  /** Whether a person may pick. */
  public static Decision pick(Ear ear, boolean open) {
    if (!ear.mayWrite()) {
      return Decision.notYours("Whoever writes notes here picks.");
    }
    if (ear.picked()) {
      return Decision.wrongState("You have picked already, and that stays.");
    }
    if (!open) {
      return Decision.wrongState("It has been closed; nobody picks any more.");
    }
    return ear.heardBoth()
        ? Decision.ALLOWED
        : Decision.wrongState("Hear the first and the second before you pick.");
  }

  /**
   * Whether it takes picks.
   *
   * @param ended whether somebody ended it
   * @param changes whether each of the changes it is to settle is still wanted; empty where it
   *     belongs to none
   */
  public static boolean open(boolean ended, List<Boolean> changes) {
    return !ended && changes.stream().allMatch(wanted -> wanted);
  }

  /** Whether it may be ended: by whoever offers, and by the last word. */
  public static Decision end(boolean engineer, boolean lastWord, boolean open) {
    if (!engineer && !lastWord) {
      return Decision.notYours("The engineer or the last word ends it.");
    }
    return open ? Decision.ALLOWED : Decision.wrongState("It is over already.");
  }

  /**
   * Whether a person is told who picked what: the last word alone, and not before their own pick,
   * so that nobody's pick leads theirs.
   */
  public static boolean toldPicks(boolean lastWord, Ear ear, boolean open) {
    return lastWord && (!open || ear.picked() || !ear.mayWrite());
  }

  /** Which mix a person hears first, from the random number kept for them. */
  public static Mix first(long seed) {
    return Long.bitCount(seed) % 2 == 0 ? Mix.ONE : Mix.TWO;
  }

  /** Which mix a choice meant; empty for "no difference". */
  public static Optional<Mix> meant(Choice choice, long seed) {
    Mix first = first(seed);
    Mix second = first == Mix.ONE ? Mix.TWO : Mix.ONE;
    return switch (choice) {
      case FIRST -> Optional.of(first);
      case SECOND -> Optional.of(second);
      case NO_DIFFERENCE -> Optional.empty();
    };
  }
}
