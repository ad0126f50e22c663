package org.mixaccord.measure;

/** Tells whether floating-point samples are 16- or 24-bit values after all. */
final class BitGrid {
  private static final int[] BITS = {16, 24};

  private int at;

  /**
   * @param integers samples that were stored as integers are not looked at
   */
  BitGrid(boolean integers) {
    at = integers ? BITS.length : 0;
  }

  void look(double[] x, int offset, int count) {
    for (int i = offset; at < BITS.length && i < offset + count; i++) {
      while (at < BITS.length && !fits(x[i])) {
        at++;
      }
    }
  }

  private boolean fits(double sample) {
    double steps = sample * (1L << (BITS[at] - 1));
    return steps == Math.rint(steps);
  }

  /** 16 or 24, 0 when a sample lies off both grids. */
  int bits() {
    return at < BITS.length ? BITS[at] : 0;
  }
}
