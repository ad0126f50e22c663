package org.mixaccord.measure;

import java.util.ArrayList;
import java.util.List;

/** Finds where some third octave all but disappears on one loudspeaker while the mix does not. */
final class MonoBands {
  private static final int WINDOW = 30; // cells of 100 ms: 3 s
  private static final int STEP = 5;
  private static final double STRONG_DB = 12; // habit: twice what is said of the whole
  private static final double SPAN_DB = 15; // bands farther under the loudest are left alone
  private static final double QUIET = 1e-5; // mean square a channel, −50 dB

  /** One band's hole: from the first to the last window it shows in, and how deep it gets. */
  record Hole(double fromSeconds, double toSeconds, double worstSeconds, int band, double lossDb) {}

  private final BandGrid grid;
  private final int cells;

  MonoBands(BandGrid grid) {
    this.grid = grid;
    this.cells = (int) (grid.frames() * BandGrid.CELLS_PER_SECOND / grid.sampleRate());
  }

  /** The holes, in order of time; overlapping ones count as one, named after the deepest band. */
  List<Hole> find() {
    List<Hole> holes = new ArrayList<>();
    double[] total = new double[ThirdOctaves.COUNT];
    double[] folded = new double[ThirdOctaves.COUNT];
    for (int a = 0; a + WINDOW <= cells; a += STEP) {
      sums(a, total, folded);
      int band = deepest(total, folded);
      if (band < 0) {
        continue;
      }
      double from = a / (double) BandGrid.CELLS_PER_SECOND;
      double to = (a + WINDOW) / (double) BandGrid.CELLS_PER_SECOND;
      double middle = (from + to) / 2;
      Hole hole = new Hole(from, to, middle, band, lossDb(total[band], folded[band]));
      int last = holes.size() - 1;
      if (last >= 0 && holes.get(last).toSeconds() >= from) {
        Hole before = holes.get(last);
        Hole deeper = hole.lossDb() > before.lossDb() ? hole : before;
        holes.set(
            last,
            new Hole(
                before.fromSeconds(), to, deeper.worstSeconds(), deeper.band(), deeper.lossDb()));
      } else {
        holes.add(hole);
      }
    }
    return holes;
  }

  private void sums(int from, double[] total, double[] folded) {
    java.util.Arrays.fill(total, 0);
    java.util.Arrays.fill(folded, 0);
    for (int i = from; i < from + WINDOW; i++) {
      for (int b = 0; b < ThirdOctaves.COUNT; b++) {
        int at = i * ThirdOctaves.COUNT + b;
        total[b] += grid.total()[at];
        folded[b] += grid.total()[at] / 2 + grid.product()[at];
      }
    }
  }

  private int deepest(double[] total, double[] folded) {
    double loudest = 0;
    for (double t : total) {
      loudest = Math.max(loudest, t);
    }
    double frames = WINDOW * grid.sampleRate() / (double) BandGrid.CELLS_PER_SECOND;
    double least = Math.max(loudest * Math.pow(10, -SPAN_DB / 10), 2 * QUIET * frames);
    int worst = -1;
    double most = STRONG_DB;
    for (int b = 0; b < total.length; b++) {
      if (total[b] > least && lossDb(total[b], folded[b]) > most) {
        worst = b;
        most = lossDb(total[b], folded[b]);
      }
    }
    return worst;
  }

  /** Never more than 40 dB: sums of energies do not tell deeper holes apart. */
  private static double lossDb(double total, double folded) {
    return 10 * Math.log10(total / Math.max(folded, 1e-4 * total));
  }

  static double strongDb() {
    return STRONG_DB;
  }
}
