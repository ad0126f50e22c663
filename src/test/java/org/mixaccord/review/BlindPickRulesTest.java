package org.mixaccord.review;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.mixaccord.changes.Decision;
import org.mixaccord.changes.Decision.Outcome;
import org.mixaccord.review.BlindPickRules.Choice;
import org.mixaccord.review.BlindPickRules.Ear;
import org.mixaccord.review.BlindPickRules.Mix;

/** Who may pick, once, until when, in which order, and who is told. */
class BlindPickRulesTest {
  private static final Ear READY = new Ear(true, true, false);
  private static final Ear DONE = new Ear(true, true, true);

  @Test
  void onlyTwoDifferentSentMixesAreOffered() {
    assertEquals(Decision.ALLOWED, BlindPickRules.offer(true, true));
    assertEquals(Outcome.WRONG_STATE, BlindPickRules.offer(true, false).outcome());
    assertEquals(Outcome.WRONG_STATE, BlindPickRules.offer(false, true).outcome());
  }

  @Test
  void whoWritesAndHasHeardBothPicksOnceWhileItIsOpen() {
    assertEquals(Decision.ALLOWED, BlindPickRules.pick(READY, true));
    assertEquals(Outcome.WRONG_STATE, BlindPickRules.pick(DONE, true).outcome());
    assertEquals(Outcome.WRONG_STATE, BlindPickRules.pick(READY, false).outcome());
    assertEquals(
        Outcome.WRONG_STATE, BlindPickRules.pick(new Ear(true, false, false), true).outcome());
    assertEquals(
        Outcome.NOT_YOURS, BlindPickRules.pick(new Ear(false, true, false), true).outcome());
  }

  @Test
  void itEndsByHandOrWhenOneOfItsChangesIsNoLongerWanted() {
    assertTrue(BlindPickRules.open(false, List.of()));
    assertTrue(BlindPickRules.open(false, List.of(true, true)));
    assertFalse(BlindPickRules.open(false, List.of(true, false)));
    assertFalse(BlindPickRules.open(true, List.of(true, true)));
    assertEquals(Decision.ALLOWED, BlindPickRules.end(true, false, true));
    assertEquals(Decision.ALLOWED, BlindPickRules.end(false, true, true));
    assertEquals(Outcome.NOT_YOURS, BlindPickRules.end(false, false, true).outcome());
    assertEquals(Outcome.WRONG_STATE, BlindPickRules.end(true, true, false).outcome());
  }

  @Test
  void onlyTheLastWordIsToldAndNotBeforeTheirOwnPick() {
    assertFalse(BlindPickRules.toldPicks(false, DONE, true));
    assertFalse(BlindPickRules.toldPicks(false, DONE, false));
    assertFalse(BlindPickRules.toldPicks(true, READY, true));
    assertTrue(BlindPickRules.toldPicks(true, DONE, true));
    assertTrue(BlindPickRules.toldPicks(true, READY, false));
    // A last word who writes no notes picks nothing and has nothing to wait for.
    assertTrue(BlindPickRules.toldPicks(true, new Ear(false, false, false), true));
  }

  @Test
  void theOrderComesFromThePersonsOwnNumberAndBothOrdersAreEquallyLikely() {
    Random random = new Random(6);
    int one = 0;
    for (int i = 0; i < 10_000; i++) {
      long seed = random.nextLong();
      Mix first = BlindPickRules.first(seed);
      assertEquals(first, BlindPickRules.first(seed));
      assertEquals(Optional.of(first), BlindPickRules.meant(Choice.FIRST, seed));
      assertEquals(
          Optional.of(first == Mix.ONE ? Mix.TWO : Mix.ONE),
          BlindPickRules.meant(Choice.SECOND, seed));
      assertEquals(Optional.empty(), BlindPickRules.meant(Choice.NO_DIFFERENCE, seed));
      one += first == Mix.ONE ? 1 : 0;
    }
    assertEquals(5000, one, 200, "seed 6");
  }

  @Test
  void choicesHaveTheirNames() {
    assertEquals(Optional.of(Choice.NO_DIFFERENCE), Choice.of("no-difference"));
    assertEquals(Optional.empty(), Choice.of("third"));
    assertEquals(Optional.empty(), Choice.of(null));
  }
}
