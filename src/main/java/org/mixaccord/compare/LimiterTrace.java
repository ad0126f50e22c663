package org.mixaccord.compare;

import java.util.Arrays;
import java.util.List;
import java.util.OptionalDouble;

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

  /** What a level of its own leaves of a frame, or of a segment, that was faded (power). */
  private static final double RIDDEN_FRAME = 0.05;

  private static final double RIDDEN = 0.02;

  /** Down by this much, and peaking under this part of the highest peak: not by a limiter. */
  private static final double DOWN_DB = 1;

  private static final double LOW_PEAK = 0.5;

  /** A limiter's share of what a constant level leaves; less is the rounding beside a fade. */
  private static final double LEAST_LIMITED = 0.01;

  private static final double SOUNDING = 1e-3;

  /** Left over by a level of its own in a frame whose level does not move (power). */
  private static final double RESTING = 1e-6;

  private static final int LEAST_RESTING = 12;

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
    boolean multiplied = multiplied(pass, constantGain);
    double whole = sorted[(int) (0.999 * (count - 1))] - sorted[(int) (0.001 * (count - 1))];
    return new LimiterTrace(multiplied || followed, followed, gains, multiplied ? whole : range);
  }

  /**
   * The level while the limiter rests: that of frames in which it does not move, the middle of the
   * narrowest group of a third of them. What is held down most of the time does not pull it.
   *
   * @return empty where too few frames are at rest
   */
  static OptionalDouble restingGain(CrossSpectra pass) {
    double mean = Arrays.stream(pass.there).average().orElse(0);
    double[] levels = new double[pass.frameCount];
    int n = 0;
    for (int f = 0; f < pass.frameCount; f++) {
      boolean sounds = pass.inPiece[f] && pass.there[f] > mean * SOUNDING;
      if (sounds && leftAtOwnLevel(pass, f) < RESTING * pass.here[f] && pass.product[f] > 0) {
        levels[n++] = 20 * Math.log10(pass.product[f] / pass.there[f]);
      }
    }
    if (n < LEAST_RESTING) {
      return OptionalDouble.empty();
    }
    Arrays.sort(levels, 0, n);
    int third = n / 3;
    int best = 0;
    for (int i = 0; i + third < n; i++) {
      best = levels[i + third] - levels[i] < levels[best + third] - levels[best] ? i : best;
    }
    return OptionalDouble.of(Math.pow(10, levels[best + third / 2] / 20));
  }

  /**
   * Whether a level moving every few milliseconds explains what a constant one leaves, over the
   * frames in which no level of their own explains it: those were faded or ridden, not limited.
   */
  private static boolean multiplied(CrossSpectra pass, double constantGain) {
    double moving = 0;
    double constant = 0;
    double all = 0;
    for (int f = 0; f < pass.frameCount; f++) {
      double left = pass.inPiece[f] ? left(pass, f, constantGain) : 0;
      all += left;
      if (pass.inPiece[f] && leftAtOwnLevel(pass, f) >= RIDDEN_FRAME * left) {
        moving += pass.leftAtMovingLevel[f];
        constant += left;
      }
    }
    return moving < LEFT_BY_LIMITER * constant && constant > LEAST_LIMITED * all;
  }

  /**
   * Whether a segment was faded or ridden rather than limited: a level of its own for every frame
   * explains it, or most of what differs lies where one side is down although it does not peak. A
   * limiter turns down what reaches its ceiling.
   */
  boolean ridden(CrossSpectra pass, Segment segment, double constantGain) {
    double down = Math.pow(10, -DOWN_DB / 20);
    double highHere = largest(pass.peakHere) * LOW_PEAK;
    double highThere = largest(pass.peakThere) * LOW_PEAK;
    double slow = 0;
    double faded = 0;
    double constant = 0;
    for (int f = 0; f < pass.frameCount; f++) {
      if (!pass.inside(f, segment)) {
        continue;
      }
      double left = left(pass, f, constantGain);
      double level = pass.there[f] > 0 ? pass.product[f] / pass.there[f] / constantGain : 1;
      slow += leftAtOwnLevel(pass, f);
      constant += left;
      boolean hereDown = level < down && pass.peakHere[f] < highHere;
      boolean thereDown = level > 1 / down && pass.peakThere[f] < highThere;
      faded += hereDown || thereDown ? left : 0;
    }
    return (!followed && slow < RIDDEN * constant) || faded > constant / 2;
  }

  private static double largest(float[] values) {
    float most = 0;
    for (float v : values) {
      most = Math.max(most, v);
    }
    return most;
  }

  private static double leftAtOwnLevel(CrossSpectra pass, int f) {
    double there = pass.there[f];
    double rest = there > 0 ? pass.here[f] - pass.product[f] * pass.product[f] / there : 0;
    return Math.max(0, rest);
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
