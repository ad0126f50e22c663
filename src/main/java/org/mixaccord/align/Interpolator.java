package org.mixaccord.align;

import java.io.IOException;
import java.util.Arrays;
import org.mixaccord.audio.PcmSource;

/**
 * Reads a bounce at evenly spaced times between its frames, by a Kaiser-windowed sinc.
 *
 * <p>Whole-frame positions at the bounce's own spacing are copied untouched. Otherwise the error
 * stays under −95 dB up to 0.4 of the lower rate; above that the filter falls off. Beyond the ends
 * the bounce counts as silent. Not safe for several threads.
 */
final class Interpolator {
  private static final int HALF_WIDTH = 24;
  private static final int PHASES = 1024;

  /** A position this near a whole frame is one. */
  private static final double WHOLE = 1e-7;

  /** Places nearer than this, as a part of the distance between two that occur, are the same. */
  private static final double SAME_PLACE = 1e-4;

  private final PcmSource pcm;
  private double[][] input = new double[0][];
  private double tableStep = Double.NaN;
  private double[][] table = new double[0][];
  private int periodOfStep;
  private double gridOfTable = Double.NaN;
  private double[][] periodic = new double[0][];

  Interpolator(PcmSource pcm) {
    this.pcm = pcm;
  }

  /**
   * Fills {@code into[channel][at … at + count)} with the bounce at {@code start + i · step}.
   *
   * @param start position in frames of the bounce, may lie outside
   * @param step frames of the bounce for one output sample, near 1 or the ratio of two rates
   */
  void read(double start, double step, double[][] into, int at, int count) throws IOException {
    if (step == 1 && Math.abs(start - Math.rint(start)) < WHOLE) {
      load(Math.round(start), count);
      for (int c = 0; c < into.length; c++) {
        System.arraycopy(input[c], 0, into[c], at, count);
      }
      return;
    }
    double widen = Math.max(1, step);
    int half = (int) Math.ceil(HALF_WIDTH * widen);
    long first = (long) Math.floor(start) - half + 1;
    int needed = (int) ((long) Math.floor(start + (count - 1) * step) + half + 2 - first);
    load(first, needed);
    if (step == 1) {
      shift(start - first, half, into, at, count);
      return;
    }
    if (tableStep != step) {
      tableStep = step;
      periodOfStep = period(step);
      gridOfTable = Double.NaN;
      table = periodOfStep == 0 ? table(step, half) : table;
    }
    if (periodOfStep > 0) {
      resamplePeriodic(start - first, step, half, into, at, count);
    } else {
      resample(start - first, step, half, into, at, count);
    }
  }

  /** After how many samples the place between two frames comes round again; 0 if not soon. */
  private static int period(double step) {
    for (int q = 1; q <= PHASES; q++) {
      if (Math.abs(step * q - Math.rint(step * q)) < 1e-11 * q) {
        return q;
      }
    }
    return 0;
  }

  /** Between two rates of the trade only a few places between frames occur, each with its taps. */
  private void resamplePeriodic(
      double start, double step, int half, double[][] into, int at, int count) {
    int q = periodOfStep;
    long stride = Math.round(step * q);
    double cells = start * q;
    long cell = (long) Math.floor(cells + SAME_PLACE);
    double grid = cells - cell;
    if (!(Math.abs(grid - gridOfTable) < SAME_PLACE)) {
      periodic = new double[q][2 * half];
      for (int row = 0; row < q; row++) {
        taps((row + grid) / q, step, half, periodic[row]);
      }
      gridOfTable = grid;
    }
    for (int i = 0; i < count; i++) {
      double[] taps = periodic[(int) (cell % q)];
      int base = (int) (cell / q) - half + 1;
      for (int c = 0; c < into.length; c++) {
        into[c][at + i] = Sinc.sum(taps, input[c], base);
      }
      cell += stride;
    }
  }

  private void shift(double start, int half, double[][] into, int at, int count) {
    int base = (int) Math.floor(start) - half + 1;
    double[] taps = new double[2 * half];
    taps(start - Math.floor(start), 1, half, taps);
    for (int c = 0; c < into.length; c++) {
      double[] in = input[c];
      for (int i = 0; i < count; i++) {
        into[c][at + i] = Sinc.sum(taps, in, base + i);
      }
    }
  }

  private void resample(double start, double step, int half, double[][] into, int at, int count) {
    double[] taps = new double[2 * half];
    for (int i = 0; i < count; i++) {
      double position = start + i * step;
      int whole = (int) Math.floor(position);
      double phase = (position - whole) * PHASES;
      int row = (int) phase;
      double part = phase - row;
      double[] a = table[row];
      double[] b = table[row + 1];
      for (int k = 0; k < taps.length; k++) {
        taps[k] = a[k] + part * (b[k] - a[k]);
      }
      int base = whole - half + 1;
      for (int c = 0; c < into.length; c++) {
        into[c][at + i] = Sinc.sum(taps, input[c], base);
      }
    }
  }

  private static double[][] table(double step, int half) {
    double[][] table = new double[PHASES + 1][2 * half];
    for (int p = 0; p <= PHASES; p++) {
      taps(p / (double) PHASES, step, half, table[p]);
    }
    return table;
  }

  private static void taps(double fraction, double step, int half, double[] taps) {
    double widen = Math.max(1, step);
    double sum = 0;
    for (int k = 0; k < taps.length; k++) {
      taps[k] = Sinc.lowPass((k - half + 1 - fraction) / widen, 0.5, HALF_WIDTH) / widen;
      sum += taps[k];
    }
    for (int k = 0; k < taps.length; k++) {
      taps[k] /= sum;
    }
  }

  private void load(long first, int count) throws IOException {
    if (input.length == 0 || input[0].length < count) {
      input = new double[pcm.channels()][count];
    }
    long from = Math.max(0, first);
    long to = Math.min(pcm.frames(), first + count);
    if (to <= from) {
      for (double[] channel : input) {
        Arrays.fill(channel, 0, count, 0);
      }
      return;
    }
    pcm.read(from, input, (int) (to - from));
    int head = (int) (from - first);
    int length = (int) (to - from);
    for (double[] channel : input) {
      if (head > 0) {
        System.arraycopy(channel, 0, channel, head, length);
        Arrays.fill(channel, 0, head, 0);
      }
      Arrays.fill(channel, head + length, count, 0);
    }
  }
}
