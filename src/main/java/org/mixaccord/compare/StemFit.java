package org.mixaccord.compare;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.Set;
import org.mixaccord.audio.PcmSource;

/**
 * A bounce explained as the weighted sum of the other bounce's stems, side by side and stretch by
 * stretch, by least squares.
 *
 * <p>Weights that the data do not settle (a part too quiet, parts too alike, a limiter on the mix)
 * come back empty. Holds products of all stems with each other every quarter of a second.
 */
final class StemFit implements PartChanges.Source {
  private static final double GRID_SECONDS = 0.25;
  private static final double SOUNDS = 3e-8;

  /** Parts further under the mix than this are not told (power, −45 dB). */
  private static final double TOLD = 3e-5;

  private static final double LEAST_EXPLAINED = 0.7;
  private static final double LARGEST_ERROR_DB = 1.5;
  private static final double GONE = 0.1;

  /** Sums left over relative to the mix that count as nothing moved. */
  private static final double NOTHING = 1e-6;

  /** Music's neighbouring samples are alike: about this many stand for one independent value. */
  private static final double SAMPLES_FOR_ONE = 16;

  private final List<String> names;
  private final Set<String> reported;
  private final boolean mixIsHere;
  private final double rate;
  private final int step;

  /** Products by grid cell, side and pair (the mix is the last). */
  private final double[][][] products;

  private StemFit(
      List<String> names,
      Set<String> reported,
      boolean mixIsHere,
      double rate,
      int step,
      double[][][] products) {
    this.names = names;
    this.reported = reported;
    this.mixIsHere = mixIsHere;
    this.rate = rate;
    this.step = step;
    this.products = products;
  }

  /**
   * Gathers the products.
   *
   * @param stems all stems of one bounce, on the time line here
   * @param reported elements to answer for
   * @param mix the bounce to explain, on the time line here
   * @param mixIsHere whether that is the newer one
   */
  static StemFit of(
      Map<String, PcmSource> stems, Set<String> reported, PcmSource mix, boolean mixIsHere)
      throws IOException {
    List<String> names = new ArrayList<>(stems.keySet());
    int n = names.size() + 1;
    int step = (int) Math.max(1, Math.round(mix.sampleRate() * GRID_SECONDS));
    int cells = (int) (mix.frames() / step);
    double[][][] products = new double[cells][2][n * n];
    double[][][] blocks = new double[n][][];
    for (int k = 0; k < n; k++) {
      blocks[k] = new double[source(stems, names, mix, k).channels()][step];
    }
    for (int cell = 0; cell < cells; cell++) {
      for (int k = 0; k < n; k++) {
        StemPair.read(source(stems, names, mix, k), (long) cell * step, blocks[k], step);
      }
      for (int side = 0; side < 2; side++) {
        for (int i = 0; i < n; i++) {
          double[] a = blocks[i][Math.min(side, blocks[i].length - 1)];
          for (int j = i; j < n; j++) {
            double[] b = blocks[j][Math.min(side, blocks[j].length - 1)];
            double sum = 0;
            for (int f = 0; f < step; f++) {
              sum += a[f] * b[f];
            }
            products[cell][side][i * n + j] = sum;
            products[cell][side][j * n + i] = sum;
          }
        }
      }
    }
    return new StemFit(names, reported, mixIsHere, mix.sampleRate(), step, products);
  }

  private static PcmSource source(
      Map<String, PcmSource> stems, List<String> names, PcmSource mix, int k) {
    return k < names.size() ? stems.get(names.get(k)) : mix;
  }

  @Override
  public List<Comparison.ElementDifference> in(double from, double to) {
    int n = names.size() + 1;
    int first = (int) Math.ceil(from * rate / step);
    int last = Math.min(products.length, (int) Math.floor(to * rate / step));
    double[][] sums = new double[2][n * n];
    for (int cell = first; cell < last; cell++) {
      for (int side = 0; side < 2; side++) {
        for (int i = 0; i < n * n; i++) {
          sums[side][i] += products[cell][side][i];
        }
      }
    }
    double frames = Math.max(1, (double) (last - first) * step);
    LeastSquares left = LeastSquares.solve(sums[0], n, frames / SAMPLES_FOR_ONE);
    LeastSquares right = LeastSquares.solve(sums[1], n, frames / SAMPLES_FOR_ONE);
    double mix = left.target() + right.target();
    double moved = left.unweightedRest() + right.unweightedRest();
    double rest = left.rest() + right.rest();
    double explained = moved > NOTHING * mix ? Math.max(0, 1 - rest / moved) : 1;
    List<Comparison.ElementDifference> out = new ArrayList<>();
    for (int k = 0; k < names.size(); k++) {
      if (reported.contains(names.get(k))) {
        out.add(part(k, n, sums, left, right, mix, explained, frames));
      }
    }
    return out;
  }

  private Comparison.ElementDifference part(
      int k,
      int n,
      double[][] sums,
      LeastSquares left,
      LeastSquares right,
      double mix,
      double explained,
      double frames) {
    double powerLeft = sums[0][k * n + k];
    double powerRight = sums[1][k * n + k];
    double power = powerLeft + powerRight;
    boolean sounds = power > SOUNDS * frames * 2;
    OptionalDouble none = OptionalDouble.empty();
    if (!sounds || power < TOLD * mix || explained < LEAST_EXPLAINED) {
      return new Comparison.ElementDifference(
          names.get(k), none, none, OptionalDouble.of(explained), none, none, sounds, sounds);
    }
    double l = left.weight(k) * left.weight(k) * powerLeft;
    double r = right.weight(k) * right.weight(k) * powerRight;
    double weight = Math.sqrt((l + r) / power);
    double error =
        Math.sqrt(
            (left.error(k) * left.error(k) * powerLeft
                    + right.error(k) * right.error(k) * powerRight)
                / power);
    if (weight < GONE && error < GONE) {
      return new Comparison.ElementDifference(
          names.get(k),
          none,
          none,
          OptionalDouble.of(explained),
          none,
          none,
          !mixIsHere,
          mixIsHere);
    }
    double errorDb = Math.max(0.02, 8.7 * 2 * error / Math.max(weight, 1e-9));
    if (!(errorDb < LARGEST_ERROR_DB)) {
      return new Comparison.ElementDifference(
          names.get(k), none, none, OptionalDouble.of(explained), none, none, true, true);
    }
    int direction = mixIsHere ? 1 : -1;
    double pan = StemPair.pan(l, r) - StemPair.pan(powerLeft, powerRight);
    return new Comparison.ElementDifference(
        names.get(k),
        OptionalDouble.of(direction * 20 * Math.log10(weight)),
        OptionalDouble.of(errorDb),
        OptionalDouble.of(explained),
        OptionalDouble.of(direction * pan),
        none,
        true,
        true);
  }
}
