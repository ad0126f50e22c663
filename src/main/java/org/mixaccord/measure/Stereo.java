package org.mixaccord.measure;

import java.util.OptionalDouble;

/** Figures of a pair of channels from the sums ΣL², ΣR², ΣL·R. */
final class Stereo {
  private Stereo() {}

  /** C / √(PL·PR), −1 to +1; empty when one channel is silent. */
  static OptionalDouble correlation(double left, double right, double product) {
    return left > 0 && right > 0
        ? OptionalDouble.of(clamp(product / Math.sqrt(left * right)))
        : OptionalDouble.empty();
  }

  /** 10·lg(ΣS²/ΣM²); empty when there is no side or no middle. */
  static OptionalDouble sideToMidDb(double left, double right, double product) {
    double mid = left + right + 2 * product;
    double side = left + right - 2 * product;
    return mid > 0 && side > 0
        ? OptionalDouble.of(10 * Math.log10(side / mid))
        : OptionalDouble.empty();
  }

  /** 10·lg(PL/PR), positive to the left; empty when one channel is silent. */
  static OptionalDouble balanceDb(double left, double right) {
    return left > 0 && right > 0
        ? OptionalDouble.of(10 * Math.log10(left / right))
        : OptionalDouble.empty();
  }

  /**
   * How much level the fold-down to one channel costs: 0 for equal channels, 3.01 for unrelated
   * ones; empty for silence and where nothing is left.
   */
  static OptionalDouble monoLossDb(double left, double right, double product) {
    double folded = left + right + 2 * product;
    double pair = 2 * (left + right);
    return folded > 0 && pair > 0
        ? OptionalDouble.of(Math.max(0, 10 * Math.log10(pair / folded)))
        : OptionalDouble.empty();
  }

  private static double clamp(double r) {
    return Math.max(-1, Math.min(1, r));
  }
}
