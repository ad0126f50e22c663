package org.mixaccord.measure;

/**
 * True peak of a cell over all channels. Only gaps whose bound exceeds the highest value found so
 * far are interpolated, so nothing that could matter is skipped. The winner is refined by a
 * parabola through its two neighbours on the finer grid.
 */
final class PeakScanner {
  private final TruePeakKernel kernel;
  private double best;
  private double top;
  private int bestChannel;
  private int bestFrame;
  private int bestPhase;
  private double bestAt;

  PeakScanner(TruePeakKernel kernel) {
    this.kernel = kernel;
  }

  /** Highest value of the scanned cell. */
  double peak() {
    return best;
  }

  /** Highest of the points looked at, before refining. */
  double highestPoint() {
    return top;
  }

  /** Its instant in frames from the block's first. */
  double at() {
    return bestAt;
  }

  /**
   * Scans the frames {@code [a, b)} of the block and the gaps to their right.
   *
   * @param samplePeak largest |sample| there
   * @param channel channel of the sample peak
   * @param frame frame of the sample peak, counted from the block's first
   */
  void scan(Blocks block, int a, int b, double samplePeak, int channel, int frame) {
    best = samplePeak;
    bestChannel = channel;
    bestFrame = frame;
    bestPhase = 0;
    double[] loudest = block.samples[channel];
    if (samplePeak > 0) {
      interpolate(loudest, channel, frame);
      if (frame > a) {
        interpolate(loudest, channel, frame - 1);
      }
    }
    for (int c = 0; c < block.samples.length; c++) {
      scanChannel(block, c, a, b);
    }
    top = best;
    refine(block.samples[bestChannel], a);
  }

  private void scanChannel(Blocks block, int channel, int a, int b) {
    double[] x = block.samples[channel];
    double[] peaks = block.peaks[channel];
    double[] bends = block.bends[channel];
    for (int j = a / Blocks.CHUNK; j * Blocks.CHUNK < b; j++) {
      int at = j + Blocks.CHUNKS_BEFORE;
      double slack = kernel.slack(bends, at);
      if (peaks[at] + slack <= best) {
        continue;
      }
      int end = Math.min(b, (j + 1) * Blocks.CHUNK);
      for (int i = Math.max(a, j * Blocks.CHUNK); i < end; i++) {
        double ends = Math.max(Math.abs(x[Blocks.PAD + i]), Math.abs(x[Blocks.PAD + i + 1]));
        if (ends + slack > best) {
          interpolate(x, channel, i);
        }
      }
    }
  }

  private void interpolate(double[] x, int channel, int frame) {
    for (int p = 1; p < kernel.ratio(); p++) {
      double y = Math.abs(kernel.at(x, Blocks.PAD + frame, p));
      if (y > best) {
        best = y;
        bestChannel = channel;
        bestFrame = frame;
        bestPhase = p;
      }
    }
  }

  private void refine(double[] x, int first) {
    int n = kernel.ratio();
    int here = bestFrame * n + bestPhase;
    bestAt = here / (double) n;
    double sign = Math.signum(value(x, here));
    double left = sign * value(x, here - 1);
    double right = sign * value(x, here + 1);
    double bend = left - 2 * best + right;
    if (left > best || right > best || !(bend < 0)) {
      return; // the signal goes on rising into a neighbouring cell, or is flat
    }
    double shift = 0.5 * (left - right) / bend;
    best -= 0.25 * (left - right) * shift;
    bestAt = Math.max(first, (here + shift) / n);
  }

  private double value(double[] x, int step) {
    int frame = Math.floorDiv(step, kernel.ratio());
    int phase = step - frame * kernel.ratio();
    return phase == 0 ? x[Blocks.PAD + frame] : kernel.at(x, Blocks.PAD + frame, phase);
  }
}
