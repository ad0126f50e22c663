package org.mixaccord.measure;

import java.util.ArrayList;
import java.util.List;

/**
 * Finds stretches of exact zeros in a channel that begin and end with a jump, as a buffer that ran
 * dry leaves them. Works on chunks so that sounding material costs one comparison a chunk.
 */
final class GapFinder {
  private static final double JUMP = 0.02; // −34 dBFS on both sides: no fade ends like that
  private static final double SHORTEST_SECONDS = 0.001;
  private static final double LONGEST_SECONDS = 0.5;
  private static final int MOST = 1000;

  private final long shortest;
  private final long longest;
  private final long[] start;
  private final double[] before;
  private final boolean[] inside;
  private final List<Edges.Gap> found = new ArrayList<>();

  GapFinder(int sampleRate, int channels) {
    // Two chunks at least, so that one whole chunk lies inside.
    shortest = Math.max(2L * Blocks.CHUNK, Math.round(SHORTEST_SECONDS * sampleRate));
    longest = Math.round(LONGEST_SECONDS * sampleRate);
    start = new long[channels];
    before = new double[channels];
    inside = new boolean[channels];
  }

  /** Looks through one block of a channel whose chunk peaks are known. */
  void look(Blocks block, int channel) {
    double[] x = block.samples[channel];
    double[] peaks = block.peaks[channel];
    int chunks = (block.count + Blocks.CHUNK - 1) / Blocks.CHUNK;
    for (int j = 0; j < chunks; j++) {
      boolean silent = peaks[j + Blocks.CHUNKS_BEFORE] == 0;
      int at = Blocks.PAD + j * Blocks.CHUNK;
      if (silent && !inside[channel]) {
        int i = at;
        while (i > 0 && x[i - 1] == 0) {
          i--;
        }
        inside[channel] = true;
        start[channel] = block.from + i - Blocks.PAD;
        before[channel] = i > 0 ? Math.abs(x[i - 1]) : 0;
      } else if (!silent && inside[channel]) {
        int i = at;
        while (x[i] == 0) {
          i++;
        }
        inside[channel] = false;
        long end = block.from + i - Blocks.PAD;
        long length = end - start[channel];
        boolean sudden = before[channel] >= JUMP && Math.abs(x[i]) >= JUMP;
        if (sudden && length >= shortest && length <= longest && found.size() < MOST) {
          found.add(new Edges.Gap(channel, start[channel], end));
        }
      }
    }
  }

  List<Edges.Gap> found() {
    return found;
  }
}
