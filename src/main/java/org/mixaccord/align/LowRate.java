package org.mixaccord.align;

import java.io.IOException;
import java.util.Arrays;
import org.mixaccord.audio.PcmSource;

/**
 * A bounce as one narrow channel at 6 kHz, brightened by a first difference, on which pieces are
 * found.
 *
 * <p>The mean of all channels is low-passed by a Kaiser-windowed sinc and resampled from any rate.
 * The first difference lifts music's falling spectrum to a nearly flat one, so that correlation
 * does not follow the bass alone.
 */
final class LowRate {
  static final int RATE = 6000;

  /** Zero crossings on each side of the sinc: enough to keep folding 60 dB down. */
  private static final int HALF_WIDTH = 8;

  private static final double CUTOFF = 0.43;
  private static final int BLOCK_FRAMES = 1 << 15;

  /** Samples between two entries of the running sum. */
  private static final int CELL = 60;

  final float[] samples;

  /** Sum of squares up to each cell. */
  private final double[] energy;

  private LowRate(float[] samples) {
    this.samples = samples;
    energy = new double[samples.length / CELL + 1];
    for (int cell = 1; cell < energy.length; cell++) {
      energy[cell] = energy[cell - 1] + squares((cell - 1) * CELL, cell * CELL);
    }
  }

  /**
   * Reduces a bounce.
   *
   * @param pcm the bounce
   * @param framesPerSecond the rate to take it at; differs from its own when the label is doubted
   */
  static LowRate of(PcmSource pcm, double framesPerSecond) throws IOException {
    double step = framesPerSecond / RATE;
    int half = (int) Math.ceil(HALF_WIDTH * step);
    Phases phases = Phases.of(step, half);
    int length = (int) Math.floor(pcm.frames() / step);
    float[] out = new float[length];
    double[] mono = new double[BLOCK_FRAMES + 2 * half + 2];
    long blockStart = 0;
    int done = 0;
    double[][] buffer = new double[pcm.channels()][mono.length];
    while (done < length) {
      readMono(pcm, blockStart - half, mono, buffer);
      while (done < length) {
        double at = done * step;
        long base = (long) Math.floor(at + 1e-9);
        int first = (int) (base - half + 1 - (blockStart - half));
        if (first + 2 * half > mono.length) {
          break;
        }
        out[done++] = (float) phases.apply(mono, first, at - base);
      }
      if (done < length) {
        blockStart = (long) Math.floor(done * step + 1e-9);
      }
    }
    for (int i = length - 1; i > 0; i--) {
      out[i] -= 0.95f * out[i - 1];
    }
    return new LowRate(out);
  }

  double seconds() {
    return samples.length / (double) RATE;
  }

  /** Mean square of a stretch, parts beyond the ends counting as silence. */
  double power(int from, int count) {
    int a = Math.max(0, from);
    int b = Math.min(samples.length, from + count);
    int first = (a + CELL - 1) / CELL;
    int last = b / CELL;
    if (last <= first) {
      return squares(a, b) / count;
    }
    double whole = energy[last] - energy[first];
    return (squares(a, first * CELL) + whole + squares(last * CELL, b)) / count;
  }

  private double squares(int from, int to) {
    double sum = 0;
    for (int i = from; i < to; i++) {
      sum += (double) samples[i] * samples[i];
    }
    return sum;
  }

  private static void readMono(PcmSource pcm, long from, double[] mono, double[][] buffer)
      throws IOException {
    Arrays.fill(mono, 0);
    long a = Math.max(0, from);
    long b = Math.min(pcm.frames(), from + mono.length);
    if (b <= a) {
      return;
    }
    pcm.read(a, buffer, (int) (b - a));
    int shift = (int) (a - from);
    for (double[] channel : buffer) {
      for (int i = 0; i < b - a; i++) {
        mono[shift + i] += channel[i] / buffer.length;
      }
    }
  }

  /** The low-pass at every fraction of a frame that occurs; a few for the usual rates. */
  private record Phases(double[][] taps) {
    static Phases of(double step, int half) {
      int count = 1;
      while (count < 512 && Math.abs(step * count - Math.rint(step * count)) > 1e-9) {
        count++;
      }
      double[][] taps = new double[count][2 * half];
      for (int p = 0; p < count; p++) {
        for (int i = 0; i < 2 * half; i++) {
          double t = (i - half + 1 - p / (double) count) / step;
          taps[p][i] = Sinc.lowPass(t, CUTOFF, HALF_WIDTH) / step;
        }
      }
      return new Phases(taps);
    }

    double apply(double[] mono, int first, double fraction) {
      double[] row = taps[(int) Math.rint(fraction * taps.length) % taps.length];
      return Sinc.sum(row, mono, first);
    }
  }
}
