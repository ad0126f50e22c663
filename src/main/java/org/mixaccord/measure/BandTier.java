package org.mixaccord.measure;

import org.jtransforms.fft.DoubleFFT_1D;

/**
 * Short-time spectra of one pair of channels for a stretch of bands. The pair is one complex signal
 * L + i·R, so one transform serves both. Windows are Hann, a third of a window apart: their squares
 * then add up to a constant and the energy of every sample counts the same.
 */
final class BandTier {
  /** What receives the energies of one window. */
  interface Sink {
    /** Energies of a band for the stretch {@code [from, to)} in frames of the clip. */
    void add(double from, double to, int band, double total, double difference, double product);
  }

  private final int decimation;
  private final int size;
  private final int hop;
  private final int firstBand;
  private final int[] firstBin;
  private final double[][] binShare;
  private final double[] window;
  private final double[] held;
  private final double[] work;
  private final DoubleFFT_1D fft;
  private final double scale;
  private final Sink sink;
  private int filled;
  private long windows;

  /**
   * @param sampleRate rate of the clip
   * @param decimation how many frames of the clip one pushed value stands for
   * @param binHz spectral lines are at most this far apart
   */
  BandTier(int sampleRate, int decimation, double binHz, int firstBand, int endBand, Sink sink) {
    double rate = sampleRate / (double) decimation;
    int n = 64;
    while (rate / n > binHz) {
      n *= 2;
    }
    this.decimation = decimation;
    this.size = n;
    this.hop = n / 3;
    this.firstBand = firstBand;
    this.sink = sink;
    this.fft = new DoubleFFT_1D(n);
    this.work = new double[2 * n];
    this.held = new double[2 * 3 * hop];
    this.filled = 2 * hop;
    this.window = new double[3 * hop];
    for (int i = 0; i < window.length; i++) {
      window[i] = 0.5 - 0.5 * Math.cos(2 * Math.PI * i / window.length);
    }
    this.scale = 8.0 / 9.0 / n * decimation; // three squared Hann windows add up to 9/8
    double line = rate / n;
    int bands = Math.max(0, endBand - firstBand);
    this.firstBin = new int[bands];
    this.binShare = new double[bands][];
    for (int b = 0; b < bands; b++) {
      double low = ThirdOctaves.lowerHz(firstBand + b);
      double high = ThirdOctaves.upperHz(firstBand + b);
      int first = (int) Math.floor(low / line + 0.5);
      int last = Math.min(n / 2 - 1, (int) Math.floor(high / line + 0.5));
      firstBin[b] = first;
      binShare[b] = new double[Math.max(0, last - first + 1)];
      for (int k = first; k <= last; k++) {
        double overlap = Math.min(high, (k + 0.5) * line) - Math.max(low, (k - 0.5) * line);
        binShare[b][k - first] = Math.max(0, overlap) / line;
      }
    }
  }

  /** Number of values after the last one that still move its energy into the sink. */
  int tail() {
    return 3 * hop;
  }

  /** Takes {@code count} pairs from {@code left} and {@code right} (null: silence). */
  void push(double[] left, double[] right, int offset, int count) {
    int done = 0;
    while (done < count) {
      int n = Math.min(count - done, 3 * hop - filled);
      for (int i = 0; i < n; i++) {
        held[2 * (filled + i)] = left[offset + done + i];
        held[2 * (filled + i) + 1] = right == null ? 0 : right[offset + done + i];
      }
      filled += n;
      done += n;
      if (filled == 3 * hop) {
        transform();
        System.arraycopy(held, 2 * hop, held, 0, 4 * hop);
        filled = 2 * hop;
      }
    }
  }

  private void transform() {
    for (int i = 0; i < window.length; i++) {
      work[2 * i] = window[i] * held[2 * i];
      work[2 * i + 1] = window[i] * held[2 * i + 1];
    }
    java.util.Arrays.fill(work, 2 * window.length, work.length, 0);
    fft.complexForward(work);
    double from = (windows - 1) * (double) hop * decimation;
    double to = windows * (double) hop * decimation;
    windows++;
    for (int band = 0; band < firstBin.length; band++) {
      double total = 0;
      double difference = 0;
      double product = 0;
      double[] share = binShare[band];
      for (int j = 0; j < share.length; j++) {
        int p = 2 * (firstBin[band] + j);
        int q = 2 * size - p;
        double a = work[p];
        double b = work[p + 1];
        double c = work[q];
        double d = work[q + 1];
        total += share[j] * (a * a + b * b + c * c + d * d);
        difference += share[j] * (a * c - b * d);
        product += share[j] * (a * d + b * c);
      }
      sink.add(from, to, firstBand + band, scale * total, 2 * scale * difference, scale * product);
    }
  }
}
