package org.mixaccord.measure;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.mixaccord.audio.FrameRange;

/**
 * Every synthetic case of EBU Tech 3341, Table 1, at the tolerances printed there and at the five
 * common rates. Cases 7 and 8 are recordings.
 */
class Tech3341Test {
  private static final double LU = 0.1;

  private static double integrated(int rate, double... secondsAndDbfs) {
    return Signals.tone(rate, secondsAndDbfs).whole().integratedLufs().getAsDouble();
  }

  @ParameterizedTest
  @ValueSource(ints = {44100, 48000, 88200, 96000, 192000})
  void steadyTonesReadTheirLevel(int rate) {
    for (double level : new double[] {-23, -33}) {
      Measurements m = Signals.tone(rate, 20, level).whole();
      assertEquals(level, m.integratedLufs().getAsDouble(), LU, "cases 1, 2");
      assertEquals(level, m.maxMomentaryLufs().getAsDouble(), LU, "cases 1, 2");
      assertEquals(level, m.maxShortTermLufs().getAsDouble(), LU, "cases 1, 2");
    }
  }

  @ParameterizedTest
  @ValueSource(ints = {44100, 48000, 88200, 96000, 192000})
  void gatesLeaveQuietPartsOut(int rate) {
    assertEquals(-23, integrated(rate, 10, -36, 60, -23, 10, -36), LU, "case 3");
    assertEquals(-23, integrated(rate, 10, -72, 10, -36, 60, -23, 10, -36, 10, -72), LU, "case 4");
    assertEquals(-23, integrated(rate, 20, -26, 20.1, -20, 20, -26), LU, "case 5");
  }

  @ParameterizedTest
  @ValueSource(ints = {44100, 48000, 88200, 96000, 192000})
  void fiveChannelsAreWeighted(int rate) {
    double[] channelsDb = {-28, -28, -24, -30, -30};
    Measurements m = Signals.measure(new ToneSteps(rate, 1000, channelsDb, 20, 0)).whole();
    assertEquals(-23, m.integratedLufs().getAsDouble(), LU, "case 6");
  }

  private static double[] repeated(int times, double... secondsAndDbfs) {
    double[] all = new double[times * secondsAndDbfs.length];
    for (int i = 0; i < all.length; i++) {
      all[i] = secondsAndDbfs[i % secondsAndDbfs.length];
    }
    return all;
  }

  private static double smallest(double[] powers, int from) {
    return Loudness.lufs(Arrays.stream(powers).skip(from).min().getAsDouble()).getAsDouble();
  }

  @ParameterizedTest
  @ValueSource(ints = {44100, 48000, 88200, 96000, 192000})
  void windowsOfOnePeriodStandStill(int rate) {
    MeasureTrack track = Signals.tone(rate, repeated(5, 1.34, -20, 1.66, -30));
    assertEquals(-23, track.whole().maxShortTermLufs().getAsDouble(), LU, "case 9");
    assertEquals(-23, smallest(track.shortTerm(), 0), LU, "case 9, smallest");
    track = Signals.tone(rate, repeated(25, 0.18, -20, 0.22, -30));
    assertEquals(-23, track.whole().maxMomentaryLufs().getAsDouble(), LU, "case 12");
    // The window that a meter shows at one second began 0.6 s after the start.
    assertEquals(-23, smallest(track.momentary(), 60), LU, "case 12, smallest");
  }

  @ParameterizedTest
  @ValueSource(ints = {44100, 48000, 88200, 96000, 192000})
  void burstsAtAnyPlaceAreFound(int rate) {
    for (int i = 0; i < 20; i++) {
      MeasureTrack s = Signals.tone(rate, i * 0.15, Double.NaN, 3, -23, 1, Double.NaN);
      assertEquals(-23, s.whole().maxShortTermLufs().getAsDouble(), LU, "case 10 file " + i);
      MeasureTrack m = Signals.tone(rate, i * 0.02, Double.NaN, 0.4, -23, 1, Double.NaN);
      assertEquals(-23, m.whole().maxMomentaryLufs().getAsDouble(), LU, "case 13 file " + i);
    }
  }

  @ParameterizedTest
  @ValueSource(ints = {44100, 48000, 88200, 96000, 192000})
  void risingBurstsOfAStreamAreFollowed(int rate) {
    double[] eleven = new double[120];
    double[] fourteen = new double[120];
    for (int i = 0; i < 20; i++) {
      double[] s = {i * 0.15, Double.NaN, 3, -38 + i, 3 - i * 0.15, Double.NaN};
      double[] m = {i * 0.02, Double.NaN, 0.4, -38 + i, 0.4 - i * 0.02, Double.NaN};
      System.arraycopy(s, 0, eleven, 6 * i, 6);
      System.arraycopy(m, 0, fourteen, 6 * i, 6);
    }
    MeasureTrack s = Signals.tone(rate, eleven);
    MeasureTrack m = Signals.tone(rate, fourteen);
    for (int i = 0; i < 20; i++) {
      Measurements six = s.section(new FrameRange(6L * i * rate, 6L * (i + 1) * rate));
      assertEquals(-38 + i, six.maxShortTermLufs().getAsDouble(), LU, "case 11 step " + i);
      long from = Math.round(0.8 * i * rate);
      long to = Math.round(0.8 * (i + 1) * rate);
      Measurements part = m.section(new FrameRange(from, to));
      assertEquals(-38 + i, part.maxMomentaryLufs().getAsDouble(), LU, "case 14 step " + i);
    }
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
}
