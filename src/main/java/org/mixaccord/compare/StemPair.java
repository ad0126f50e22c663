package org.mixaccord.compare;

import java.io.IOException;
import java.util.Arrays;
import java.util.List;
import java.util.OptionalDouble;
import org.jtransforms.fft.DoubleFFT_1D;
import org.mixaccord.audio.PcmSource;

/**
 * One part with a stem of both bounces: energies of both and their product on a grid of 50 ms, so
 * that any stretch is a difference of running sums.
 */
final class StemPair {
  private static final double GRID_SECONDS = 0.05;

  /** Mean square under which a part does not sound (−75 dB). */
  private static final double SOUNDS = 3e-8;

  /** A part this far under what it was is gone (−45 dB). */
  private static final double GONE = 3e-5;

  private static final double LATE_BELOW = 0.97;

  /** A part that is itself, only late, correlates at least this well at its lag. */
  private static final double SAME_TAKE = 0.8;

  private static final double LONGEST_LAG_SECONDS = 0.25;

  private final String element;
  private final PcmSource here;
  private final PcmSource there;
  private final int step;
  private final long frames;

  /** Rows: here left, right; there left, right; product left, right; running sums. */
  private final double[][] sums;

  private StemPair(
      String element, PcmSource here, PcmSource there, int step, long frames, double[][] sums) {
    this.element = element;
    this.here = here;
    this.there = there;
    this.step = step;
    this.frames = frames;
    this.sums = sums;
  }

  static StemPair of(String element, PcmSource here, PcmSource there, long bounceFrames)
      throws IOException {
    int step = (int) Math.max(1, Math.round(here.sampleRate() * GRID_SECONDS));
    long frames = Math.min(bounceFrames, Math.max(here.frames(), there.frames()));
    double[][] sums = new double[6][(int) (frames / step) + 1];
    double[][] x = new double[here.channels()][step];
    double[][] y = new double[there.channels()][step];
    for (int g = 0; g + 1 < sums[0].length; g++) {
      long at = (long) g * step;
      read(here, at, x, step);
      read(there, at, y, step);
      for (int side = 0; side < 2; side++) {
        double[] a = x[Math.min(side, x.length - 1)];
        double[] b = y[Math.min(side, y.length - 1)];
        double aa = 0;
        double bb = 0;
        double ab = 0;
        for (int i = 0; i < step; i++) {
          aa += a[i] * a[i];
          bb += b[i] * b[i];
          ab += a[i] * b[i];
        }
        sums[side][g + 1] = sums[side][g] + aa;
        sums[2 + side][g + 1] = sums[2 + side][g] + bb;
        sums[4 + side][g + 1] = sums[4 + side][g] + ab;
      }
    }
    return new StemPair(element, here, there, step, frames, sums);
  }

  /** Energy of the part here over its whole length. */
  double energyHere() {
    return sums[0][sums[0].length - 1] + sums[1][sums[1].length - 1];
  }

  /** Energy of the part in the other bounce, over what is in both. */
  double energyThere() {
    return sums[2][sums[2].length - 1] + sums[3][sums[3].length - 1];
  }

  /**
   * What the part did between two times here.
   *
   * @param onTheBusDb overall level set behind the parts' files, added to the part's own
   */
  List<Comparison.ElementDifference> in(double from, double to, double onTheBusDb)
      throws IOException {
    int a = (int) Math.ceil((from + 0.02) * here.sampleRate() / step);
    int b = (int) Math.floor((to - 0.02) * here.sampleRate() / step);
    b = Math.min(b, sums[0].length - 1);
    a = Math.min(a, b);
    double[] s = new double[6];
    for (int i = 0; i < 6 && b > a; i++) {
      s[i] = (sums[i][b] - sums[i][a]) / ((double) (b - a) * step * 2);
    }
    double powerHere = s[0] + s[1];
    double powerThere = s[2] + s[3];
    boolean present = powerHere > SOUNDS && powerHere > GONE * powerThere;
    if (!present || powerThere <= SOUNDS) {
      OptionalDouble none = OptionalDouble.empty();
      return List.of(
          new Comparison.ElementDifference(
              element, none, none, none, none, none, present, powerThere > SOUNDS));
    }
    double gainDb = 10 * Math.log10(powerHere / powerThere);
    double[] sideGain = {ratio(s[4], s[2]), ratio(s[5], s[3])};
    double rest = 0;
    double moved = 0;
    for (int side = 0; side < 2; side++) {
      double g = sideGain[side];
      rest += Math.max(0, s[side] - 2 * g * s[4 + side] + g * g * s[2 + side]);
      moved += Math.max(0, s[side] - 2 * s[4 + side] + s[2 + side]);
    }
    double coherence = Math.max(0, 1 - rest / powerHere);
    OptionalDouble lag = coherence < LATE_BELOW ? lag(a, b) : OptionalDouble.of(0);
    boolean late = lag.orElse(0) != 0;
    double explained = moved > 1e-12 * powerHere ? Math.max(0, 1 - rest / moved) : 1;
    return List.of(
        new Comparison.ElementDifference(
            element,
            OptionalDouble.of(gainDb + onTheBusDb),
            OptionalDouble.of(plusMinus(rest / powerHere, (double) (b - a) * step)),
            OptionalDouble.of(late ? 1 : explained),
            OptionalDouble.of(pan(s[0], s[1]) - pan(s[2], s[3])),
            lag,
            true,
            true));
  }

  /** Two standard errors of a level ratio when part of it is unrelated; never under 0.01 dB. */
  private static double plusMinus(double unrelated, double frames) {
    double independent = Math.max(1, frames / 16);
    return Math.max(0.01, 8.7 * 2 * Math.sqrt(unrelated / independent));
  }

  /** Place between the loudspeakers, −1 to 1, from the levels by the sine and cosine law. */
  static double pan(double left, double right) {
    return Math.atan2(Math.sqrt(right), Math.sqrt(left)) * 4 / Math.PI - 1;
  }

  private static double ratio(double of, double to) {
    return to > 0 ? of / to : 0;
  }

  /**
   * Seconds by which the part comes later here, at the loudest place of the stretch; empty when it
   * does not match itself at any lag (another take, another sound).
   */
  private OptionalDouble lag(int a, int b) throws IOException {
    int size = 1 << 16;
    int cells = Math.max(1, size / step);
    int loudest = a;
    double most = -1;
    for (int g = a; g + cells <= b; g++) {
      double power = sums[2][g + cells] - sums[2][g] + sums[3][g + cells] - sums[3][g];
      if (power > most) {
        most = power;
        loudest = g;
      }
    }
    int count = (int) Math.min(size, Math.min((long) (b - a) * step, frames));
    double[] x = mono(here, (long) loudest * step, count, 2 * size);
    double[] y = mono(there, (long) loudest * step, count, 2 * size);
    double[] hereSamples = x.clone();
    double[] thereSamples = y.clone();
    DoubleFFT_1D fft = new DoubleFFT_1D(x.length);
    fft.realForward(x);
    fft.realForward(y);
    x[0] = 0;
    x[1] = 0;
    for (int k = 1; k < size; k++) {
      double re = x[2 * k] * y[2 * k] + x[2 * k + 1] * y[2 * k + 1];
      double im = x[2 * k + 1] * y[2 * k] - x[2 * k] * y[2 * k + 1];
      double weight = Math.sqrt(Math.hypot(re, im));
      x[2 * k] = weight > 0 ? re / weight : 0;
      x[2 * k + 1] = weight > 0 ? im / weight : 0;
    }
    fft.realInverse(x, true);
    int reach = (int) (LONGEST_LAG_SECONDS * here.sampleRate());
    int best = 0;
    for (int lag = -reach; lag <= reach; lag++) {
      if (x[Math.floorMod(lag, x.length)] > x[Math.floorMod(best, x.length)]) {
        best = lag;
      }
    }
    boolean matches = likeness(hereSamples, thereSamples, best, size) >= SAME_TAKE;
    return matches ? OptionalDouble.of(best / (double) here.sampleRate()) : OptionalDouble.empty();
  }

  /** Correlation of two stretches, the second one moved later, 0 to 1. */
  private static double likeness(double[] x, double[] y, int lag, int size) {
    double xy = 0;
    double xx = 0;
    double yy = 0;
    for (int i = Math.max(0, lag); i < Math.min(size, size + lag); i++) {
      xy += x[i] * y[i - lag];
      xx += x[i] * x[i];
      yy += y[i - lag] * y[i - lag];
    }
    return xx > 0 && yy > 0 ? xy / Math.sqrt(xx * yy) : 0;
  }

  private static double[] mono(PcmSource pcm, long at, int count, int length) throws IOException {
    double[][] block = new double[pcm.channels()][count];
    read(pcm, at, block, count);
    double[] out = new double[length];
    for (double[] channel : block) {
      for (int i = 0; i < count; i++) {
        out[i] += channel[i];
      }
    }
    return out;
  }

  /** Reads frames of which some may lie past the end; those are silent. */
  static void read(PcmSource pcm, long at, double[][] into, int count) throws IOException {
    int inside = (int) Math.max(0, Math.min(count, pcm.frames() - at));
    if (inside > 0) {
      pcm.read(at, into, inside);
    }
    for (double[] channel : into) {
      Arrays.fill(channel, inside, count, 0);
    }
  }
}
