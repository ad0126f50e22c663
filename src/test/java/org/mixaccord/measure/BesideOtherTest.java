package org.mixaccord.measure;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;

class BesideOtherTest {
  private static final int RATE = 48000;
  private static final int SHIFT = 4321; // the other bounce begins so much later

  private static double[] tone(int silence) {
    double[] x = new double[silence + 8 * RATE];
    for (int i = 0; i < 8 * RATE; i++) {
      double ramp = Math.min(1, Math.min(i, 8 * RATE - 1 - i) / (RATE / 2.0));
      x[silence + i] = 0.25 * ramp * Math.sin(2 * Math.PI * 220 * i / RATE);
    }
    return x;
  }

  private static void drop(double[] x, int from) {
    Arrays.fill(x, from, from + 480, 0);
  }

  private static OptionalDouble shifted(double seconds) {
    return OptionalDouble.of(seconds + SHIFT / (double) RATE);
  }

  private static Finding one(List<Finding> all, String code, double at) {
    return all.stream()
        .filter(f -> f.code().equals(code) && Math.abs(f.fromSeconds() - at) < 0.01)
        .findFirst()
        .orElseThrow(() -> new AssertionError(code + " at " + at + " in " + all));
  }

  @Test
  void whatOnlyTheNewOneHasIsWorseAndWhatBothHaveMayBeMeant() {
    double[] mine = tone(0);
    double[] theirs = tone(SHIFT);
    drop(mine, 2 * RATE + 50);
    drop(mine, 4 * RATE + 50);
    drop(theirs, SHIFT + 4 * RATE + 50);
    mine[5 * RATE + 7] += 0.2;
    mine[6 * RATE + 7] += 0.2;
    theirs[SHIFT + 6 * RATE + 7] += 0.2;
    MeasureTrack other = Signals.stereo(RATE, theirs);
    List<Finding> plain = Findings.of(Signals.stereo(RATE, mine), DeliveryLimits.none());
    assertEquals(4, plain.size(), plain.toString());
    List<Finding> judged = BesideOther.judge(plain, other, BesideOtherTest::shifted, "Mix 2");

    Finding dropped = one(judged, "dropout", 2.001);
    assertEquals(Severity.FAULT, dropped.severity());
    assertTrue(dropped.detail().endsWith(" Mix 2 does not have this."), dropped.detail());
    Finding meant = one(judged, "dropout", 4.001);
    assertEquals(Severity.HINT, meant.severity());
    assertTrue(meant.detail().endsWith(" Mix 2 has the same, so it may be meant."), "" + meant);
    assertEquals(Severity.WARNING, one(judged, "click", 5).severity());
    assertEquals(Severity.HINT, one(judged, "click", 6).severity());
    assertTrue(one(judged, "click", 6).detail().contains("has the same"));
  }

  @Test
  void nothingIsSaidOfMusicTheOtherDoesNotHaveNorOfOtherFindings() {
    double[] mine = tone(0);
    drop(mine, 2 * RATE + 50);
    List<Finding> plain =
        Findings.of(Signals.stereo(RATE, Arrays.copyOf(mine, 5 * RATE)), DeliveryLimits.none());
    assertEquals(2, plain.size(), "a drop-out and a cut tail: " + plain);
    MeasureTrack other = Signals.stereo(RATE, tone(0));
    assertEquals(
        plain, BesideOther.judge(plain, other, seconds -> OptionalDouble.empty(), "Mix 2"));
    List<Finding> judged = BesideOther.judge(plain, other, OptionalDouble::of, "Mix 2");
    assertEquals(one(plain, "cut-tail", 4.98), one(judged, "cut-tail", 4.98));
  }
}
