package org.mixaccord.measure;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.mixaccord.audio.ArrayPcm;
import org.mixaccord.audio.FrameRange;

/** The synthetic cases of EBU Tech 3341, Table 1, at the tolerances printed there. */
class Tech3341Test {
  private static final double LU = 0.1;

  private static void steady(int rate) {
    for (double level : new double[] {-23, -33}) {
      MeasureTrack track = Signals.stereo(rate, Signals.sine(rate, 1000, level, 20));
      Measurements m = track.whole();
      assertEquals(level, m.integratedLufs().getAsDouble(), LU);
      assertEquals(level, m.maxMomentaryLufs().getAsDouble(), LU);
      assertEquals(level, m.maxShortTermLufs().getAsDouble(), LU);
    }
  }

  private static double integrated(int rate, double... secondsAndDbfs) {
    return Signals.stereo(rate, Signals.steps(rate, 1000, secondsAndDbfs))
        .whole()
        .integratedLufs()
        .getAsDouble();
  }

  private static void gates(int rate) {
    assertEquals(-23, integrated(rate, 10, -36, 60, -23, 10, -36), LU, "case 3");
    assertEquals(-23, integrated(rate, 10, -72, 10, -36, 60, -23, 10, -36, 10, -72), LU, "case 4");
    assertEquals(-23, integrated(rate, 20, -26, 20.1, -20, 20, -26), LU, "case 5");
  }

  private static void surround(int rate) {
    double[] front = Signals.sine(rate, 1000, -28, 20);
    double[] centre = Signals.sine(rate, 1000, -24, 20);
    double[] back = Signals.sine(rate, 1000, -30, 20);
    MeasureTrack track = Signals.measure(new ArrayPcm(rate, front, front, centre, back, back));
    assertEquals(-23, track.whole().integratedLufs().getAsDouble(), LU, "case 6");
  }

  @Test
  void steadyTonesReadTheirLevel() {
    steady(48000);
    steady(44100);
  }

  @Test
  void gatesLeaveQuietPartsOut() {
    gates(44100);
    surround(48000);
  }

  private static void alternating(int rate) {
    double[] nine = new double[20];
    for (int i = 0; i < 5; i++) {
      nine[4 * i] = 1.34;
      nine[4 * i + 1] = -20;
      nine[4 * i + 2] = 1.66;
      nine[4 * i + 3] = -30;
    }
    MeasureTrack track = Signals.stereo(rate, Signals.steps(rate, 1000, nine));
    assertEquals(-23, track.whole().maxShortTermLufs().getAsDouble(), LU, "case 9");
    double least = Arrays.stream(track.shortTerm()).min().getAsDouble();
    assertEquals(-23, Loudness.lufs(least).getAsDouble(), LU, "case 9, smallest");

    double[] twelve = new double[100];
    for (int i = 0; i < 25; i++) {
      twelve[4 * i] = 0.18;
      twelve[4 * i + 1] = -20;
      twelve[4 * i + 2] = 0.22;
      twelve[4 * i + 3] = -30;
    }
    track = Signals.stereo(rate, Signals.steps(rate, 1000, twelve));
    assertEquals(-23, track.whole().maxMomentaryLufs().getAsDouble(), LU, "case 12");
    double[] afterASecond = Arrays.copyOfRange(track.momentary(), 100, track.momentary().length);
    assertEquals(
        -23,
        Loudness.lufs(Arrays.stream(afterASecond).min().getAsDouble()).getAsDouble(),
        LU,
        "case 12, smallest");
  }

  private static void bursts(int rate, int step) {
    for (int i = 0; i < 20; i += step) {
      MeasureTrack s =
          Signals.stereo(
              rate, Signals.steps(rate, 1000, i * 0.15, Double.NaN, 3, -23, 1, Double.NaN));
      assertEquals(-23, s.whole().maxShortTermLufs().getAsDouble(), LU, "case 10 file " + i);
      MeasureTrack m =
          Signals.stereo(
              rate, Signals.steps(rate, 1000, i * 0.02, Double.NaN, 0.4, -23, 1, Double.NaN));
      assertEquals(-23, m.whole().maxMomentaryLufs().getAsDouble(), LU, "case 13 file " + i);
    }
  }

  private static void streams(int rate) {
    double[] eleven = new double[120];
    double[] fourteen = new double[120];
    for (int i = 0; i < 20; i++) {
      double[] s = {i * 0.15, Double.NaN, 3, -38 + i, 3 - i * 0.15, Double.NaN};
      double[] m = {i * 0.02, Double.NaN, 0.4, -38 + i, 0.4 - i * 0.02, Double.NaN};
      System.arraycopy(s, 0, eleven, 6 * i, 6);
      System.arraycopy(m, 0, fourteen, 6 * i, 6);
    }
    MeasureTrack s = Signals.stereo(rate, Signals.steps(rate, 1000, eleven));
    MeasureTrack m = Signals.stereo(rate, Signals.steps(rate, 1000, fourteen));
    for (int i = 0; i < 20; i++) {
      Measurements six = s.section(new FrameRange(6L * i * rate, 6L * (i + 1) * rate));
      assertEquals(-38 + i, six.maxShortTermLufs().getAsDouble(), LU, "case 11 step " + i);
      long from = Math.round(0.8 * i * rate);
      long to = Math.round(0.8 * (i + 1) * rate);
      Measurements part = m.section(new FrameRange(from, to));
      assertEquals(-38 + i, part.maxMomentaryLufs().getAsDouble(), LU, "case 14 step " + i);
    }
  }

  @Test
  void shortTermAndMomentaryFollowWithinAFineGrid() {
    alternating(48000);
    bursts(48000, 1);
    streams(44100);
  }

  private static double truePeak(int rate, double[] x) {
    return Signals.stereo(rate, x).whole().truePeakDbtp().getAsDouble();
  }

  private static double[] faded(int rate, double cyclesPerSample, double a, double degrees) {
    double[] x = new double[rate / 2];
    int fade = rate / 100;
    for (int n = 0; n < x.length; n++) {
      double ramp = Math.min(1, Math.min(n, x.length - 1 - n) / (double) fade);
      x[n] = ramp * a * Math.sin(2 * Math.PI * cyclesPerSample * n + Math.toRadians(degrees));
    }
    return x;
  }

  private static void near(double expected, double read, String name) {
    assertTrue(read <= expected + 0.2 && read >= expected - 0.4, name + " reads " + read + " dBTP");
  }

  private static void peaks(int rate) {
    near(-6, truePeak(rate, faded(rate, 1 / 4.0, 0.5, 0)), "case 15");
    near(-6, truePeak(rate, faded(rate, 1 / 4.0, 0.5, 45)), "case 16");
    near(-6, truePeak(rate, faded(rate, 1 / 6.0, 0.5, 60)), "case 17");
    near(-6, truePeak(rate, faded(rate, 1 / 8.0, 0.5, 67.5)), "case 18");
    near(3, truePeak(rate, faded(rate, 1 / 4.0, 1.41, 45)), "case 19");
    double[] fine = burst(rate / 2);
    for (int offset = 0; offset < 4; offset++) {
      double[] x = new double[fine.length / 4];
      for (int n = 0; n < x.length; n++) {
        x[n] = fine[4 * n + offset];
      }
      near(0, truePeak(rate, x), "case " + (20 + offset));
    }
  }

  /** fs/6 at 0.5 with one period of fs/4 at 1.0, at four times the rate, low-passed at 0.45 fs. */
  private static double[] burst(int frames) {
    int n = 4 * frames;
    double[] x = new double[n];
    int begin = n / 2 / 24 * 24;
    double phase = 0;
    int fade = n / 50;
    for (int i = 0; i < n; i++) {
      boolean inside = i >= begin && i < begin + 16;
      double ramp = Math.min(1, Math.min(i, n - 1 - i) / (double) fade);
      x[i] = ramp * (inside ? 1 : 0.5) * Math.sin(phase);
      phase += 2 * Math.PI / (inside ? 16 : 24);
    }
    int half = 127;
    double[] h = new double[2 * half + 1];
    double sum = 0;
    for (int k = -half; k <= half; k++) {
      double c = 2 * 0.45 / 4;
      double s = k == 0 ? c : Math.sin(Math.PI * c * k) / (Math.PI * k);
      h[k + half] = s * (0.54 + 0.46 * Math.cos(Math.PI * k / half));
      sum += h[k + half];
    }
    double[] y = new double[n];
    for (int i = 0; i < n; i++) {
      for (int k = Math.max(-half, i - n + 1); k <= Math.min(half, i); k++) {
        y[i] += h[k + half] / sum * x[i - k];
      }
    }
    return y;
  }

  @ParameterizedTest
  @ValueSource(ints = {44100, 48000, 88200, 96000, 192000})
  void truePeaksBetweenTheSamplesAreFound(int rate) {
    peaks(rate);
  }

  @Tag("slow")
  @ParameterizedTest
  @ValueSource(ints = {44100, 48000, 88200, 96000, 192000})
  void everyCaseHoldsAtEveryRate(int rate) {
    steady(rate);
    gates(rate);
    surround(rate);
    alternating(rate);
    bursts(rate, 1);
    streams(rate);
    peaks(rate);
  }
}
