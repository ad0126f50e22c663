package org.mixaccord.compare;

import java.util.Arrays;
import java.util.List;

/**
 * Whether the level between two bounces breathes with the music in all bands at once, as a limiter
 * or compressor on the whole mix makes it.
 *
 * <p>Two signs, either of which will do: one level that may move every few milliseconds leaves
 * almost nothing over; or the levels of all bands move together, against the music's own level.
 *
 * @param present whether that is so
 * @param followed whether the second sign was seen, so that the gains can be taken out of the bands
 * @param gains factor from there to here for every frame, smoothed over bands by their median
 * @param rangeDb how far the gain moves over sounding frames
 */
record LimiterTrace(boolean present, boolean followed, double[] gains, double rangeDb) {
  private static final double LEAST_RANGE_DB = 0.4;
  private static final double LEAST_FOLLOWING = 0.35;

  /** The gain common to all bands must explain this much of what a constant gain leaves. */
  private static final double LEAST_EXPLAINED = 0.5;

  /** What a level moving every 5 ms leaves of a limiter's work, over what a constant one leaves. */
  private static final double LEFT_BY_LIMITER = 0.1;

  private static final double SOUNDING = 1e-3;

  static LimiterTrace of(CrossSpectra pass, double constantGain) {
    int n = pass.frameCount;
    double[] gains = new double[n];
    Arrays.fill(gains, constantGain);
    double mean = 0;
    for (int f = 0; f < n; f++) {
      mean += pass.there[f] / n;
    }
    double[] level = new double[n];
    double[] moved = new double[n];
    int count = 0;
    double leftConstant = 0;
    double leftMoving = 0;
    for (int f = 0; f < n; f++) {
      if (!pass.inPiece[f] || pass.there[f] < mean * SOUNDING) {
        continue;
      }
      double g = medianGain(pass, f);
      if (!(g > 0)) {
        continue;
      }
      gains[f] = g;
      leftConstant += left(pass, f, constantGain);
      leftMoving += left(pass, f, g);
      moved[count] = 20 * Math.log10(g);
      level[count++] = 10 * Math.log10(pass.there[f]);
    }
    if (count < 20) {
      return new LimiterTrace(false, false, gains, 0);
    }
    double[] sorted = Arrays.copyOf(moved, count);
    Arrays.sort(sorted);
    double range = sorted[(int) (0.95 * (count - 1))] - sorted[(int) (0.05 * (count - 1))];
    double following = -correlation(level, moved, count);
    boolean followed =
        range > LEAST_RANGE_DB
            && Math.abs(following) > LEAST_FOLLOWING
            && leftMoving < leftConstant * (1 - LEAST_EXPLAINED);
    double moving = 0;
    double constant = 0;
    for (int f = 0; f < n; f++) {
      moving += pass.inPiece[f] ? pass.leftAtMovingLevel[f] : 0;
      constant += pass.inPiece[f] ? left(pass, f, constantGain) : 0;
    }
    boolean multiplied = moving < LEFT_BY_LIMITER * constant;
    double whole = sorted[(int) (0.999 * (count - 1))] - sorted[(int) (0.001 * (count - 1))];
    return new LimiterTrace(multiplied || followed, followed, gains, multiplied ? whole : range);
  }

  /** Whether a level moving every few milliseconds explains what a constant one leaves. */
  static boolean explains(CrossSpectra pass, Segment segment, double constantGain) {
    double moving = 0;
    double constant = 0;
    for (int f = 0; f < pass.frameCount; f++) {
      if (pass.inside(f, segment)) {
        moving += pass.leftAtMovingLevel[f];
        constant += left(pass, f, constantGain);
      }
    }
    return moving < LEFT_BY_LIMITER * constant;
  }

  private static double left(CrossSpectra pass, int f, double g) {
    return Math.max(0, pass.here[f] - 2 * g * pass.product[f] + g * g * pass.there[f]);
  }

  private static double medianGain(CrossSpectra pass, int f) {
    float[] found = new float[pass.bands.count()];
    int n = 0;
    for (int b = 0; b < found.length; b++) {
      boolean heard = pass.power[f][b] > pass.there[f] * 1e-3;
      if (heard && !Float.isNaN(pass.gain[f][b]) && pass.bands.nominalHz(b) >= 50) {
        found[n++] = pass.gain[f][b];
      }
    }
    if (n < 3) {
      return Double.NaN;
    }
    Arrays.sort(found, 0, n);
    return n % 2 == 1 ? found[n / 2] : (found[n / 2 - 1] + found[n / 2]) / 2;
  }

  private static double correlation(double[] x, double[] y, int n) {
    double mx = Arrays.stream(x, 0, n).average().orElse(0);
    double my = Arrays.stream(y, 0, n).average().orElse(0);
    double xy = 0;
    double xx = 0;
    double yy = 0;
    for (int i = 0; i < n; i++) {
      xy += (x[i] - mx) * (y[i] - my);
      xx += (x[i] - mx) * (x[i] - mx);
      yy += (y[i] - my) * (y[i] - my);
    }
    return xx > 0 && yy > 0 ? xy / Math.sqrt(xx * yy) : 0;
  }

  /**
   * A segment's sums with the other bounce taken through the trace, so that bands compare as if no
   * limiter were there.
   */
  BandSums through(CrossSpectra pass, Segment segment) {
    BandSums out = new BandSums(pass.bands.count());
    List<Integer> frames =
        java.util.stream.IntStream.range(0, pass.frameCount)
            .filter(f -> pass.inside(f, segment))
            .boxed()
            .toList();
    for (int f : frames) {
      double g = gains[f];
      for (int b = 0; b < out.there.length; b++) {
        out.there[b] += g * g * pass.power[f][b];
        double p = pass.gain[f][b];
        out.product[b] += Double.isNaN(p) ? 0 : g * p * pass.power[f][b];
      }
    }
    System.arraycopy(segment.sums().here, 0, out.here, 0, out.here.length);
    out.frames = frames.size();
    return out;
  }
}
