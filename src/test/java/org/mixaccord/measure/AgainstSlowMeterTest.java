package org.mixaccord.measure;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.mixaccord.audio.ArrayPcm;
import org.mixaccord.audio.FrameRange;

/** The fast meter agrees with the slow plain one on random audio, whole and in any section. */
class AgainstSlowMeterTest {
  private static final double SAME = 1e-6;

  /** Noise in bursts of random length and level, some of them far down, with some low tone. */
  static double[] programme(Random random, int frames) {
    double[] x = new double[frames];
    double tone = 0.001 + 0.01 * random.nextDouble();
    double level = 0.1;
    double low = 0;
    for (int i = 0; i < frames; i++) {
      if (random.nextInt(4000) == 0) {
        level = 0.3 * Math.pow(10, -3 * random.nextDouble() * random.nextDouble());
      }
      low += 0.3 * (random.nextGaussian() - low);
      x[i] = Math.max(-1, Math.min(1, level * (low + 0.4 * Math.sin(tone * i))));
    }
    return x;
  }

  @ParameterizedTest
  @CsvSource({"44100, 1", "48000, 2", "22050, 3", "11025, 4", "96000, 5", "88200, 6", "192000, 7"})
  void figuresOfWholeAndSections(int rate, long seed) {
    Random random = new Random(seed);
    int frames = (int) (rate * (12 + random.nextDouble()));
    double[] left = programme(random, frames);
    double[] right = programme(random, frames);
    SlowMeter slow = new SlowMeter(rate, left, right);
    MeasureTrack track = Signals.measure(new ArrayPcm(rate, left, right));
    compare(track, slow, new FrameRange(0, frames), track.whole());
    assertEquals(slow.clippedRuns(), track.whole().clippedRuns());
    for (int i = 0; i < 4; i++) {
      int from = random.nextInt(frames / 2);
      int to = Math.min(frames, from + rate * (i == 0 ? 11 : 4) + random.nextInt(rate));
      FrameRange asked = new FrameRange(from, to);
      FrameRange range = track.onGrid(asked);
      assertTrue(Math.abs(range.from() - from) <= rate / 200 + 1, "start moved too far");
      assertTrue(Math.abs(range.to() - to) <= rate / 200 + 1, "end moved too far");
      compare(track, slow, range, track.section(asked));
      assertEquals(
          track.section(asked).ungatedLufs().getAsDouble(),
          track.ungatedLufs(asked).getAsDouble(),
          0);
    }
  }

  private static void compare(MeasureTrack track, SlowMeter slow, FrameRange r, Measurements m) {
    int from = (int) r.from();
    int to = (int) r.to();
    // At rates that 10 ms does not divide, both round to the nearest frame, but from other origins.
    double loose = track.sampleRate() % 100 == 0 ? SAME : 0.02;
    assertEquals(slow.ungatedLufs(from, to), m.ungatedLufs().getAsDouble(), SAME);
    assertEquals(slow.integratedLufs(from, to), m.integratedLufs().getAsDouble(), loose);
    assertEquals(slow.shareLufs(from, to), m.shareLufs().getAsDouble(), loose);
    assertEquals(slow.maxLufs(from, to, 0.4), m.maxMomentaryLufs().getAsDouble(), loose);
    assertEquals(slow.maxLufs(from, to, 3), m.maxShortTermLufs().getAsDouble(), loose);
    if (to - from >= 10L * track.sampleRate()) {
      assertEquals(slow.rangeLu(from, to), m.loudnessRangeLu().getAsDouble(), loose);
    }
    assertEquals(
        20 * Math.log10(slow.samplePeak(from, to)), m.samplePeakDbfs().getAsDouble(), SAME);
  }

  @ParameterizedTest
  @CsvSource({"44100, 11", "48000, 12", "88200, 15", "96000, 13", "192000, 14"})
  void truePeakAgreesWithALongInterpolator(int rate, long seed) {
    Random random = new Random(seed);
    double[] left = smooth(smooth(programme(random, rate / 2)));
    double[] right = smooth(smooth(programme(random, rate / 2)));
    SlowMeter slow = new SlowMeter(rate, left, right);
    MeasureTrack track = Signals.measure(new ArrayPcm(rate, left, right));
    double most = Double.NEGATIVE_INFINITY;
    for (FrameRange asked : Signals.cut(random, rate / 2, 7)) {
      FrameRange r = track.onGrid(asked);
      Measurements m = track.section(asked);
      double exact = 20 * Math.log10(slow.truePeak((int) r.from(), (int) r.to()));
      double ours = m.truePeakDbtp().getAsDouble();
      assertEquals(exact, ours, 0.05, "section " + r);
      assertTrue(ours >= m.samplePeakDbfs().getAsDouble(), "under the samples in " + r);
      double at = m.truePeakAt().getAsDouble() * rate;
      assertTrue(at > r.from() - 0.01 && at < r.to(), "frame " + at + " is outside " + r);
      most = Math.max(most, ours);
    }
    assertEquals(track.whole().truePeakDbtp().getAsDouble(), most, 0);
  }

  @ParameterizedTest
  @CsvSource({"44100, 21", "48000, 22", "96000, 23"})
  void skippingGapsChangesNoCell(int rate, long seed) {
    Random random = new Random(seed);
    double[] x = programme(random, rate);
    MeasureTrack track = Signals.measure(new ArrayPcm(rate, x));
    TruePeakKernel kernel = TruePeakKernel.at(rate);
    double[] padded = new double[x.length + 128];
    System.arraycopy(x, 0, padded, 64, x.length);
    for (int cell = 0; cell < 100; cell++) {
      double most = 0;
      for (int i = cell * rate / 100; i < (cell + 1) * rate / 100; i++) {
        for (int p = 0; p < kernel.ratio(); p++) {
          most = Math.max(most, Math.abs(kernel.at(padded, i + 64, p)));
        }
      }
      double found = track.cells().truePeak[cell];
      assertTrue(found >= most - 1e-9, "cell " + cell + ": " + found + " under " + most);
      assertTrue(found <= most * 1.02, "cell " + cell + ": the parabola rose too far");
    }
  }

  /**
   * Takes away what lies next to half the sample rate, where every interpolator ends as it likes.
   */
  private static double[] smooth(double[] x) {
    double[] y = new double[x.length];
    for (int i = 1; i + 1 < x.length; i++) {
      y[i] = 0.25 * x[i - 1] + 0.5 * x[i] + 0.25 * x[i + 1];
    }
    return y;
  }
}
