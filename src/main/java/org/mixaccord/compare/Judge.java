package org.mixaccord.compare;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.DoubleStream;

/**
 * Tells changed segments from unchanged ones.
 *
 * <p>Two ways, by what the files allow. Where unchanged music nulls, a segment is changed when what
 * is left over stands above what number formats and resampling leave. Where nothing nulls (a lossy
 * codec, a limiter), band levels are compared instead: a segment is changed when several bands
 * moved against the level most segments have, by more than those levels scatter; when every segment
 * moved alike, that is said to be uncertain rather than laid on the mix or on the codec.
 */
final class Judge {
  /** What is left may stand this far above the formats' own noise (factor of power, 8 dB). */
  private static final double ABOVE_FLOOR = 6.3;

  /** Left over relative to the music after exact arithmetic, and after a resampler (power). */
  private static final double EXACT_LEFT = 1e-11;

  private static final double RESAMPLED_LEFT = 3e-7;

  /** Tails of a changed neighbour may ring this long into a segment. */
  private static final double TAIL_SECONDS = 3;

  private static final double BAND_IN_PLAY = 1e-3;
  private static final double LOWEST_HZ = 60;
  private static final double HIGHEST_HZ = 12000;
  private static final double CLEAR_DB = 0.5;
  private static final double SLIGHT_DB = 0.3;

  /**
   * A smaller move counts too when the level and what carries over from the other bounce agree on
   * it: a codec's noise and holes move one of the two, a fader both.
   */
  private static final double SMALL_DB = 0.15;

  private static final double AGREE = 0.6;
  private static final double LEAST_SCATTER_DB = 0.02;
  private static final double COMMON_DB = 0.8;
  private static final double LEVELS_OVER_LEFT = 2;
  private static final double SCATTERS = 5;

  /** No modulation leaves this much over, relative to the music (power, −10 dB). */
  private static final double FAR_LEFT = 0.1;

  /** How sure the map must be for what is left over to count as change rather than as misplaced. */
  private static final double PLACED = 0.6;

  private final CrossSpectra pass;
  private final double gain;
  private final double formatPower;
  private final double relativeLeft;
  private final boolean placed;

  /**
   * A judge for one pair.
   *
   * @param formatPower mean square of the noise both number formats add, as heard here
   * @param resampled whether the other bounce went through a resampler
   * @param sure how sure the time map is, 0 to 1
   */
  Judge(CrossSpectra pass, double gain, double formatPower, boolean resampled, double sure) {
    this.pass = pass;
    this.gain = gain;
    this.formatPower = formatPower;
    this.relativeLeft = resampled ? RESAMPLED_LEFT : EXACT_LEFT;
    this.placed = sure >= PLACED;
  }

  /** What is normally left of a segment, relative to its own level (power). */
  double floor(BandSums sums) {
    double power = sums.totalHere();
    return power > 0 ? relativeLeft + formatPower * sums.frames / power : relativeLeft;
  }

  /** Verdicts where unchanged music nulls. */
  List<Difference> byLeftOver(List<Segment> segments) {
    List<Difference> out = new ArrayList<>();
    for (Segment s : segments) {
      out.add(exceeds(s.sums()) ? Difference.CHANGED : Difference.UNCHANGED);
    }
    for (int i = 0; i < segments.size(); i++) {
      boolean tail = i > 0 && out.get(i - 1) == Difference.CHANGED;
      if (tail && out.get(i) == Difference.CHANGED && onlyATail(segments.get(i))) {
        out.set(i, Difference.UNCHANGED);
      }
    }
    return out;
  }

  private boolean exceeds(BandSums sums) {
    if (sums.frames == 0) {
      return false;
    }
    double left = sums.totalLeft(gain);
    if (left > ABOVE_FLOOR * (relativeLeft * sums.totalHere() + formatPower * sums.frames)) {
      return true;
    }
    return sums.totalHere() == 0 && sums.totalThere() > formatPower * sums.frames * ABOVE_FLOOR;
  }

  private boolean onlyATail(Segment segment) {
    if (segment.seconds() < 2 * TAIL_SECONDS) {
      return false;
    }
    double here = 0;
    double left = 0;
    int frames = 0;
    double early = 0;
    for (int f = 0; f < pass.frameCount; f++) {
      if (!pass.inside(f, segment)) {
        continue;
      }
      double rest =
          Math.max(0, pass.here[f] - 2 * gain * pass.product[f] + gain * gain * pass.there[f]);
      rest = rest < 1e-13 * pass.here[f] ? 0 : rest;
      if (pass.startSeconds(f) < segment.from() + TAIL_SECONDS) {
        early += rest;
      } else {
        here += pass.here[f];
        left += rest;
        frames++;
      }
    }
    return early > 0 && left <= ABOVE_FLOOR * (relativeLeft * here + formatPower * frames);
  }

  /**
   * Verdicts where nothing nulls, from levels of bands.
   *
   * @param compared each segment's sums, the other bounce already at this one's level
   * @param explained whether a named cause (codec, limiter) makes left-over normal
   */
  List<Difference> byLevels(List<BandSums> compared, boolean explained) {
    int n = compared.size();
    int bands = pass.bands.count();
    double[][] moved = new double[n][bands];
    double[][] carried = new double[n][bands];
    double[] common = new double[bands];
    double[] scatter = new double[bands];
    for (int b = 0; b < bands; b++) {
      for (int s = 0; s < n; s++) {
        boolean counts = inPlay(compared.get(s), b);
        moved[s][b] = counts ? levelChange(compared.get(s), b) : Double.NaN;
        carried[s][b] = counts ? gainDb(compared.get(s), b) : Double.NaN;
      }
      common[b] = median(moved, b);
      scatter[b] = 1.48 * medianDistance(moved, b, common[b]);
      double carriedCommon = median(carried, b);
      for (int s = 0; s < n; s++) {
        carried[s][b] -= carriedCommon;
      }
    }
    double widest = 0;
    for (int b = 0; b < bands; b++) {
      widest = Math.max(widest, inRange(b) ? Math.abs(common[b]) : 0);
    }
    List<Difference> out = new ArrayList<>();
    for (int s = 0; s < n; s++) {
      int clear = 0;
      int slight = 0;
      int small = 0;
      for (int b = 0; b < bands; b++) {
        if (Double.isNaN(moved[s][b])) {
          continue;
        }
        double away = Math.abs(moved[s][b] - common[b]);
        double usual = Math.max(scatter[b], 0.05) * SCATTERS;
        clear += away > Math.max(CLEAR_DB, usual) ? 1 : 0;
        slight += away > Math.max(SLIGHT_DB, usual) ? 1 : 0;
        boolean both =
            carried[s][b] / (moved[s][b] - common[b]) > AGREE
                && away > Math.max(SMALL_DB, SCATTERS * Math.max(scatter[b], LEAST_SCATTER_DB));
        small += both ? 1 : 0;
      }
      if (clear >= 2 || small >= 2) {
        out.add(Difference.CHANGED);
      } else if (!explained && levelsMoved(compared.get(s))) {
        out.add(Difference.CHANGED);
      } else if (slight >= 2 || clear == 1 || small == 1 || widest > COMMON_DB || !explained) {
        out.add(Difference.UNCERTAIN);
      } else {
        out.add(Difference.UNCHANGED);
      }
    }
    return out;
  }

  /**
   * Whether the levels moved by more than what is left over can do by chance: a part turned up or
   * down adds to the level in proportion, a modulation that runs differently does not. More than
   * modulation leaves over is a change by itself, where time is settled.
   */
  private boolean levelsMoved(BandSums sums) {
    double moved = 0;
    double left = 0;
    for (int b = 0; b < sums.here.length; b++) {
      moved += inRange(b) ? Math.abs(sums.here[b] - sums.there[b]) : 0;
      left += inRange(b) ? sums.left(b, 1) : 0;
    }
    boolean far = placed && left > FAR_LEFT * sums.totalHere();
    return far || (left > 0 && moved > LEVELS_OVER_LEFT * left);
  }

  private boolean inRange(int band) {
    double hz = pass.bands.nominalHz(band);
    return hz >= LOWEST_HZ && hz <= HIGHEST_HZ;
  }

  private boolean inPlay(BandSums sums, int b) {
    return inRange(b) && sums.here[b] > BAND_IN_PLAY * strongest(sums.here) && sums.there[b] > 0;
  }

  private static double levelChange(BandSums sums, int b) {
    return 10 * Math.log10(sums.here[b] / sums.there[b]);
  }

  private static double strongest(double[] values) {
    return Arrays.stream(values).max().orElse(0);
  }

  /** Level of what the two share, here over there; NaN where they share nothing. */
  private static double gainDb(BandSums sums, int b) {
    return 20 * Math.log10(sums.product[b] / sums.there[b]);
  }

  /** The middle of a band's values over the segments that have one; 0 where none has. */
  private static double median(double[][] values, int b) {
    return middle(Arrays.stream(values).mapToDouble(v -> v[b]));
  }

  private static double medianDistance(double[][] values, int b, double from) {
    return middle(Arrays.stream(values).mapToDouble(v -> Math.abs(v[b] - from)));
  }

  private static double middle(DoubleStream values) {
    double[] sorted = values.filter(v -> !Double.isNaN(v)).sorted().toArray();
    int n = sorted.length;
    if (n == 0) {
      return 0;
    }
    return n % 2 == 1 ? sorted[n / 2] : (sorted[n / 2 - 1] + sorted[n / 2]) / 2;
  }
}
