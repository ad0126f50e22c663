package org.mixaccord.changes;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.mixaccord.notes.Amount;

/** The trade's table first, people's own scale once they have called enough good. */
class UsualAmountTest {
  private static final Optional<Amount> TOUCH = Optional.of(Amount.vague("a touch"));

  private static UsualAmount.Good good(String who, String word, double db) {
    return new UsualAmount.Good(who, who, word, "level", db);
  }

  private static UsualAmount of(String who, List<UsualAmount.Good> good) {
    return UsualAmount.of(who, "level", TOUCH, good).orElseThrow();
  }

  @Test
  void withoutExamplesTheTableCounts() {
    UsualAmount usual = of("lio", List.of(good("lio", "a lot", 4)));
    assertEquals(0.5, usual.fromDb(), 1e-9);
    assertEquals(1.0, usual.toDb(), 1e-9);
    assertFalse(usual.learned());
    assertTrue(usual.good().isEmpty());
  }

  @Test
  void threeExamplesOfOnesOwnReplaceIt() {
    List<UsualAmount.Good> good =
        new ArrayList<>(
            List.of(
                good("lio", "a touch", 0.4),
                good("bas", "A touch", 2),
                good("lio", "a touch", 0.8)));
    UsualAmount two = of("petra", good.subList(0, 2));
    assertFalse(two.learned());
    assertEquals(2, two.good().size());
    // Three from anybody.
    assertTrue(of("petra", good).learned());
    assertEquals(2.5, of("petra", good).toDb(), 1e-9);
    good.add(good("lio", "a touch", 0.6));
    UsualAmount own = of("lio", good);
    assertEquals(0.3, own.fromDb(), 1e-9);
    assertEquals(1.0, own.toDb(), 1e-9);
    assertEquals(3, own.good().size());
  }

  @Test
  void figuresAndOtherAspectsHaveNoUsualAmount() {
    assertTrue(
        UsualAmount.of("lio", "level", Optional.of(Amount.of(1, "dB")), List.of()).isEmpty());
    assertTrue(UsualAmount.of("lio", "level", Optional.empty(), List.of()).isEmpty());
    assertTrue(UsualAmount.of("lio", "reverb", TOUCH, List.of()).isEmpty());
  }
}
