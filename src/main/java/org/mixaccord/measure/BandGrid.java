package org.mixaccord.measure;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;

/**
 * Third-octave energies on a 100 ms grid, as sums of squares. For two channels also the difference
 * left − right and the product L·R of each band; empty arrays otherwise. On the same grid the
 * energies of the {@link PitchClasses}.
 */
record BandGrid(
    int sampleRate,
    int channels,
    long frames,
    float[] total,
    float[] difference,
    float[] product,
    float[] pitch) {
  /** Cells per second. */
  static final int CELLS_PER_SECOND = 10;

  /** Shortest range whose bands are given, in seconds. */
  static final double SHORTEST_SECONDS = 0.1;

  static int cells(int sampleRate, long frames) {
    return (int) ((frames * CELLS_PER_SECOND + sampleRate - 1) / sampleRate);
  }

  /** Band levels over a range of frames; an edge inside a cell takes its share of the cell. */
  List<Band> over(long from, long to) {
    if (to - from < SHORTEST_SECONDS * sampleRate) {
      return List.of();
    }
    boolean stereo = difference.length > 0;
    double[] all = sum(total, from, to);
    double[] diff = stereo ? sum(difference, from, to) : null;
    double[] cross = stereo ? sum(product, from, to) : null;
    List<Band> bands = new ArrayList<>(ThirdOctaves.COUNT);
    for (int b = 0; b < ThirdOctaves.COUNT; b++) {
      double hz = ThirdOctaves.nominalHz(b);
      if (!ThirdOctaves.within(b, sampleRate) || !(all[b] > 0)) {
        bands.add(
            new Band(hz, OptionalDouble.empty(), OptionalDouble.empty(), OptionalDouble.empty()));
        continue;
      }
      double level = 10 * Math.log10(all[b] / ((double) channels * (to - from)));
      OptionalDouble correlation = OptionalDouble.empty();
      OptionalDouble monoLoss = OptionalDouble.empty();
      if (stereo) {
        double left = (all[b] + diff[b]) / 2;
        double right = (all[b] - diff[b]) / 2;
        correlation = Stereo.correlation(left, right, cross[b]);
        monoLoss = Stereo.monoLossDb(left, right, cross[b]);
      }
      bands.add(new Band(hz, OptionalDouble.of(level), correlation, monoLoss));
    }
    return List.copyOf(bands);
  }

  private double[] sum(float[] grid, long from, long to) {
    double[] out = new double[ThirdOctaves.COUNT];
    double cell = sampleRate / (double) CELLS_PER_SECOND;
    int first = (int) (from / cell);
    int last = Math.min(cells(sampleRate, frames) - 1, (int) (to / cell));
    for (int i = first; i <= last; i++) {
      double begin = i * cell;
      double end = Math.min(frames, begin + cell);
      double share = (Math.min(end, to) - Math.max(begin, from)) / (end - begin);
      if (share > 0) {
        for (int b = 0; b < ThirdOctaves.COUNT; b++) {
          out[b] += share * grid[i * ThirdOctaves.COUNT + b];
        }
      }
    }
    return out;
  }
}
