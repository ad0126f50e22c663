package org.mixaccord.measure;

/**
 * True peak by brute force: 64 points a sample, 256 taps of Blackman-windowed sinc. Left out are gaps
 * where both samples lie 8 dB under the highest point so far, or where they and the middle between
 * them lie 3 dB under it: not even a tone at half the sample rate rises as far within a quarter of a
 * sample.
 */
final class FinePeak {
  private static final int POINTS = 64;
  private static final int HALF = 128;
  private static final double FAR = 0.4;
  private static final double CLOSE = 0.7;

  private final double[][] x;

  FinePeak(double[][] x) {
    this.x = x;
  }

  double find() {
    double sample = 0;
    for (double[] channel : x) {
      for (double v : channel) {
        sample = Math.max(sample, Math.abs(v));
      }
    }
    double[][] taps = new double[POINTS][];
    for (int p = 1; p < POINTS; p++) {
      taps[p] = taps(p / (double) POINTS);
    }
    double best = sample;
    for (double[] channel : x) {
      for (int i = HALF; i + HALF < channel.length; i++) {
        double near = Math.max(Math.abs(channel[i]), Math.abs(channel[i + 1]));
        if (near < FAR * best) {
          continue;
        }
        near = Math.max(near, Math.abs(at(channel, i, taps[POINTS / 2])));
        if (near < CLOSE * best) {
          continue;
        }
        for (int p = 1; p < POINTS; p++) {
          best = Math.max(best, Math.abs(at(channel, i, taps[p])));
        }
      }
    }
    return best;
  }

  private static double at(double[] v, int i, double[] h) {
    double sum = 0;
    for (int k = 0; k < h.length; k++) {
      sum += h[k] * v[i - HALF + 1 + k];
    }
    return sum;
  }

  private static double[] taps(double fraction) {
    double[] h = new double[2 * HALF];
    for (int k = 0; k < h.length; k++) {
      double t = k - HALF + 1 - fraction;
      double u = Math.PI * t / HALF;
      double window = 0.42 + 0.5 * Math.cos(u) + 0.08 * Math.cos(2 * u);
      h[k] = window * Math.sin(Math.PI * t) / (Math.PI * t);
    }
    return h;
  }
}
