package org.mixaccord.measure;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.OptionalDouble;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.mixaccord.audio.ArrayPcm;
import org.mixaccord.audio.FrameRange;

/** Figures over time, against levels that follow from the signal by hand. */
class SeriesTest {
  private static final int RATE = 48000;
  private static final FrameRange ALL = new FrameRange(0, Long.MAX_VALUE / 1000);

  /** 997 Hz in both channels reads its own peak level: −3.01 for one channel, +3.01 for two. */
  private static MeasureTrack step() {
    return Signals.stereo(RATE, Signals.steps(RATE, 997, 4, -30, 4, -20));
  }

  @Test
  void windowLiesAtItsCentre() {
    Series series = Series.of(step(), ALL, 800);
    assertEquals(0.01, series.stepSeconds());
    assertEquals(800, series.steps());
    assertEquals(-30, series.shortTermLufs().get(240).getAsDouble(), 0.01);
    assertEquals(-20, series.shortTermLufs().get(560).getAsDouble(), 0.01);
    // Half the window before the step, half after it: (10^-3 + 10^-2) / 2.
    assertEquals(-22.596, series.shortTermLufs().get(400).getAsDouble(), 0.02);
    assertEquals(-22.596, series.momentaryLufs().get(400).getAsDouble(), 0.1);
    // A quarter of the short-term window is loud: (3 · 10^-3 + 10^-2) / 4.
    assertEquals(-24.881, series.shortTermLufs().get(325).getAsDouble(), 0.02);
    assertEquals(-30, series.momentaryLufs().get(379).getAsDouble(), 0.05);
    assertEquals(-20, series.momentaryLufs().get(421).getAsDouble(), 0.05);
  }

  @Test
  void windowsLieWhollyInside() {
    Series series = Series.of(step(), ALL, 800);
    assertTrue(series.shortTermLufs().get(149).isEmpty());
    assertTrue(series.shortTermLufs().get(150).isPresent());
    assertTrue(series.shortTermLufs().get(650).isPresent());
    assertTrue(series.shortTermLufs().get(651).isEmpty());
    assertTrue(series.momentaryLufs().get(19).isEmpty());
    assertTrue(series.momentaryLufs().get(20).isPresent());
    assertTrue(series.momentaryLufs().get(780).isPresent());
    assertTrue(series.momentaryLufs().get(781).isEmpty());
  }

  @Test
  void peaksAreThoseOfTheStep() {
    Series series = Series.of(step(), ALL, 8);
    assertEquals(1, series.stepSeconds());
    for (int i = 0; i < 8; i++) {
      double dbfs = i < 4 ? -30 : -20;
      assertEquals(dbfs, series.samplePeakDbfs().get(i).getAsDouble(), 0.02, "step " + i);
      assertEquals(i + 0.5, series.middleSeconds(i), 1e-9);
    }
    assertEquals(-30, series.truePeakDbtp().get(1).getAsDouble(), 0.02);
    assertEquals(-20, series.truePeakDbtp().get(6).getAsDouble(), 0.02);
  }

  @Test
  void highestOfAllStepsIsTheMaximumOfTheWhole() {
    double[] a = AgainstSlowMeterTest.programme(new Random(8), 30 * 44100 + 217);
    double[] b = AgainstSlowMeterTest.programme(new Random(9), a.length);
    MeasureTrack track = Signals.measure(new ArrayPcm(44100, a, b));
    Measurements whole = track.whole();
    for (int points : new int[] {1, 7, 300, 611, 5000}) {
      Series series = Series.of(track, ALL, points);
      assertTrue(series.steps() <= points, points + " points, " + series.steps() + " steps");
      assertEquals(whole.maxMomentaryLufs(), highest(series.momentaryLufs()), "M, " + points);
      assertEquals(whole.maxShortTermLufs(), highest(series.shortTermLufs()), "S, " + points);
      assertEquals(whole.truePeakDbtp(), highest(series.truePeakDbtp()), "peak, " + points);
      assertEquals(whole.samplePeakDbfs(), highest(series.samplePeakDbfs()), "sample, " + points);
      assertEquals(track.seconds(), series.toSeconds(), 1e-9);
    }
    assertEquals(
        whole.correlation().getAsDouble(),
        Series.of(track, ALL, 1).correlation().get(0).getAsDouble(),
        1e-12);
  }

  private static OptionalDouble highest(List<OptionalDouble> values) {
    return values.stream().flatMapToDouble(OptionalDouble::stream).max();
  }

  @Test
  void correlationTurnsWithTheSignal() {
    double[] left = Signals.sine(RATE, 500, -20, 4);
    double[] right = left.clone();
    for (int i = 2 * RATE; i < right.length; i++) {
      right[i] = -right[i];
    }
    Series series = Series.of(Signals.measure(new ArrayPcm(RATE, left, right)), ALL, 400);
    assertEquals(1, series.correlation().get(100).getAsDouble(), 1e-9);
    assertEquals(-1, series.correlation().get(300).getAsDouble(), 1e-9);
    // 40 cells round the step at 2.00 s: 19 before the turn, 21 after; then 9 and 31.
    assertEquals((19 - 21) / 40.0, series.correlation().get(200).getAsDouble(), 1e-6);
    assertEquals((9 - 31) / 40.0, series.correlation().get(210).getAsDouble(), 1e-6);
  }

  @Test
  void silenceHasNeitherLoudnessNorPeak() {
    double[] x = Signals.steps(RATE, 997, 2, -20, 3, Double.NaN);
    Series series = Series.of(Signals.stereo(RATE, x), ALL, 500);
    assertTrue(series.momentaryLufs().get(100).isPresent());
    assertTrue(series.momentaryLufs().get(230).isEmpty());
    assertTrue(series.truePeakDbtp().get(300).isEmpty());
    assertTrue(series.samplePeakDbfs().get(300).isEmpty());
    assertTrue(series.correlation().get(300).isEmpty());
  }

  @Test
  void stretchHasItsOwnStepsOnTheClipsTimeLine() {
    Series series = Series.of(step(), new FrameRange(3 * RATE, 5 * RATE), 30);
    assertEquals(3, series.fromSeconds());
    assertEquals(5, series.toSeconds());
    assertEquals(0.07, series.stepSeconds());
    assertEquals(29, series.steps());
    assertEquals(3.035, series.middleSeconds(0), 1e-9);
    assertEquals(4.98, series.middleSeconds(28), 1e-9);
    // Windows reach over the ends of a stretch, so a short one has short-term values too.
    assertTrue(series.shortTermLufs().stream().allMatch(OptionalDouble::isPresent));
    assertEquals(-30, series.samplePeakDbfs().get(0).getAsDouble(), 0.02);
    assertEquals(-20, series.samplePeakDbfs().get(28).getAsDouble(), 0.02);
  }

  @Test
  void monoHasNoCorrelationAndNothingHasNoSteps() {
    Series mono = Series.of(Signals.measure(new ArrayPcm(RATE, new double[RATE])), ALL, 10);
    assertEquals(10, mono.steps());
    assertTrue(mono.correlation().stream().allMatch(OptionalDouble::isEmpty));
    assertEquals(0, Series.of(step(), new FrameRange(RATE * 9L, RATE * 10L), 10).steps());
    assertThrows(IllegalArgumentException.class, () -> Series.of(step(), ALL, 0));
  }
}
