package org.mixaccord.measure;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.OptionalInt;
import java.util.Random;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;
import org.mixaccord.audio.ArrayPcm;

class FlatTopFindingsTest {
  private static final int RATE = 48000;
  private static final FileFacts BITS_16 =
      new FileFacts(RATE, OptionalInt.of(16), OptionalInt.of(16), false, false);
  private static final FileFacts BITS_24 =
      new FileFacts(RATE, OptionalInt.of(24), OptionalInt.of(24), false, false);
  private static final FileFacts FLOAT =
      new FileFacts(RATE, OptionalInt.of(32), OptionalInt.empty(), true, false);

  private static double[] tones(double level) {
    double[] x = new double[6 * RATE];
    for (int i = 0; i < x.length; i++) {
      double t = i / (double) RATE;
      double swell = level * (0.6 + 0.4 * Math.sin(2 * Math.PI * 0.3 * t));
      x[i] =
          swell
              * (0.5 * Math.sin(2 * Math.PI * 98 * t)
                  + 0.3 * Math.sin(2 * Math.PI * 441.3 * t)
                  + 0.2 * Math.sin(2 * Math.PI * 1710 * t));
    }
    return x;
  }

  private static double[] each(double[] x, DoubleUnaryOperator f) {
    return java.util.Arrays.stream(x).map(f).toArray();
  }

  /** Rounds with dither of one step either way. */
  private static double[] dithered(double[] x, int bits, long seed) {
    Random random = new Random(seed);
    double steps = 1L << (bits - 1);
    return each(x, v -> Math.rint(v * steps + triangular(random)) / steps);
  }

  private static double triangular(Random random) {
    double less = random.nextDouble();
    return random.nextDouble() - less;
  }

  private static List<Finding> of(FileFacts file, double[]... channels) {
    MeasureTrack track = Signals.measure(new ArrayPcm(RATE, channels));
    return Findings.of(track, DeliveryLimits.none(), file).stream()
        .filter(f -> f.code().equals("flat-tops"))
        .toList();
  }

  private static DoubleUnaryOperator clip(double at) {
    return v -> Math.max(-at, Math.min(at, v));
  }

  /** Runs of three or more clipped samples, counted from the unclipped signal. */
  private static int runs(double[] x, double at) {
    int runs = 0;
    int run = 0;
    for (double v : x) {
      run = Math.abs(v) >= at ? run + 1 : 0;
      runs += run == 3 ? 1 : 0;
    }
    return runs;
  }

  @Test
  void clippedAndTurnedDownIsFoundOnItsSideWithItsLevel() {
    double[] loud = tones(2);
    double[] clipped = each(loud, v -> 0.5 * clip(1).applyAsDouble(v));
    int runs = runs(loud, 1);
    assertTrue(runs > 100, "runs " + runs);
    List<Finding> found = of(FLOAT, tones(0.4), clipped);
    assertEquals(1, found.size(), found.toString());
    Finding f = found.get(0);
    // Where two runs are one or two samples apart, the second has no corner of its own.
    int told = (int) f.value().getAsDouble();
    assertEquals(runs, told, 0.03 * runs);
    assertTrue(
        f.detail()
            .startsWith(
                told
                    + " peaks on the right are cut off flat at the same level,"
                    + " \u22126.0\u00A0dBFS"),
        f.detail());
    int first = 0;
    while (Math.abs(loud[first]) < 1
        || Math.abs(loud[first + 1]) < 1
        || Math.abs(loud[first + 2]) < 1) {
      first++;
    }
    assertEquals(first / (double) RATE, f.fromSeconds(), 1e-9);
  }

  @Test
  void ditherOfTheWordLengthDoesNotHideFlatTops() {
    double[] clipped = each(tones(2), v -> 0.501234 * clip(1).applyAsDouble(v));
    double expected = runs(tones(2), 1);
    double[] at16 = dithered(clipped, 16, 3);
    assertEquals(expected, of(BITS_16, at16).get(0).value().getAsDouble(), 0.1 * expected);
    double[] at24 = dithered(clipped, 24, 4);
    assertEquals(expected, of(BITS_24, at24).get(0).value().getAsDouble(), 0.1 * expected);
  }

  @Test
  void levelPolarityAndPlaceDoNotMatter() {
    double[] clipped = each(tones(2), v -> 0.5 * clip(1).applyAsDouble(v));
    Finding f = of(FLOAT, clipped).get(0);
    for (double gain : new double[] {-1, 0.25, 1.5}) {
      Finding g = of(FLOAT, Signals.scaled(clipped, gain)).get(0);
      assertEquals(f.value(), g.value(), "gain " + gain);
      assertEquals(f.fromSeconds(), g.fromSeconds(), 1e-9);
    }
    for (int shift : new int[] {1, 13, 30_717}) {
      double[] later = new double[clipped.length + shift];
      System.arraycopy(clipped, 0, later, shift, clipped.length);
      Finding g = of(FLOAT, later).get(0);
      assertEquals(f.value(), g.value(), "shift " + shift);
      assertEquals(f.fromSeconds() + shift / (double) RATE, g.fromSeconds(), 1e-9);
    }
  }

  @Test
  void fullScaleIsCalledClippedInstead() {
    double[] clipped = each(tones(2), clip(1));
    assertEquals(List.of(), of(FLOAT, clipped));
    MeasureTrack track = Signals.measure(new ArrayPcm(RATE, tones(0.4), clipped));
    Finding f =
        Findings.of(track, DeliveryLimits.none()).stream()
            .filter(c -> c.code().equals("clipped"))
            .findFirst()
            .orElseThrow();
    assertTrue(f.detail().contains("flat at full scale on the right, three samples"), f.detail());
  }

  @Test
  void whatIsRoundIsNotFlat() {
    for (double hz : new double[] {20, 31.25, 41, 55, 100, 997, 6000, 12_000}) {
      double[] sine = Signals.sine(RATE, hz, -6, 4);
      assertEquals(List.of(), of(BITS_16, each(sine, v -> Math.rint(v * 32768) / 32768)), hz + "");
      assertEquals(List.of(), of(BITS_16, dithered(sine, 16, 1)), hz + " dithered");
      assertEquals(List.of(), of(FLOAT, each(sine, v -> (float) v)), hz + " float");
    }
    double[] soft = each(tones(2), v -> 0.9 * Math.tanh(2 * v));
    assertEquals(List.of(), of(FLOAT, soft));
    assertEquals(List.of(), of(BITS_24, dithered(soft, 24, 2)));
  }

  @Test
  void fewRunsSquaresSilenceAndQuietFadesAreNotClipping() {
    double[] few = tones(0.5);
    for (int k = 0; k < 5; k++) {
      for (int i = 0; i < 4; i++) {
        few[RATE * (k + 1) / 2 + i] = 0.7;
      }
    }
    assertEquals(List.of(), of(FLOAT, few));
    double[] square = each(Signals.sine(RATE, 110, -6, 4), v -> v >= 0 ? 0.4 : -0.4);
    assertEquals(List.of(), of(FLOAT, square));
    assertEquals(List.of(), of(BITS_16, new double[RATE]));
    double[] fade = tones(0.001);
    assertEquals(List.of(), of(BITS_16, each(fade, v -> Math.rint(v * 32768) / 32768)));
  }
}
