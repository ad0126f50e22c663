package org.mixaccord.compare;

/**
 * Mean squares of two aligned bounces and their product, by third-octave band, over some frames.
 * Units: mean square over channels, full scale 1.0, summed over frames.
 */
final class BandSums {
  final double[] here;
  final double[] there;
  final double[] product;

  /** Product with the other bounce turned by a quarter of a period. */
  final double[] turned;

  double midHere;
  double midThere;
  double sideHere;
  double sideThere;
  int frames;

  BandSums(int bands) {
    here = new double[bands];
    there = new double[bands];
    product = new double[bands];
    turned = new double[bands];
  }

  void add(BandSums other) {
    for (int b = 0; b < here.length; b++) {
      here[b] += other.here[b];
      there[b] += other.there[b];
      product[b] += other.product[b];
      turned[b] += other.turned[b];
    }
    midHere += other.midHere;
    midThere += other.midThere;
    sideHere += other.sideHere;
    sideThere += other.sideThere;
    frames += other.frames;
  }

  void clear() {
    java.util.Arrays.fill(here, 0);
    java.util.Arrays.fill(there, 0);
    java.util.Arrays.fill(product, 0);
    java.util.Arrays.fill(turned, 0);
    midHere = 0;
    midThere = 0;
    sideHere = 0;
    sideThere = 0;
    frames = 0;
  }

  double totalHere() {
    return sum(here);
  }

  double totalThere() {
    return sum(there);
  }

  /** What is left in a band when the other bounce, at a gain, is taken away. */
  double left(int band, double gain) {
    double rest = here[band] - 2 * gain * product[band] + gain * gain * there[band];
    // Three large numbers that nearly cancel carry their own rounding: under that, nothing is left.
    return rest < 1e-13 * (here[band] + gain * gain * there[band]) ? 0 : rest;
  }

  double totalLeft(double gain) {
    double sum = 0;
    for (int b = 0; b < here.length; b++) {
      sum += left(b, gain);
    }
    return sum;
  }

  /** What is left in a band when the other bounce may take any one level and phase in it. */
  double leftByFilter(int band) {
    double both = product[band] * product[band] + turned[band] * turned[band];
    return there[band] > 0 ? Math.max(0, here[band] - both / there[band]) : here[band];
  }

  /** Coherence of a band, 0 to 1. */
  double coherence(int band) {
    double both = here[band] * there[band];
    return both > 0 ? Math.min(1, Math.abs(product[band]) / Math.sqrt(both)) : 0;
  }

  private static double sum(double[] values) {
    double sum = 0;
    for (double v : values) {
      sum += v;
    }
    return sum;
  }
}
