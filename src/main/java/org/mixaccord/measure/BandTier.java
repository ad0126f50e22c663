package org.mixaccord.measure;

import org.jtransforms.fft.DoubleFFT_1D;
import org.jtransforms.utils.CommonUtils;

/**
 * Short-time spectra of one pair of channels for a stretch of bands. The pair is one complex signal
 * L + i·R, so one transform serves both. Windows stand half a window apart and their squares add up
 * to one, so the energy of every sample counts the same; from five lines on their side lobes
 * together lie 80 dB down.
 */
final class BandTier {
  private static final int LONGEST_ALONE = 1 << 16;

  static {
    // The library would hand transforms as short as ours to threads of its own, which costs more
    // than it gains; longer ones, as for aligning, may still use them.
    CommonUtils.setThreadsBeginN_1D_FFT_2Threads(LONGEST_ALONE);
    CommonUtils.setThreadsBeginN_1D_FFT_4Threads(LONGEST_ALONE);
  }

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
  private final double lineHz;
  private final double[] pitches = new double[PitchClasses.COUNT];
  private final Sink sink;
  private FineSpectrum.Sum lines;
  private PitchClasses pitch;
  private int[] pitchOfLine;
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
    this.hop = n / 2;
    this.firstBand = firstBand;
    this.sink = sink;
    this.fft = new DoubleFFT_1D(n);
    this.work = new double[2 * n];
    this.held = new double[2 * n];
    this.filled = hop;
    this.window = new double[n];
    for (int i = 0; i < window.length; i++) {
      double rise = Math.sin(Math.PI * (i + 0.5) / n);
      window[i] = Math.sin(Math.PI / 2 * rise * rise);
    }
    this.scale = decimation / (double) n;
    double line = rate / n;
    this.lineHz = line;
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

  /** Lets the spectra be summed up line by line as well. */
  void sumInto(FineSpectrum.Sum sum) {
    lines = sum;
  }

  double lineHz() {
    return lineHz;
  }

  int size() {
    return size;
  }

  /** Number of values after the last one that still move its energy into the sink. */
  int tail() {
    return size;
  }

  /** Has the energies of the pitch classes told as well. */
  void tellPitches(PitchClasses classes) {
    pitch = classes;
    pitchOfLine = PitchClasses.ofLines(lineHz);
  }

  /** Takes {@code count} pairs from {@code left} and {@code right} (null: silence). */
  void push(double[] left, double[] right, int offset, int count) {
    int done = 0;
    while (done < count) {
      int n = Math.min(count - done, size - filled);
      for (int i = 0; i < n; i++) {
        held[2 * (filled + i)] = left[offset + done + i];
        held[2 * (filled + i) + 1] = right == null ? 0 : right[offset + done + i];
      }
      filled += n;
      done += n;
      if (filled == size) {
        transform();
        System.arraycopy(held, size, held, 0, size);
        filled = hop;
      }
    }
  }

  private void transform() {
    for (int i = 0; i < window.length; i++) {
      work[2 * i] = window[i] * held[2 * i];
      work[2 * i + 1] = window[i] * held[2 * i + 1];
    }
    fft.complexForward(work);
    double from = (windows - 0.5) * hop * decimation;
    double to = (windows + 0.5) * hop * decimation;
    double middle = windows * (double) hop * decimation;
    windows++;
    if (pitch != null) {
      addPitches(middle);
    }
    double energy = 0;
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
      energy += total;
      sink.add(from, to, firstBand + band, scale * total, 2 * scale * difference, scale * product);
    }
    if (lines != null) {
      lines.take(work, size, energy);
    }
  }

  private void addPitches(double middle) {
    java.util.Arrays.fill(pitches, 0);
    for (int k = 1; k < Math.min(pitchOfLine.length, size / 2); k++) {
      if (pitchOfLine[k] >= 0) {
        int p = 2 * k;
        int q = 2 * size - p;
        pitches[pitchOfLine[k]] +=
            scale
                * (work[p] * work[p]
                    + work[p + 1] * work[p + 1]
                    + work[q] * work[q]
                    + work[q + 1] * work[q + 1]);
      }
    }
    pitch.add(middle, pitches);
  }
}
