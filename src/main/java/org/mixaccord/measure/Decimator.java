package org.mixaccord.measure;

/**
 * Keeps every n-th value of two signals after a symmetric low-pass, without delay: output {@code m}
 * is centred on input {@code m · n}. Passes 0 to 300 Hz; what would fold onto that is 90 dB down.
 */
final class Decimator {
  private static final double PASS_HZ = 300;
  private static final double STOP_DB = 90;

  private final int step;
  private final int half;
  private final double[] taps;
  private double[] left;
  private double[] right;
  private int held;
  private double[] leftOut = new double[0];
  private double[] rightOut = new double[0];

  Decimator(int sampleRate, int step) {
    this.step = step;
    double rate = sampleRate / (double) step;
    if (step == 1) {
      this.half = 0;
      this.taps = new double[] {1};
    } else {
      // Kaiser's design rules for a transition from PASS_HZ to rate − PASS_HZ.
      double width = 2 * Math.PI * (rate - 2 * PASS_HZ) / sampleRate;
      this.half = (int) Math.ceil((STOP_DB - 8) / (2.285 * width) / 2);
      double beta = 0.1102 * (STOP_DB - 8.7);
      this.taps = new double[half + 1];
      double sum = 0;
      for (int k = 0; k <= half; k++) {
        double r = k / (half + 1.0);
        double angle = Math.PI * k / step;
        taps[k] =
            (k == 0 ? 1 : Math.sin(angle) / angle)
                * TruePeakKernel.bessel(beta * Math.sqrt(1 - r * r));
        sum += k == 0 ? taps[k] : 2 * taps[k];
      }
      for (int k = 0; k <= half; k++) {
        taps[k] /= sum;
      }
    }
    this.left = new double[2 * half + 1];
    this.right = new double[2 * half + 1];
    this.held = half; // silence before the clip
  }

  /** Input values after the last one that still change an output. */
  int tail() {
    return half + step;
  }

  /** Filters and hands the outputs that are complete to every tier. */
  void push(double[] l, double[] r, int offset, int count, BandTier... tiers) {
    if (left.length < held + count) {
      left = java.util.Arrays.copyOf(left, held + count);
      right = java.util.Arrays.copyOf(right, held + count);
    }
    System.arraycopy(l, offset, left, held, count);
    if (r != null) {
      System.arraycopy(r, offset, right, held, count);
    }
    held += count;
    int n = held > 2 * half ? (held - 2 * half - 1) / step + 1 : 0;
    if (leftOut.length < n) {
      leftOut = new double[n];
      rightOut = new double[n];
    }
    for (int m = 0; m < n; m++) {
      int centre = m * step + half;
      double a = taps[0] * left[centre];
      double b = taps[0] * right[centre];
      for (int k = 1; k <= half; k++) {
        a += taps[k] * (left[centre - k] + left[centre + k]);
        b += taps[k] * (right[centre - k] + right[centre + k]);
      }
      leftOut[m] = a;
      rightOut[m] = b;
    }
    int used = n * step;
    int rest = held - used;
    System.arraycopy(left, used, left, 0, rest);
    System.arraycopy(right, used, right, 0, rest);
    held = rest;
    for (BandTier tier : tiers) {
      tier.push(leftOut, rightOut, 0, n);
    }
  }
}
