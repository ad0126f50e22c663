package org.mixaccord.align;

import java.util.Arrays;

/**
 * One offset followed through a bounce, window by window, as it drifts.
 *
 * <p>For each window of one second, every half second, it holds the lag at which the other bounce
 * fits best near the lag of the neighbouring window, and the normalised correlation there.
 */
final class Track {
  static final int WINDOW = LowRate.RATE;
  static final int HOP = LowRate.RATE / 2;

  /** Lags searched on each side of the expected one, samples of the low rate; 2·10 + 1 is 3·7. */
  static final int REACH = 10;

  /** From this correlation on a window moves the track. */
  private static final double STEERS = 0.6;

  /** The most a clock can have run away from one window to the next: 500 millionths. */
  private static final double FASTEST = 1.5;

  /** By so much a window has to fit better at the candidate itself to be taken there. */
  private static final double CLEARLY = 0.05;

  private static final double[][] EIGHTHS = eighths();

  final double[] lags;
  final double[] fits;
  private final boolean[] silent;

  private Track(int windows) {
    lags = new double[windows];
    fits = new double[windows];
    silent = new boolean[windows];
  }

  static int windows(LowRate here) {
    return Math.max(1, (here.samples.length - WINDOW / 2) / HOP + 1);
  }

  /**
   * Follows a candidate from the window where it fits best towards both ends. Begun anywhere else,
   * a lone tone that fits itself at many lags would lead it astray before the music it belongs to.
   */
  static Track follow(LowRate here, LowRate there, double lag, double quiet) {
    int windows = windows(here);
    Track track = new Track(windows);
    int best = 0;
    for (int w = 0; w < windows; w++) {
      track.measure(here, there, w, lag, quiet);
      best = Math.abs(track.fits[w]) > Math.abs(track.fits[best]) ? w : best;
    }
    double start = track.lags[best];
    double at = start;
    for (int w = best + 1; w < windows; w++) {
      at = track.step(here, there, w, at, lag, quiet);
    }
    at = start;
    for (int w = best - 1; w >= 0; w--) {
      at = track.step(here, there, w, at, lag, quiet);
    }
    return track;
  }

  /** Measures one window near where its neighbour was; answers where the next one is looked for. */
  private double step(LowRate here, LowRate there, int w, double at, double lag, double quiet) {
    double lagThere = lags[w];
    double fitThere = fits[w];
    if (Math.rint(at) != Math.rint(lag)) {
      measure(here, there, w, at, quiet);
    }
    boolean holds = Math.abs(fits[w]) >= STEERS && Math.abs(lags[w] - at) <= FASTEST;
    double next = holds ? lags[w] : at;
    if (Math.abs(fitThere) > Math.abs(fits[w]) + CLEARLY) {
      lags[w] = lagThere;
      fits[w] = fitThere;
    }
    return next;
  }

  boolean silentAt(int window) {
    return silent[window];
  }

  /** The best correlation of any window. */
  double bestFit() {
    return Arrays.stream(fits).map(Math::abs).max().orElse(0);
  }

  private void measure(LowRate here, LowRate there, int w, double around, double quiet) {
    int from = w * HOP;
    int count = Math.min(WINDOW, here.samples.length - from);
    int centre = (int) Math.rint(around);
    double[] cross = new double[2 * REACH + 1];
    double powerHere = here.power(from, WINDOW);
    double powerThere = there.power(from + centre, WINDOW);
    silent[w] = powerHere < quiet && powerThere < quiet;
    products(here.samples, from, there.samples, from + centre - REACH, count, cross);
    double norm = Math.sqrt(powerHere * powerThere) * WINDOW;
    lags[w] = around;
    fits[w] = 0;
    if (!(norm > 0)) {
      return;
    }
    double best = 0;
    for (int eighth = -8 * (REACH - 3); eighth <= 8 * (REACH - 3); eighth++) {
      double value = between(cross, eighth);
      if (Math.abs(value) > Math.abs(best)) {
        best = value;
        lags[w] = centre + eighth / 8.0;
      }
    }
    fits[w] = Math.max(-1, Math.min(1, best / norm));
  }

  /**
   * Products of a window with the other bounce at every lag searched. Seven lags are summed side by
   * side: one sum alone would wait for itself at every step.
   */
  private static void products(
      float[] x, int from, float[] y, int other, int count, double[] cross) {
    float[] near = new float[count + cross.length];
    int a = Math.max(0, -other);
    int b = Math.min(near.length, y.length - other);
    if (b > a) {
      System.arraycopy(y, other + a, near, a, b - a);
    }
    for (int lag = 0; lag < cross.length; lag += 7) {
      for (int i = 0; i < count; ) {
        int stop = Math.min(count, i + 256);
        float s0 = 0;
        float s1 = 0;
        float s2 = 0;
        float s3 = 0;
        float s4 = 0;
        float s5 = 0;
        float s6 = 0;
        for (; i < stop; i++) {
          float v = x[from + i];
          int at = i + lag;
          s0 += v * near[at];
          s1 += v * near[at + 1];
          s2 += v * near[at + 2];
          s3 += v * near[at + 3];
          s4 += v * near[at + 4];
          s5 += v * near[at + 5];
          s6 += v * near[at + 6];
        }
        cross[lag] += s0;
        cross[lag + 1] += s1;
        cross[lag + 2] += s2;
        cross[lag + 3] += s3;
        cross[lag + 4] += s4;
        cross[lag + 5] += s5;
        cross[lag + 6] += s6;
      }
    }
  }

  private static double between(double[] values, int eighth) {
    int base = REACH + Math.floorDiv(eighth, 8);
    double[] taps = EIGHTHS[Math.floorMod(eighth, 8)];
    double sum = 0;
    for (int i = Math.max(0, base - 7); i < Math.min(values.length, base + 9); i++) {
      sum += values[i] * taps[i - base + 7];
    }
    return sum;
  }

  private static double[][] eighths() {
    double[][] taps = new double[8][16];
    for (int p = 0; p < 8; p++) {
      for (int i = 0; i < 16; i++) {
        taps[p][i] = Sinc.lowPass(i - 7 - p / 8.0, 0.5, 8);
      }
    }
    return taps;
  }
}
