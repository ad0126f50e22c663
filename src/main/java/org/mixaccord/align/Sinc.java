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
}
