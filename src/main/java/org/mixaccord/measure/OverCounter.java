package org.mixaccord.measure;

/**
 * Counts inter-sample overs: stretches where the interpolated signal passes full scale although no
 * sample does. Stretches less than a millisecond apart, in whatever channel, are one; it belongs to
 * the cell it begins in.
 */
final class OverCounter {
  private static final double APART_SECONDS = 0.001;

  private static final double ALIKE = 0.9999;

  private final TruePeakKernel kernel;
  private final int[] counts;
  private final long apart;
  private boolean open;
  private boolean clipped;
  private int cell;
  private long last;

  /**
   * @param counts where each cell's stretches are counted
   */
  OverCounter(TruePeakKernel kernel, int sampleRate, int[] counts) {
    this.kernel = kernel;
    this.counts = counts;
    this.apart = Math.max(1, Math.round(APART_SECONDS * sampleRate));
  }

  /**
   * Looks through the frames {@code [a, b)} of a block, all in one cell that passes full scale.
   *
   * @param highest the cell's highest interpolated point; where its true peak lies between two such
   *     points and only so passes full scale, points as high as this stand for it
   */
  void look(Blocks block, int a, int b, int inCell, double highest) {
    double limit = Math.min(1, ALIKE * highest);
    int channels = block.samples.length;
    double[] slack = new double[channels];
    for (int j = a / Blocks.CHUNK; j * Blocks.CHUNK < b; j++) {
      int chunk = j + Blocks.CHUNKS_BEFORE;
      boolean possible = false;
      for (int c = 0; c < channels; c++) {
        slack[c] = kernel.slack(block.bends[c], chunk);
        possible |= block.peaks[c][chunk] + slack[c] > limit;
      }
      int end = possible ? Math.min(b, (j + 1) * Blocks.CHUNK) : 0;
      for (int i = Math.max(a, j * Blocks.CHUNK); i < end; i++) {
        boolean sample = false;
        boolean over = false;
        for (int c = 0; c < channels; c++) {
          double[] x = block.samples[c];
          sample |= Math.abs(x[Blocks.PAD + i]) > 1;
          over |= sample || between(x, i, slack[c], limit);
        }
        if (over) {
          note(block.from + i, sample, inCell);
        }
      }
    }
  }

  private boolean between(double[] x, int frame, double slack, double limit) {
    int i = Blocks.PAD + frame;
    if (Math.max(Math.abs(x[i]), Math.abs(x[i + 1])) + slack <= limit) {
      return false;
    }
    for (int p = 1; p < kernel.ratio(); p++) {
      if (Math.abs(kernel.at(x, i, p)) > limit) {
        return true;
      }
    }
    return false;
  }

  private void note(long frame, boolean sample, int inCell) {
    if (open && frame - last > apart) {
      finish();
    }
    if (!open) {
      open = true;
      clipped = false;
      cell = inCell;
    }
    clipped |= sample;
    last = frame;
  }

  /** Ends the clip. */
  void finish() {
    if (open && !clipped) {
      counts[cell]++;
    }
    open = false;
  }
}
