package org.mixaccord.align;

/** Windowed-sinc interpolation: the kernel that all resampling here is made of. */
final class Sinc {
  private static final double KAISER_BETA = 9.0;
  private static final double BESSEL_AT_BETA = bessel0(KAISER_BETA);

  private Sinc() {}

  /**
   * A Kaiser-windowed low-pass kernel with unit gain at 0 Hz.
   *
   * @param t distance from the kernel's centre in output samples
   * @param cutoff band edge as a part of the output rate, 0.5 for plain interpolation
   * @param halfWidth where the window ends, in output samples
   */
  static double lowPass(double t, double cutoff, double halfWidth) {
    double u = t / halfWidth;
    if (Math.abs(u) >= 1) {
      return 0;
    }
    double x = 2 * cutoff * t;
    double sinc = Math.abs(x) < 1e-12 ? 1 : Math.sin(Math.PI * x) / (Math.PI * x);
    return 2 * cutoff * sinc * bessel0(KAISER_BETA * Math.sqrt(1 - u * u)) / BESSEL_AT_BETA;
  }

  /** Modified Bessel function of the first kind, order 0, by its power series. */
  private static double bessel0(double x) {
    double sum = 1;
    double term = 1;
    for (int k = 1; term > 1e-17 * sum; k++) {
      term *= x / (2 * k) * (x / (2 * k));
      sum += term;
    }
    return sum;
  }

  /**
   * Taps times samples from a place on. Four sums run side by side, because one alone would wait
   * for itself at every step.
   */
  static double sum(double[] taps, double[] samples, int from) {
    double s0 = 0;
    double s1 = 0;
    double s2 = 0;
    double s3 = 0;
    int k = 0;
    for (; k + 3 < taps.length; k += 4) {
      s0 += samples[from + k] * taps[k];
      s1 += samples[from + k + 1] * taps[k + 1];
      s2 += samples[from + k + 2] * taps[k + 2];
      s3 += samples[from + k + 3] * taps[k + 3];
    }
    for (; k < taps.length; k++) {
      s0 += samples[from + k] * taps[k];
    }
    return s0 + s1 + (s2 + s3);
  }
}
