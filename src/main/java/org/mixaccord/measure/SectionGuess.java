package org.mixaccord.measure;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.TreeSet;

/**
 * Guesses where sections begin from the sound alone: novelty along the diagonal of a
 * self-similarity matrix (Foote, "Automatic audio segmentation using a measure of audio novelty",
 * ICME 2000) of third-octave levels and pitch classes, two values a second.
 *
 * <p>Such guesses are weak. On annotated collections about a fifth of them lie within half a second
 * of a boundary people hear, half within three seconds; they are to be offered with that doubt.
 */
public final class SectionGuess {
  /** A boundary and how clearly it stands out, 0 to 1 (the clearest of the clip). */
  public record Boundary(double seconds, double strength) {}

  private static final int CELLS_PER_STEP = 5; // half a second
  private static final int REACH = 20; // steps on each side that are compared: 10 s
  private static final int LEAST_REACH = 8;
  private static final int LEAST_STEPS = 40; // 20 s
  private static final int APART = 8; // steps between two boundaries: 4 s
  private static final double CLEAR = 0.3; // standard deviations above the mean novelty
  private static final double LEAST = 0.08; // a steady noise reaches 0.05
  private static final double FLOOR_DB = 45; // under the loudest level: nobody hears it change
  private static final int REFINE_CELLS = 8;
  private static final int REFINE_WINDOW = 15;

  private final int cells;
  private final double[][] fine;
  private final double[][] steps;

  private SectionGuess(MeasureTrack track) {
    BandGrid grid = track.bandGrid();
    cells = BandGrid.cells(track.sampleRate(), track.frames());
    fine = features(grid, cells);
    steps = new double[cells / CELLS_PER_STEP][];
    for (int t = 0; t < steps.length; t++) {
      steps[t] = mean(fine, t * CELLS_PER_STEP, (t + 1) * CELLS_PER_STEP);
    }
  }

  /** The boundaries of a clip in order of time; none in clips under twenty seconds. */
  public static List<Boundary> boundaries(MeasureTrack track) {
    return new SectionGuess(track).find();
  }

  /**
   * The boundaries moved to the nearest barline; where two come to lie on one, they are one. Those
   * before the first and after the last barline stay where they are.
   *
   * @param barlines seconds, in order; empty leaves every boundary in its place
   * @return seconds, in order
   */
  public static List<Double> atBarlines(List<Boundary> boundaries, List<Double> barlines) {
    TreeSet<Double> lines = new TreeSet<>(barlines);
    TreeSet<Double> moved = new TreeSet<>();
    for (Boundary boundary : boundaries) {
      double at = boundary.seconds();
      Double before = lines.floor(at);
      Double after = lines.ceiling(at);
      if (before == null || after == null) {
        moved.add(at);
      } else {
        moved.add(at - before <= after - at ? before : after);
      }
    }
    return List.copyOf(moved);
  }

  private List<Boundary> find() {
    if (steps.length < LEAST_STEPS || !changes()) {
      return List.of();
    }
    double[] novelty = novelty();
    double mean = Arrays.stream(novelty).average().orElse(0);
    double square = Arrays.stream(novelty).map(v -> (v - mean) * (v - mean)).average().orElse(0);
    double least = mean + CLEAR * Math.sqrt(square);
    double most = Arrays.stream(novelty).max().orElse(0);
    List<Boundary> found = new ArrayList<>();
    for (int t = APART; t <= steps.length - APART; t++) {
      if (novelty[t] > Math.max(least, LEAST) && highestAround(novelty, t)) {
        int cell = refine(t * CELLS_PER_STEP);
        found.add(new Boundary(cell / (double) BandGrid.CELLS_PER_SECOND, novelty[t] / most));
      }
    }
    return found;
  }

  private boolean changes() {
    for (double[] step : steps) {
      if (!Arrays.equals(step, steps[0])) {
        return true;
      }
    }
    return false;
  }

  private static boolean highestAround(double[] novelty, int t) {
    for (int i = Math.max(0, t - APART); i <= Math.min(novelty.length - 1, t + APART); i++) {
      if (novelty[i] > novelty[t] || (novelty[i] == novelty[t] && i < t)) {
        return false;
      }
    }
    return true;
  }

  /**
   * Novelty at the beginning of each step: how alike the steps before it are among themselves, and
   * those after it, less how alike they are across. Near the ends, where there is less to go by, it
   * counts less.
   */
  private double[] novelty() {
    double scale = usualDistance();
    double[] novelty = new double[steps.length + 1];
    for (int t = LEAST_REACH; t <= steps.length - LEAST_REACH; t++) {
      int before = Math.min(REACH, t);
      int after = Math.min(REACH, steps.length - t);
      double[] within = new double[3];
      double[] weights = new double[3];
      for (int a = 0; a < REACH; a++) {
        for (int b = 0; b < REACH; b++) {
          double x = (a + 0.5) / REACH;
          double y = (b + 0.5) / REACH;
          double weight = Math.exp(-2 * (x * x + y * y));
          if (a != b && a < before && b < before) {
            within[0] += weight * alike(t - 1 - a, t - 1 - b, scale);
            weights[0] += weight;
          }
          if (a != b && a < after && b < after) {
            within[1] += weight * alike(t + a, t + b, scale);
            weights[1] += weight;
          }
          if (a < before && b < after) {
            within[2] += weight * alike(t - 1 - a, t + b, scale);
            weights[2] += weight;
          }
        }
      }
      double novel = within[0] / weights[0] + within[1] / weights[1] - 2 * within[2] / weights[2];
      novelty[t] = novel * Math.sqrt(before * after) / REACH;
    }
    return novelty;
  }

  private double alike(int i, int j, double scale) {
    return Math.exp(-Math.sqrt(squareDistance(steps[i], steps[j])) / scale);
  }

  private double usualDistance() {
    List<Double> some = new ArrayList<>();
    for (int i = 0; i + REACH < steps.length; i++) {
      some.add(Math.sqrt(squareDistance(steps[i], steps[i + REACH])));
    }
    some.sort(null);
    return Math.max(1e-9, some.get(some.size() / 2));
  }

  /** The cell near a coarse boundary where the sound before and after differs most. */
  private int refine(int coarse) {
    int best = coarse;
    double most = -1;
    for (int at = coarse - REFINE_CELLS; at <= coarse + REFINE_CELLS; at++) {
      if (at < REFINE_WINDOW || at + REFINE_WINDOW > cells) {
        continue;
      }
      double apart =
          squareDistance(mean(fine, at - REFINE_WINDOW, at), mean(fine, at, at + REFINE_WINDOW));
      if (apart > most) {
        most = apart;
        best = at;
      }
    }
    return best;
  }

  private static double squareDistance(double[] a, double[] b) {
    double sum = 0;
    for (int i = 0; i < a.length; i++) {
      sum += (a[i] - b[i]) * (a[i] - b[i]);
    }
    return sum;
  }

  private static double[] mean(double[][] rows, int from, int to) {
    double[] mean = new double[rows[0].length];
    for (int i = from; i < to; i++) {
      for (int k = 0; k < mean.length; k++) {
        mean[k] += rows[i][k] / (to - from);
      }
    }
    return mean;
  }

  /** Levels and pitch classes of each cell, both halves with the same total variance. */
  private static double[][] features(BandGrid grid, int cells) {
    int bands = ThirdOctaves.COUNT;
    double[][] levels = new double[cells][bands];
    double[][] pitches = new double[cells][PitchClasses.COUNT];
    float most = 1e-12f;
    for (float e : grid.total()) {
      most = Math.max(most, e);
    }
    double floor = most * Math.pow(10, -FLOOR_DB / 10);
    for (int t = 0; t < cells; t++) {
      for (int b = 0; b < bands; b++) {
        levels[t][b] = 10 * Math.log10(Math.max(floor, grid.total()[t * bands + b]));
      }
      double sum = floor;
      for (int c = 0; c < PitchClasses.COUNT; c++) {
        sum += grid.pitch()[t * PitchClasses.COUNT + c];
      }
      for (int c = 0; c < PitchClasses.COUNT; c++) {
        pitches[t][c] = Math.sqrt(grid.pitch()[t * PitchClasses.COUNT + c] / sum);
      }
    }
    equalise(levels);
    equalise(pitches);
    double[][] all = new double[cells][bands + PitchClasses.COUNT];
    for (int t = 0; t < cells; t++) {
      System.arraycopy(levels[t], 0, all[t], 0, bands);
      System.arraycopy(pitches[t], 0, all[t], bands, PitchClasses.COUNT);
    }
    return all;
  }

  private static void equalise(double[][] rows) {
    if (rows.length == 0) {
      return;
    }
    double[] mean = mean(rows, 0, rows.length);
    double total = 0;
    for (double[] row : rows) {
      total += squareDistance(row, mean) / rows.length;
    }
    double scale = total > 0 ? 1 / Math.sqrt(total) : 0;
    for (double[] row : rows) {
      for (int k = 0; k < row.length; k++) {
        row[k] = scale * (row[k] - mean[k]);
      }
    }
  }
}
