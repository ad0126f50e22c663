package org.mixaccord.measure;

import java.util.Arrays;
import java.util.OptionalDouble;

/** Gates, percentiles and the loudness formula, on powers (mean squares after K-weighting). */
final class Loudness {
  private static final double OFFSET = -0.691; // BS.1770-5 Annex 1: undoes the K gain at 997 Hz
  private static final double ABSOLUTE_GATE = power(-70); // BS.1770-5 Annex 1, Tech 3342
  private static final double RELATIVE_GATE = 0.1; // −10 LU
  private static final double RANGE_GATE = 0.01; // −20 LU, Tech 3342
  private static final double RANGE_LOW = 10; // percent, Tech 3342
  private static final double RANGE_HIGH = 95;

  private Loudness() {}

  /** Loudness in LUFS of a weighted power; empty for no power at all. */
  static OptionalDouble lufs(double power) {
    return power > 0 ? OptionalDouble.of(OFFSET + 10 * Math.log10(power)) : OptionalDouble.empty();
  }

  /** Power of a loudness in LUFS. */
  static double power(double lufs) {
    return Math.pow(10, (lufs - OFFSET) / 10);
  }

  /**
   * The power a block must exceed, from the blocks of a whole programme; empty when none counts.
   */
  static OptionalDouble gate(double[] blocks) {
    OptionalDouble mean = meanAbove(blocks, ABSOLUTE_GATE);
    return mean.isPresent()
        ? OptionalDouble.of(Math.max(ABSOLUTE_GATE, RELATIVE_GATE * mean.getAsDouble()))
        : mean;
  }

  /** Gated mean power of the blocks (both gates, strictly above); empty when none passes. */
  static OptionalDouble gated(double[] blocks) {
    OptionalDouble gate = gate(blocks);
    return gate.isPresent() ? meanAbove(blocks, gate.getAsDouble()) : gate;
  }

  /** Mean of the values strictly above a threshold. */
  static OptionalDouble meanAbove(double[] values, double threshold) {
    double sum = 0;
    int n = 0;
    for (double v : values) {
      if (v > threshold) {
        sum += v;
        n++;
      }
    }
    return n > 0 ? OptionalDouble.of(sum / n) : OptionalDouble.empty();
  }

  /**
   * Loudness range in LU of short-term powers, Tech 3342: gates with "not below", nearest-index
   * percentiles. Empty when nothing passes the gate.
   */
  static OptionalDouble range(double[] shortTerm) {
    double[] kept = Arrays.stream(shortTerm).filter(p -> p >= ABSOLUTE_GATE).sorted().toArray();
    if (kept.length == 0) {
      return OptionalDouble.empty();
    }
    double threshold = RANGE_GATE * Arrays.stream(kept).sum() / kept.length;
    int first = 0;
    while (kept[first] < threshold) {
      first++;
    }
    int n = kept.length - first;
    double low = kept[first + percentile(n, RANGE_LOW)];
    double high = kept[first + percentile(n, RANGE_HIGH)];
    return OptionalDouble.of(10 * Math.log10(high / low));
  }

  private static int percentile(int n, double percent) {
    return (int) Math.round((n - 1) * percent / 100);
  }

  /**
   * Sums of every window of {@code width} neighbouring cells among the first {@code count}. Only
   * additions of the cells themselves, so a quiet window after a loud one keeps its digits, which
   * the difference of two long running sums would not.
   */
  static double[] windowSums(double[] cells, int count, int width) {
    if (count < width) {
      return new double[0];
    }
    double[] suffix = new double[count];
    for (int end = count; end > 0; ) {
      int begin = (end - 1) / width * width;
      double sum = 0;
      for (int i = end - 1; i >= begin; i--) {
        sum += cells[i];
        suffix[i] = sum;
      }
      end = begin;
    }
    double[] sums = new double[count - width + 1];
    double prefix = 0;
    for (int i = 0; i < sums.length; i++) {
      if (i % width == 0) {
        prefix = 0;
        sums[i] = suffix[i];
      } else {
        prefix += cells[i + width - 1];
        sums[i] = suffix[i] + prefix;
      }
    }
    return sums;
  }
}
