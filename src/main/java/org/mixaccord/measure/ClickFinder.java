package org.mixaccord.measure;

import java.util.ArrayDeque;
import java.util.Comparator;
import java.util.Deque;

/**
 * Finds corners of the waveform that are far sharper than everything around them and over within a
 * millisecond, while the music goes on as before. Beats, bowed and distorted sounds have many sharp
 * corners close together, an attack is louder after than before; neither is a click.
 *
 * <p>Works on the largest second difference of each chunk. A click is set against the
 * third-sharpest chunk in 120 ms; in white noise that is a good five times the median, so a click
 * stands about 20 times above the median.
 */
final class ClickFinder {
  private static final double ABOVE = 3.5;
  private static final double AROUND_SECONDS = 0.08;
  private static final double LEVEL_SECONDS = 0.03;
  private static final double LEVEL_CHANGE = 2; // 6 dB: an attack or an end
  private static final double LEAST_BEND = 0.02; // a height of −40 dBFS
  private static final double WHOLE_SECONDS = 0.001;
  private static final int ALONE = 3; // chunks: nearer ones belong to the click
  private static final int FORGIVEN = 1; // another click nearby does not hide one
  static final int MOST = 500;

  private final int around;
  private final int level;
  private final long apart;
  private final long frames;
  private final Channel[] channels;
  private final Worst<Marks.Click> found =
      new Worst<>(
          MOST,
          Comparator.comparingDouble(Marks.Click::height)
              .thenComparing(Comparator.comparingLong(Marks.Click::frame).reversed()));

  private static final class Channel {
    final double[] bends;
    final double[] peaks;
    long next;
    final Deque<Candidate> waiting = new ArrayDeque<>();

    Channel(int size) {
      bends = new double[size];
      peaks = new double[size];
    }
  }

  private record Candidate(long chunk, long frame, double bend) {}

  ClickFinder(int sampleRate, int channels, long frames) {
    this.around = (int) Math.ceil(AROUND_SECONDS * sampleRate / Blocks.CHUNK);
    this.level = (int) Math.ceil(LEVEL_SECONDS * sampleRate / Blocks.CHUNK);
    this.apart = Math.max(1, Math.round(WHOLE_SECONDS * sampleRate));
    this.frames = frames;
    int size = Integer.highestOneBit(2 * around + 2) * 2;
    this.channels = new Channel[channels];
    for (int c = 0; c < channels; c++) {
      this.channels[c] = new Channel(size);
    }
  }

  /** Looks through one block of a channel whose chunks are known. */
  void look(Blocks block, int channel) {
    Channel state = channels[channel];
    double[] bends = block.bends[channel];
    double[] peaks = block.peaks[channel];
    int mask = state.bends.length - 1;
    int chunks = (block.count + Blocks.CHUNK - 1) / Blocks.CHUNK;
    for (int j = 0; j < chunks; j++) {
      int at = j + Blocks.CHUNKS_BEFORE;
      double bend = bends[at];
      int slot = (int) (state.next & mask);
      state.bends[slot] = bend;
      state.peaks[slot] = peaks[at];
      if (bend >= LEAST_BEND
          && bend > ABOVE * bends[at - 2]
          && bend > ABOVE * bends[at + 2]
          && bend >= bends[at - 1]
          && bend >= bends[at + 1]) {
        candidate(block, channel, state, j, bend);
      }
      state.next++;
      if (!state.waiting.isEmpty() && state.waiting.peek().chunk() + around < state.next) {
        judge(channel, state, state.waiting.remove());
      }
    }
  }

  private void candidate(Blocks block, int channel, Channel state, int chunk, double bend) {
    double[] x = block.samples[channel];
    int at = Blocks.PAD + chunk * Blocks.CHUNK;
    int i = at;
    for (int k = at; k < at + Blocks.CHUNK; k++) {
      i = bend(x, k) > bend(x, i) ? k : i;
    }
    long frame = block.from + i - Blocks.PAD;
    Candidate last = state.waiting.peekLast();
    if (last != null && frame - last.frame() < apart) {
      if (bend <= last.bend()) {
        return;
      }
      state.waiting.removeLast();
    }
    if (frame >= apart && frame < frames - apart && !isFlatBeside(x, i)) {
      state.waiting.add(new Candidate(state.next, frame, bend));
    }
  }

  private static double bend(double[] x, int i) {
    return Math.abs(x[i - 1] - 2 * x[i] + x[i + 1]);
  }

  /** A peak cut off flat has two corners, which belong to clipping. */
  private static boolean isFlatBeside(double[] x, int i) {
    return x[i] != 0
            && (x[i] == x[i + 1] && x[i] == x[i + 2] || x[i] == x[i - 1] && x[i] == x[i - 2])
        || x[i + 1] != 0 && x[i + 1] == x[i + 2] && x[i + 1] == x[i + 3]
        || x[i - 1] != 0 && x[i - 1] == x[i - 2] && x[i - 1] == x[i - 3];
  }

  private void judge(int channel, Channel state, Candidate click) {
    long from = Math.max(0, click.chunk() - around);
    long to = Math.min(state.next, click.chunk() + around + 1);
    int mask = state.bends.length - 1;
    int sharp = 0;
    double before = 0;
    double after = 0;
    for (long k = from; k < to; k++) {
      long distance = Math.abs(k - click.chunk());
      if (distance < ALONE) {
        continue;
      }
      int slot = (int) (k & mask);
      if (ABOVE * state.bends[slot] >= click.bend() && ++sharp > FORGIVEN) {
        return;
      }
      if (distance <= level && k < click.chunk()) {
        before = Math.max(before, state.peaks[slot]);
      } else if (distance <= level) {
        after = Math.max(after, state.peaks[slot]);
      }
    }
    double height = click.bend() / 2;
    double slack = height / 4;
    if (before <= LEVEL_CHANGE * after + slack && after <= LEVEL_CHANGE * before + slack) {
      found.add(new Marks.Click(channel, click.frame(), height));
    }
  }

  /** Call once, at the end. */
  Worst<Marks.Click> finish() {
    for (int c = 0; c < channels.length; c++) {
      Channel state = channels[c];
      while (!state.waiting.isEmpty()) {
        judge(c, state, state.waiting.remove());
      }
    }
    return found;
  }
}
