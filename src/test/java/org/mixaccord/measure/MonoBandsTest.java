package org.mixaccord.measure;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.mixaccord.audio.ArrayPcm;

class MonoBandsTest {
  private static final int RATE = 48000;

  /**
   * Equal noise on both sides and a note whose sides are {@code against} each other for a while.
   */
  private static double[][] pair(double hz, double dbfs, double from, double to, double against) {
    double[] l = Signals.noise(new Random(4), 20 * RATE, 0.05);
    double[] r = l.clone();
    double[] note = Signals.sine(RATE, hz, dbfs, 20);
    for (int i = 0; i < l.length; i++) {
      boolean inside = i >= from * RATE && i < to * RATE;
      l[i] += note[i];
      r[i] += inside ? against * note[i] : note[i];
    }
    return new double[][] {l, r};
  }

  private static List<Finding> of(double[][] x) {
    return Findings.of(Signals.measure(new ArrayPcm(RATE, x)), DeliveryLimits.none()).stream()
        .filter(f -> f.code().equals("mono-loss"))
        .toList();
  }

  @Test
  void aBandThatVanishesForAWhileIsNamedWithItsPlace() {
    double[][] x = pair(630, -26, 8, 13, -1);
    List<Finding> found = of(x);
    assertEquals(1, found.size(), found.toString());
    Finding f = found.get(0);
    assertTrue(f.detail().contains("around 630\u00A0Hz near 0:"), f.detail());
    assertTrue(f.fromSeconds() >= 7 && f.fromSeconds() <= 8.6, f.toString());
    assertTrue(f.toSeconds() >= 12.4 && f.toSeconds() <= 14, f.toString());
    assertTrue(f.value().getAsDouble() > 12, f.toString());
    double[][] swapped = {x[1], x[0]};
    assertEquals(found, of(swapped));
    double[][] turned = {Signals.scaled(x[0], -1), Signals.scaled(x[1], -1)};
    assertEquals(found, of(turned));
  }

  @Test
  void shortFaintAndHalfHeartedCancellationIsLeftAlone() {
    assertEquals(List.of(), of(pair(630, -26, 8, 9.5, -1)), "1.5 s");
    assertEquals(List.of(), of(pair(630, -26, 8, 13, -0.2)), "a little");
    assertEquals(List.of(), of(pair(630, -60, 8, 13, -1)), "not heard");
    double[] l = Signals.noise(new Random(1), 20 * RATE, 0.05);
    double[] r = Signals.noise(new Random(2), 20 * RATE, 0.05);
    assertEquals(List.of(), of(new double[][] {l, r}), "unrelated sides");
  }
}
