package org.mixaccord.measure;

import java.util.ArrayDeque;
import java.util.Comparator;
import java.util.Deque;

/**
 * Finds stretches where a channel stands still, at zero with sound close on both sides, or at
 * another value with a jump, as a buffer that ran dry leaves them. Works on chunks so that sounding
 * material costs one comparison a chunk.
 */
final class GapFinder {
  private static final double JUMP =
      0.02; // −34 dBFS: no fade ends or begins like that within a millisecond
  private static final double EDGE_SECONDS = 0.001;
  private static final int MOST_REACH = 40; // frames that surely lie in the block's surroundings
  private static final double SHORTEST_SECONDS = 0.001;
  private static final double LONGEST_SECONDS = 0.5;
  private static final double WAVE_SECONDS = 0.5;
  private static final int WAVE = 3; // more held values than this so close are a waveform
  static final int MOST = 500;

  private final int reach;
  private final long shortest;
  private final long longest;
  private final long waveFrames;
  private final Channel[] channels;
  private final Worst<Marks.Gap> found =
      new Worst<>(
          MOST,
          Comparator.comparingLong(Marks.Gap::frames)
              .thenComparing(Comparator.comparingLong(Marks.Gap::from).reversed()));

  private static final class Channel {
    boolean inside;
    long start;
    double before;
    boolean loudBefore;
    double value;
    final Deque<Marks.Gap> waiting = new ArrayDeque<>();
    long waveUntil = -1;
  }

  GapFinder(int sampleRate, int channels) {
    // A whole chunk and its neighbours have to lie inside.
    shortest = Math.max(2L * Blocks.CHUNK + 2, Math.round(SHORTEST_SECONDS * sampleRate));
    reach = (int) Math.min(MOST_REACH, Math.round(EDGE_SECONDS * sampleRate));
    longest = Math.round(LONGEST_SECONDS * sampleRate);
    waveFrames = Math.round(WAVE_SECONDS * sampleRate);
    this.channels = new Channel[channels];
    for (int c = 0; c < channels; c++) {
      this.channels[c] = new Channel();
    }
  }

  /** Looks through one block of a channel whose chunks are known. */
  void look(Blocks block, int channel) {
    Channel state = channels[channel];
    double[] x = block.samples[channel];
    double[] bends = block.bends[channel];
    int chunks = (block.count + Blocks.CHUNK - 1) / Blocks.CHUNK;
    for (int j = 0; j < chunks; j++) {
      int at = Blocks.PAD + j * Blocks.CHUNK;
      boolean still = bends[j + Blocks.CHUNKS_BEFORE] == 0 && x[at] == x[at - 1];
      if (still && !state.inside) {
        int i = at;
        while (i > 0 && x[i - 1] == x[at]) {
          i--;
        }
        state.inside = true;
        state.value = x[at];
        state.start = block.from + i - Blocks.PAD;
        state.before = i > 0 ? x[i - 1] : x[at];
        state.loudBefore = farthest(x, Math.max(0, i - reach), i, x[at]) >= JUMP;
      } else if (!still && state.inside) {
        int i = at;
        while (x[i] == state.value) {
          i++;
        }
        state.inside = false;
        boolean loudAfter = farthest(x, i, i + reach, state.value) >= JUMP;
        close(channel, state, block.from + i - Blocks.PAD, x[i], loudAfter);
      }
    }
  }

  private void close(int channel, Channel state, long end, double after, boolean loudAfter) {
    long length = end - state.start;
    if (length < shortest || length > longest) {
      return;
    }
    boolean jumpIn = Math.abs(state.before - state.value) >= JUMP;
    boolean jumpOut = Math.abs(after - state.value) >= JUMP;
    Marks.Gap gap = new Marks.Gap(channel, state.start, end, state.value);
    if (state.value == 0) {
      // Not the jump of one sample: a wave may be cut just where it passes through zero.
      if (state.loudBefore && loudAfter) {
        found.add(gap);
      }
    } else if (jumpIn || jumpOut) {
      held(state, gap);
    }
  }

  private static double farthest(double[] x, int from, int to, double value) {
    double most = 0;
    for (int i = from; i < to; i++) {
      most = Math.max(most, Math.abs(x[i] - value));
    }
    return most;
  }

  /** A square wave holds its values too, but again and again: such gaps wait for what follows. */
  private void held(Channel state, Marks.Gap gap) {
    if (gap.from() < state.waveUntil) {
      state.waveUntil = gap.to() + waveFrames;
      return;
    }
    while (!state.waiting.isEmpty() && gap.from() - state.waiting.peek().to() > waveFrames) {
      found.add(state.waiting.remove());
    }
    state.waiting.add(gap);
    if (state.waiting.size() > WAVE) {
      state.waiting.clear();
      state.waveUntil = gap.to() + waveFrames;
    }
  }

  /** Call once, at the end. */
  Worst<Marks.Gap> finish() {
    for (Channel state : channels) {
      state.waiting.forEach(found::add);
      state.waiting.clear();
    }
    return found;
  }
}
