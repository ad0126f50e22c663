package org.mixaccord.compare;

/**
 * Third-octave bands summed from the bins of a transform. Exact mid-bands and edges are those of
 * IEC 61260-1 (base ten); summed bins are an analysis, not filters of a class of that standard.
 */
final class ThirdOctaves {
  /** Nominal centres, 20 Hz to 20 kHz. */
  private static final double[] NOMINAL_HZ = {
    20, 25, 31.5, 40, 50, 63, 80, 100, 125, 160, 200, 250, 315, 400, 500, 630, 800, 1000, 1250,
    1600, 2000, 2500, 3150, 4000, 5000, 6300, 8000, 10000, 12500, 16000, 20000
  };

  private static final int INDEX_OF_1_KHZ = 17;

  private final int[] firstBin;
  private final double[][] weights;
  private final int count;

  /**
   * Bands of a transform.
   *
   * @param size transform length
   * @param sampleRate frames per second
   * @param highestHz bands whose centre lies above are left out
   */
  ThirdOctaves(int size, double sampleRate, double highestHz) {
    int n = 0;
    while (n < NOMINAL_HZ.length && NOMINAL_HZ[n] <= highestHz) {
      n++;
    }
    count = n;
    firstBin = new int[n];
    weights = new double[n][];
    double binHz = sampleRate / size;
    for (int b = 0; b < n; b++) {
      double centre = 1000 * Math.pow(10, (b - INDEX_OF_1_KHZ) / 10.0);
      double low = centre / Math.pow(10, 0.05) / binHz;
      double high = Math.min(centre * Math.pow(10, 0.05) / binHz, size / 2.0);
      firstBin[b] = Math.max(1, (int) Math.floor(low + 0.5));
      int last = Math.min(size / 2 - 1, (int) Math.floor(high + 0.5));
      weights[b] = new double[Math.max(1, last - firstBin[b] + 1)];
      for (int i = 0; i < weights[b].length; i++) {
        double k = firstBin[b] + i;
        weights[b][i] = Math.max(0, Math.min(high, k + 0.5) - Math.max(low, k - 0.5));
      }
    }
  }

  int count() {
    return count;
  }

  double nominalHz(int band) {
    return NOMINAL_HZ[band];
  }

  /** Sum of the bins' values in a band, bins on an edge shared in proportion. */
  double sum(double[] bins, int band) {
    double sum = 0;
    double[] w = weights[band];
    for (int i = 0; i < w.length; i++) {
      sum += w[i] * bins[firstBin[band] + i];
    }
    return sum;
  }
}
