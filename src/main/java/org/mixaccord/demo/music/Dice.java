package org.mixaccord.demo.music;

/** A small seeded source of chance (xorshift with a multiplier): equal seeds, equal music. */
final class Dice {
  private long state;

  Dice(long seed) {
    // Seeds are small and close together: spread them so that no two streams start alike.
    state = (seed + 1) * 0x9E3779B97F4A7C15L;
    for (int i = 0; i < 4; i++) {
      next();
    }
  }

  private long next() {
    state ^= state >>> 12;
    state ^= state << 25;
    state ^= state >>> 27;
    return state * 0x2545F4914F6CDD1DL;
  }

  /** A number from 0 (included) to 1 (not included). */
  double unit() {
    return (next() >>> 11) * 0x1.0p-53;
  }

  /** A number from −1 to 1, all equally likely: white noise. */
  double bipolar() {
    return unit() * 2 - 1;
  }

  /** A number about 0 with a spread of about 1, never beyond ±3: the sway of a hand. */
  double sway() {
    return bipolar() + bipolar() + bipolar();
  }

  /** A seed for another stream. */
  long seed() {
    return next() >>> 16;
  }
}
