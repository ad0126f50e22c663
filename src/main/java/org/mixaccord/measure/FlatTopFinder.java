package org.mixaccord.measure;

import java.util.ArrayList;
import java.util.List;

/**
 * Finds flat peaks at a channel's own highest and lowest value: what clipping looks like after it
 * has been turned down. The extreme value is not known before the end, so a higher one begins the
 * count anew. Chunks below the extremes so far cost one comparison.
 *
 * <p>A low note's rounded top can have equal samples too, but there the waveform leaves the top
 * gently: within {@link #CORNER} frames it falls less than {@link #STEEP} steps. A square wave
 * leaves it for the other side at once. Neither counts.
 */
final class FlatTopFinder {
  /** What counts as equal, one of: exactly, within dither of 24 bits, within dither of 16 bits. */
  static final double[] WIDTHS = {0, 2 * 0x1p-23, 2 * 0x1p-15};

  private static final double[] STEPS = {0x1p-23, 0x1p-23, 0x1p-15};
  private static final double STEEP = 32;
  private static final int CORNER = 3;
  private static final int RUN = 3;
  private static final double LOWEST = 64 * 0x1p-15; // −54 dBFS: quieter tops are nobody's clipping
  private static final double JOIN_SECONDS = 2;
  private static final int MOST_STRETCHES = 200;

  private final long join;
  private final Channel[] channels;

  private static final class Channel {
    final Top[] tops = new Top[2 * WIDTHS.length];
    double floor = LOWEST;

    Channel() {
      for (int t = 0; t < tops.length; t++) {
        tops[t] = new Top(t < WIDTHS.length ? 1 : -1, t % WIDTHS.length);
      }
    }

    void lower() {
      floor = Double.POSITIVE_INFINITY;
      for (Top top : tops) {
        floor = Math.min(floor, top.level - top.width);
      }
    }
  }

  private static final class Top {
    final int sign;
    final int tolerance;
    final double width;
    double level = LOWEST;
    int run;
    long start;
    double before;
    final List<Marks.Stretch> stretches = new ArrayList<>();

    Top(int sign, int tolerance) {
      this.sign = sign;
      this.tolerance = tolerance;
      this.width = WIDTHS[tolerance];
    }
  }

  FlatTopFinder(int sampleRate, int channels) {
    join = Math.round(JOIN_SECONDS * sampleRate);
    this.channels = new Channel[channels];
    for (int c = 0; c < channels; c++) {
      this.channels[c] = new Channel();
    }
  }

  /** Looks through one block of a channel whose chunks are known. */
  void look(Blocks block, int channel) {
    Channel state = channels[channel];
    double[] x = block.samples[channel];
    double[] peaks = block.peaks[channel];
    int chunks = (block.count + Blocks.CHUNK - 1) / Blocks.CHUNK;
    boolean open = true; // a run may come over from the block before
    for (int j = 0; j < chunks; j++) {
      boolean high = peaks[j + Blocks.CHUNKS_BEFORE] >= state.floor;
      if (!high && !open) {
        continue;
      }
      open = high;
      int end = Math.min(block.count, (j + 1) * Blocks.CHUNK);
      for (int i = j * Blocks.CHUNK; i < end; i++) {
        for (Top top : state.tops) {
          take(state, top, x, i, block.from);
        }
      }
    }
  }

  private void take(Channel state, Top top, double[] x, int i, long from) {
    int at = Blocks.PAD + i;
    double y = top.sign * x[at];
    if (y < top.level - top.width) {
      if (top.run >= RUN) {
        close(top, top.sign * x[at + CORNER - 1], from + i);
      }
      top.run = 0;
      return;
    }
    if (y > top.level) {
      if (y > top.level + top.width) {
        top.stretches.clear();
        top.run = 0;
      }
      top.level = y;
      state.lower();
    }
    if (top.run++ == 0) {
      top.start = from + i;
      top.before = top.sign * x[at - CORNER];
    }
  }

  private void close(Top top, double after, long end) {
    double in = top.level - top.before;
    double out = top.level - after;
    if (Math.min(in, out) < STEEP * STEPS[top.tolerance] || Math.min(in, out) > top.level) {
      return;
    }
    int last = top.stretches.size() - 1;
    Marks.Stretch near = last < 0 ? null : top.stretches.get(last);
    if (near != null && (top.start - near.to() < join || last + 1 == MOST_STRETCHES)) {
      top.stretches.set(last, new Marks.Stretch(near.from(), end, near.runs() + 1));
    } else {
      top.stretches.add(new Marks.Stretch(top.start, end, 1));
    }
  }

  /** What has been found so far. */
  List<Marks.FlatTop> found() {
    List<Marks.FlatTop> all = new ArrayList<>();
    for (int c = 0; c < channels.length; c++) {
      for (Top top : channels[c].tops) {
        if (!top.stretches.isEmpty()) {
          all.add(new Marks.FlatTop(c, top.sign > 0, top.tolerance, top.level, top.stretches));
        }
      }
    }
    return all;
  }
}
