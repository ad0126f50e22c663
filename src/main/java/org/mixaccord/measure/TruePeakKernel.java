package org.mixaccord.measure;

/**
 * Interpolation filter for true peak: a Kaiser-windowed sinc of 32 taps a phase, and the bound that
 * lets most gaps between samples be skipped.
 *
 * <p>Each phase is corrected so that constants and straight lines pass exactly. The difference to
 * plain linear interpolation is then a weighted sum of second differences of the samples, so inside
 * a gap {@code |y| ≤ max(|left|, |right|) + bound · (largest second difference under the taps)}.
 */
final class TruePeakKernel {
  /** Taps a phase; the gap lies in the middle, with this many halves of samples on each side. */
  static final int TAPS = 32;

  /** Samples needed before the left sample of the gap. */
  static final int BEFORE = TAPS / 2 - 1;

  /** Samples needed after the left sample of the gap. */
  static final int AFTER = TAPS / 2;

  // Chosen by measuring the droop of a sine over all phases: see docs/measurement.md.
  private static final double KAISER_BETA = 5.0;
  private static final double WANTED_RATE = 352_800;

  private static final double ROUNDING = 1e-12;

  private final int ratio;
  private final double[][] phases;
  private final double bound;

  private TruePeakKernel(int ratio) {
    this.ratio = ratio;
    this.phases = new double[ratio][];
    double worst = 0;
    for (int p = 0; p < ratio; p++) {
      phases[p] = phase(p / (double) ratio);
      worst = Math.max(worst, secondDifferenceWeight(phases[p], p / (double) ratio));
    }
    this.bound = worst;
  }

  /**
   * The kernel for a sample rate: 8 points a sample at 44.1 and 48 kHz, 4 at 88.2 and 96 kHz, 2 at
   * 176.4 kHz and above, more below 44.1 kHz, so that the finer rate is never under 352.8 kHz.
   */
  static TruePeakKernel at(int sampleRate) {
    int ratio = 2;
    while (ratio * (double) sampleRate < WANTED_RATE) {
      ratio *= 2;
    }
    return new TruePeakKernel(ratio);
  }

  int ratio() {
    return ratio;
  }

  /**
   * How far the signal can rise above the samples on both sides anywhere in a chunk; not at all
   * where they lie on a line, as in silence.
   *
   * @param bends largest second differences of the chunks
   * @param chunk the chunk; the taps reach into its neighbours
   */
  double slack(double[] bends, int chunk) {
    double bend = Math.max(bends[chunk], Math.max(bends[chunk - 1], bends[chunk + 1]));
    return bend == 0 ? 0 : bound * bend + ROUNDING;
  }

  /** Value at {@code i + phase / ratio}; the taps reach from i − BEFORE to i + AFTER. */
  double at(double[] x, int i, int phase) {
    double[] h = phases[phase];
    double a = 0;
    double b = 0;
    double c = 0;
    double d = 0;
    for (int k = 0, j = i - BEFORE; k < TAPS; k += 4, j += 4) {
      a += h[k] * x[j];
      b += h[k + 1] * x[j + 1];
      c += h[k + 2] * x[j + 2];
      d += h[k + 3] * x[j + 3];
    }
    return (a + b) + (c + d);
  }

  private static double[] phase(double fraction) {
    double[] h = new double[TAPS];
    double[] w = new double[TAPS];
    for (int k = 0; k < TAPS; k++) {
      double t = k - BEFORE - fraction;
      w[k] = kaiser(t / (TAPS / 2.0));
      h[k] = w[k] * sinc(t);
    }
    if (fraction == 0) {
      return h;
    }
    // Least change w·(α + β·t) that makes the zeroth moment 1 and the first moment (about the
    // interpolated instant) 0.
    double s0 = 0;
    double s1 = 0;
    double s2 = 0;
    double m0 = -1;
    double m1 = 0;
    for (int k = 0; k < TAPS; k++) {
      double t = k - BEFORE - fraction;
      s0 += w[k];
      s1 += w[k] * t;
      s2 += w[k] * t * t;
      m0 += h[k];
      m1 += h[k] * t;
    }
    double det = s0 * s2 - s1 * s1;
    double alpha = (-m0 * s2 + m1 * s1) / det;
    double beta = (-m1 * s0 + m0 * s1) / det;
    for (int k = 0; k < TAPS; k++) {
      double t = k - BEFORE - fraction;
      h[k] += w[k] * (alpha + beta * t);
    }
    return h;
  }

  private static double secondDifferenceWeight(double[] h, double fraction) {
    double total = 0;
    double previous = 0;
    double current = 0;
    for (int k = 0; k < TAPS - 1; k++) {
      double linear = k == BEFORE ? 1 - fraction : k == BEFORE + 1 ? fraction : 0;
      double next = h[k] - linear + 2 * current - previous;
      previous = current;
      current = next;
      total += Math.abs(current);
    }
    return total;
  }

  private static double sinc(double t) {
    return Math.abs(t) < 1e-12 ? 1 : Math.sin(Math.PI * t) / (Math.PI * t);
  }

  private static double kaiser(double r) {
    return Math.abs(r) >= 1 ? 0 : bessel(KAISER_BETA * Math.sqrt(1 - r * r)) / bessel(KAISER_BETA);
  }

  /** Modified Bessel function of order zero, by its power series. */
  static double bessel(double x) {
    double sum = 1;
    double term = 1;
    for (int k = 1; term > 1e-18 * sum; k++) {
      term *= (x / (2 * k)) * (x / (2 * k));
      sum += term;
    }
    return sum;
  }
}
