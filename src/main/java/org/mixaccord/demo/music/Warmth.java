package org.mixaccord.demo.music;

/** A rounded ceiling for one part: quiet sound passes as it is, peaks are bent, never cut. */
final class Warmth implements Effect {
  private final double drive;
  private final double back;

  Warmth(double driveDb) {
    drive = Waves.gain(driveDb);
    back = 1 / drive;
  }

  @Override
  public void process(double[] left, double[] right, int count) {
    for (int i = 0; i < count; i++) {
      left[i] = back * bend(left[i] * drive);
      right[i] = back * bend(right[i] * drive);
    }
  }

  /** A rational curve close to the hyperbolic tangent, needing no library function. */
  static double bend(double x) {
    if (x >= 3) {
      return 1;
    }
    if (x <= -3) {
      return -1;
    }
    double square = x * x;
    return x * (27 + square) / (27 + 9 * square);
  }
}
