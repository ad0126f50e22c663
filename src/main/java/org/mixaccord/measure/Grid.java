package org.mixaccord.measure;

import org.mixaccord.audio.FrameRange;

/**
 * The 10 ms cells a clip is divided into. Cell {@code k} starts at the frame nearest to {@code k} ·
 * 10 ms; the last cell may be shorter.
 */
record Grid(int sampleRate, long frames) {
  /** Cells per second. */
  static final int CELLS_PER_SECOND = 100;

  /** Cells of a gating block and of the momentary window, 400 ms. */
  static final int BLOCK = 40;

  /** Cells between two gating blocks, 100 ms. */
  static final int HOP = 10;

  /** Cells of the short-term window, 3 s. */
  static final int SHORT_TERM = 300;

  /** Number of cells, the shorter last one included. */
  int cells() {
    int k = (int) (frames * CELLS_PER_SECOND / sampleRate);
    while (start(k) < frames) {
      k++;
    }
    while (k > 0 && start(k - 1) >= frames) {
      k--;
    }
    return k;
  }

  /** Number of cells that are as long as 10 ms. */
  int fullCells() {
    int n = cells();
    return n > 0 && start(n) > frames ? n - 1 : n;
  }

  /** First frame of a cell as the grid has it, which may lie past the clip's end. */
  long start(int cell) {
    return ((long) cell * sampleRate + CELLS_PER_SECOND / 2) / CELLS_PER_SECOND;
  }

  /** First frame of a cell, at most the clip's length. */
  long edge(int cell) {
    return Math.min(frames, start(cell));
  }

  double seconds(int cell) {
    return edge(cell) / (double) sampleRate;
  }

  /** The cell that holds a frame. */
  int cellOf(long frame) {
    int k = (int) (frame * CELLS_PER_SECOND / sampleRate);
    while (k > 0 && start(k) > frame) {
      k--;
    }
    while (start(k + 1) <= frame) {
      k++;
    }
    return k;
  }

  /** The cell edge nearest to a frame inside the clip; the clip's end is an edge. */
  int nearestEdge(long frame) {
    long f = Math.min(frames, Math.max(0, frame));
    if (f == frames) {
      return cells();
    }
    int k = cellOf(f);
    return f - edge(k) < edge(k + 1) - f ? k : k + 1;
  }

  /** First and last edge nearest to a range; a range that would vanish keeps the cell it is in. */
  int[] cellsOf(FrameRange range) {
    int a = nearestEdge(range.from());
    int b = nearestEdge(range.to());
    if (a == b && range.frames() > 0 && range.from() < frames) {
      a = cellOf((range.from() + Math.min(frames, range.to())) / 2);
      a = Math.min(a, cells() - 1);
      b = a + 1;
    }
    return new int[] {a, b};
  }
}
