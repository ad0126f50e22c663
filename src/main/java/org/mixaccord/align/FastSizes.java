package org.mixaccord.align;

/** Transform lengths that are quick: 2, 3 or 5 times a power of two. */
final class FastSizes {
  /** Above this only powers of two: tables for other sizes take four times the transform's room. */
  private static final int LARGE = 1 << 22;

  private FastSizes() {}

  static int atLeast(int least) {
    int best = Integer.highestOneBit(Math.max(2, least - 1)) << 1;
    if (best > LARGE) {
      return best;
    }
    for (int odd : new int[] {3, 5}) {
      int size = odd * 2;
      while (size < least) {
        size *= 2;
      }
      best = Math.min(best, size);
    }
    return best;
  }
}
