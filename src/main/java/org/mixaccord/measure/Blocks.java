package org.mixaccord.measure;

import java.io.IOException;
import org.mixaccord.audio.PcmSource;

/**
 * A stretch of the clip with what surrounds it, cleaned of samples that are no numbers, and the
 * peaks of its chunks. Outside the clip there is silence.
 */
final class Blocks {
  /** Frames of context on each side. */
  static final int PAD = 64;

  /** Gaps between samples that share one bound. */
  static final int CHUNK = 16;

  /** Chunks of context kept before the block's first. */
  static final int CHUNKS_BEFORE = 2;

  private static final double BEYOND_USE = 1e100;

  private final PcmSource pcm;
  private final double[][] direct;

  /** Samples, {@code [channel][PAD + frame − from]}. */
  final double[][] samples;

  /** Largest |sample| from each chunk's first to the next one's first, {@code CHUNKS_BEFORE} on. */
  final double[][] peaks;

  /** Largest |second difference| at the chunk's frames. */
  final double[][] bends;

  long from;
  int count;
  long nonFinite;
  long firstNonFinite;
  long lastNonFinite;

  Blocks(PcmSource pcm, int longest) {
    this.pcm = pcm;
    int channels = pcm.channels();
    samples = new double[channels][longest + 2 * PAD];
    direct = new double[channels][longest + 2 * PAD];
    int chunks = longest / CHUNK + 1 + 2 * CHUNKS_BEFORE;
    peaks = new double[channels][chunks];
    bends = new double[channels][chunks];
  }

  /** Reads the frames {@code [first, first + length)} and their surroundings. */
  void load(long first, int length) throws IOException {
    from = first;
    count = length;
    long begin = Math.max(0, first - PAD);
    long end = Math.min(pcm.frames(), first + length + PAD);
    int at = (int) (begin - (first - PAD));
    int n = (int) (end - begin);
    double[][] target = at == 0 ? samples : direct;
    pcm.read(begin, target, n);
    for (int c = 0; c < samples.length; c++) {
      double[] x = samples[c];
      if (at > 0) {
        System.arraycopy(direct[c], 0, x, at, n);
        java.util.Arrays.fill(x, 0, at, 0);
      }
      java.util.Arrays.fill(x, at + n, x.length, 0);
      clean(x);
      summarise(x, peaks[c], bends[c]);
    }
  }

  private void clean(double[] x) {
    int end = count + 2 * PAD;
    double a = 0;
    double b = 0;
    for (int i = 0; i + 1 < end; i += 2) {
      a += x[i] * x[i];
      b += x[i + 1] * x[i + 1];
    }
    double last = x[end - 1] * x[end - 1];
    if (Double.isFinite(a + b + last)) {
      return;
    }
    for (int i = 0; i < end; i++) {
      if (!(Math.abs(x[i]) < BEYOND_USE)) {
        x[i] = 0;
        if (i >= PAD && i < PAD + count) {
          long frame = from + i - PAD;
          firstNonFinite = nonFinite == 0 ? frame : Math.min(firstNonFinite, frame);
          lastNonFinite = Math.max(lastNonFinite, frame);
          nonFinite++;
        }
      }
    }
  }

  private void summarise(double[] x, double[] peak, double[] bend) {
    int chunks = (count + CHUNK - 1) / CHUNK + 2 * CHUNKS_BEFORE;
    int at = PAD - CHUNKS_BEFORE * CHUNK;
    double here = x[at];
    double slope = here - x[at - 1];
    for (int j = 0; j < chunks; j++) {
      // Magnitudes of finite numbers are ordered as their bits are; comparing those is quicker.
      long most = magnitude(here);
      long sharpest = 0;
      for (int i = at + 1; i <= at + CHUNK; i++) {
        double next = x[i];
        double nextSlope = next - here;
        most = Math.max(most, magnitude(next));
        sharpest = Math.max(sharpest, magnitude(nextSlope - slope));
        here = next;
        slope = nextSlope;
      }
      peak[j] = Double.longBitsToDouble(most);
      bend[j] = Double.longBitsToDouble(sharpest);
      at += CHUNK;
    }
  }

  private static long magnitude(double value) {
    return Double.doubleToRawLongBits(value) & Long.MAX_VALUE;
  }
}
