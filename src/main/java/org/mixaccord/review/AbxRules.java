package org.mixaccord.review;

import java.math.BigDecimal;
import java.math.BigInteger;
import java.math.MathContext;
import java.math.RoundingMode;
import org.mixaccord.changes.Decision;

/**
 * A listening test of one engineer: A and B are known, X is one of the two, drawn anew for each of
 * a number of trials fixed beforehand. The score is shown after the last trial and not before.
 */
public final class AbxRules {
  /** Fewer prove nothing, more tire the ear. */
  public static final int LEAST_TRIALS = 5;

  public static final int MOST_TRIALS = 50;

  private static final BigDecimal TENTH = new BigDecimal("0.1");

  private AbxRules() {}

  /** Whether such a number of trials can be fixed. */
  public static boolean trialsFit(int trials) {
    return trials >= LEAST_TRIALS && trials <= MOST_TRIALS;
  }

  /**
   * Whether X of a trial is A, from the random number kept for the test: one bit a trial.
   *
   * @param trial from 0, under {@link #MOST_TRIALS}
   */
  public static boolean hiddenIsA(long seed, int trial) {
    return (seed >>> trial & 1) == 0;
  }

  /**
   * Whether an answer to a trial may be taken.
   *
   * @param trial from 0
   * @param answered how many have been answered
   * @param trials how many were fixed
   * @param brokenOff whether the test was broken off
   */
  public static Decision answer(int trial, int answered, int trials, boolean brokenOff) {
    if (brokenOff) {
      return Decision.wrongState("This test was broken off. Begin another one.");
    }
    if (answered == trials) {
      return Decision.wrongState("This test is over.");
    }
    return trial == answered
        ? Decision.ALLOWED
        : Decision.wrongState("Trial " + (answered + 1) + " is the one to answer now.");
  }

  /** Whether the score may be shown. */
  public static boolean scoreShown(int answered, int trials) {
    return answered == trials;
  }

  /** How many answers were right; {@code answers} holds {@code a} or {@code b} for each trial. */
  public static int right(long seed, String answers) {
    int right = 0;
    for (int i = 0; i < answers.length(); i++) {
      if (hiddenIsA(seed, i) == (answers.charAt(i) == 'a')) {
        right++;
      }
    }
    return right;
  }

  /**
   * How likely mere guessing brings at least so many right: the upper tail of the binomial
   * distribution at one half, exact until the last division.
   *
   * @param right 0 to {@code trials}
   * @param trials 1 to {@link #MOST_TRIALS}
   */
  public static double probability(int right, int trials) {
    BigInteger ways = BigInteger.ZERO;
    BigInteger term = BigInteger.ONE;
    for (int k = 0; k <= trials; k++) {
      if (k >= right) {
        ways = ways.add(term);
      }
      term = term.multiply(BigInteger.valueOf(trials - k)).divide(BigInteger.valueOf(k + 1L));
    }
    return new BigDecimal(ways)
        .divide(new BigDecimal(BigInteger.TWO.pow(trials)), MathContext.DECIMAL64)
        .doubleValue();
  }

  /** The score and what guessing would bring, in words. */
  public static String words(int right, int trials) {
    return right
        + " of "
        + trials
        + " right. By guessing alone, at least as many come out right in "
        + percent(probability(right, trials))
        + " of such tests.";
  }

  /** One decimal, or two digits that count below a tenth of a per cent. */
  private static String percent(double share) {
    BigDecimal percent = BigDecimal.valueOf(share).movePointRight(2);
    BigDecimal shown =
        percent.compareTo(TENTH) < 0
            ? percent.round(new MathContext(2, RoundingMode.HALF_UP))
            : percent.setScale(1, RoundingMode.HALF_UP);
    return shown.toPlainString() + " %";
  }
}
