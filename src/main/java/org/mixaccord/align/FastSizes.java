package org.mixaccord.align;

/** Transform lengths that are quick: 2, 3 or 5 times a power of two. */
final class FastSizes {
  private FastSizes() {}

  static int atLeast(int least) {
    int best = Integer.highestOneBit(Math.max(2, least - 1)) << 1;
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
