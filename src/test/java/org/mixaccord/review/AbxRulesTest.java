package org.mixaccord.review;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import org.junit.jupiter.api.Test;
import org.mixaccord.changes.Decision;
import org.mixaccord.changes.Decision.Outcome;

/** Trials fixed beforehand, the score at the end, and how likely guessing is. */
class AbxRulesTest {
  /** Counted by hand: ways over all ways. */
  @Test
  void probabilityIsTheUpperTailOfFairGuesses() {
    assertEquals(1.0, AbxRules.probability(0, 5), 0);
    assertEquals(1.0 / 32, AbxRules.probability(5, 5), 0);
    assertEquals(6.0 / 32, AbxRules.probability(4, 5), 0);
    assertEquals(0.5, AbxRules.probability(3, 5), 0);
    // 10 trials: 1 + 10 + 45 ways of 1024 for 8 and more.
    assertEquals(56.0 / 1024, AbxRules.probability(8, 10), 0);
    // 16 trials: 1 + 16 + 120 + 560 + 1820 of 65536 for 12 and more.
    assertEquals(2517.0 / 65536, AbxRules.probability(12, 16), 1e-16);
    assertEquals(Math.pow(0.5, 50), AbxRules.probability(50, 50), 1e-30);
  }

  /** A second way: every sequence of guesses counted one by one. */
  @Test
  void probabilityAgreesWithCountingEverySequence() {
    int n = 14;
    int[] atLeast = new int[n + 1];
    for (int guesses = 0; guesses < 1 << n; guesses++) {
      for (int k = 0; k <= Integer.bitCount(guesses); k++) {
        atLeast[k]++;
      }
    }
    for (int k = 0; k <= n; k++) {
      assertEquals(atLeast[k] / (double) (1 << n), AbxRules.probability(k, n), 1e-15, k + "");
    }
  }

  /** A third way for long tests: the recurrence over trials, in floating point. */
  @Test
  void probabilityOfLongTestsAgreesWithTheRecurrence() {
    double[] exactly = new double[51];
    exactly[0] = 1;
    for (int n = 1; n <= 50; n++) {
      for (int k = n; k >= 0; k--) {
        exactly[k] = (exactly[k] + (k > 0 ? exactly[k - 1] : 0)) / 2;
      }
      double tail = 0;
      for (int k = n; k >= 0; k--) {
        tail += exactly[k];
        assertEquals(tail, AbxRules.probability(k, n), 1e-12 * Math.max(tail, 1e-3), k + "/" + n);
      }
    }
  }

  @Test
  void theNumberOfTrialsIsFixedBetweenFiveAndFifty() {
    assertFalse(AbxRules.trialsFit(4));
    assertTrue(AbxRules.trialsFit(5));
    assertTrue(AbxRules.trialsFit(50));
    assertFalse(AbxRules.trialsFit(51));
  }

  @Test
  void trialsAreAnsweredInTurnAndTheScoreWaitsForTheLast() {
    assertEquals(Decision.ALLOWED, AbxRules.answer(0, 0, 5, false));
    assertEquals(Outcome.WRONG_STATE, AbxRules.answer(1, 0, 5, false).outcome());
    assertEquals(Outcome.WRONG_STATE, AbxRules.answer(0, 1, 5, false).outcome());
    assertEquals(Outcome.WRONG_STATE, AbxRules.answer(5, 5, 5, false).outcome());
    assertEquals(Outcome.WRONG_STATE, AbxRules.answer(0, 0, 5, true).outcome());
    assertFalse(AbxRules.scoreShown(4, 5));
    assertTrue(AbxRules.scoreShown(5, 5));
  }

  @Test
  void rightMeansThatTheHiddenOneWasNamed() {
    Random random = new Random(3);
    int a = 0;
    for (int run = 0; run < 400; run++) {
      long seed = random.nextLong();
      StringBuilder truth = new StringBuilder();
      for (int i = 0; i < AbxRules.MOST_TRIALS; i++) {
        truth.append(AbxRules.hiddenIsA(seed, i) ? 'a' : 'b');
        a += AbxRules.hiddenIsA(seed, i) ? 1 : 0;
      }
      assertEquals(50, AbxRules.right(seed, truth.toString()));
      truth.setCharAt(7, truth.charAt(7) == 'a' ? 'b' : 'a');
      assertEquals(49, AbxRules.right(seed, truth.toString()));
    }
    assertEquals(10_000, a, 300, "seed 3: A and B are drawn equally often");
  }

  @Test
  void theResultIsSaidWithoutAVerdict() {
    assertEquals(
        "12 of 16 right. By guessing alone, at least as many come out right in 3.8 % of such"
            + " tests.",
        AbxRules.words(12, 16));
    assertTrue(AbxRules.words(0, 5).contains("in 100.0 % of"));
    assertTrue(AbxRules.words(20, 20).contains("in 0.000095 % of"), AbxRules.words(20, 20));
  }
}
