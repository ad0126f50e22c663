package org.mixaccord.changes;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.mixaccord.notes.Amount;

class AmountBoundsTest {
  @Test
  void eachUnitHasItsBound() {
    for (Object[] most :
        new Object[][] {
          {60.0, "dB"},
          {400.0, "%"},
          {10_000.0, "ms"},
          {3600.0, "s"},
          {999.0, "bars"},
          {96_000.0, "Hz"}
        }) {
      double value = (double) most[0];
      String unit = (String) most[1];
      assertEquals(Optional.empty(), AmountBounds.complaint(Amount.of(value, unit)));
      assertTrue(AmountBounds.complaint(Amount.of(value + 1, unit)).isPresent(), unit);
      assertTrue(AmountBounds.complaint(Amount.of(0, unit)).isPresent(), unit);
    }
    assertTrue(AmountBounds.complaint(Amount.range(1, 61, "dB")).isPresent());
    assertTrue(AmountBounds.complaint(Amount.range(2, 1, "dB")).isPresent());
    assertEquals(Amount.of(0.12, "dB"), AmountBounds.kept(Amount.of(0.123456789, "dB")));
  }

  @Test
  void whatCannotBeAskedForStaysAsWords() {
    assertEquals(Optional.of(Amount.vague("300 db")), AmountBounds.read(Amount.of(300, "dB"), 60));
    assertEquals(Optional.empty(), AmountBounds.read(Amount.of(1e300, "dB"), 60));
    assertEquals(
        Optional.of(Amount.range(1, 2.5, "dB")),
        AmountBounds.read(Amount.range(1, 2.499999, "dB"), 60));
  }

  @Test
  void noFigureHasAnExponentOrEmptyDecimals() {
    assertEquals("1234567890123 dB", AmountBounds.words(Amount.of(1_234_567_890_123.0, "dB")));
    assertEquals("10000000000000000000000 dB", AmountBounds.words(Amount.of(1e22, "dB")));
    assertEquals("0.1 dB", AmountBounds.words(Amount.of(0.1, "dB")));
    assertEquals("1 to 2.25 seconds", AmountBounds.words(Amount.range(1, 2.25, "s")));
    assertEquals("1 bar", AmountBounds.words(Amount.of(1, "bars")));
  }
}
