package org.mixaccord.align;

import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.stream.IntStream;
import org.jtransforms.fft.FloatFFT_1D;

/**
 * Tells a part that comes early or late throughout, and plays alone in one stretch, from an edit.
 *
 * <p>Where such a part plays with the others, taking one bounce from the other at the others'
 * offset leaves the part once at its old and once, negative, at its new place. What is left over is
 * therefore least like itself at exactly the lag between the two; after an edit it is not.
 */
final class PartEcho {
  /** Windows with the most left over, this many, are looked at; they do not overlap. */
  private static final int MOST_WINDOWS = 16;

  /** The offset holds in a window from this correlation on. */
  private static final double HOLDS = 0.5;

  /** Less left over than this, of the power, is rounding. */
  private static final double LEAST_LEFT = 1e-3;

  /**
   * How unlike itself what is left over has to be at the lag, whitened: a drum alone shows −0.25,
   * chords −0.1.
   */
  private static final double UNLIKE = -0.08;

  /** Fewer windows are the seam between two stretches. */
  private static final int LEAST_WINDOWS = 4;

  /** The lag may be off by this much, samples of the low rate. */
  private static final int NEAR = 2;

  /** Lags nearer than this are the sound's own shape (2 ms). */
  private static final int NEAREST = LowRate.RATE / 500;

  private static final int TAPS = 16;
  private static final int SIZE = FastSizes.atLeast(2 * Track.WINDOW);
  private static final double WHITENED = 0.5;

  private PartEcho() {}

  /**
   * Whether what is left over between two bounces at a track's offset holds one part twice, the
   * given lag apart.
   *
   * @param track the offset of the rest of the music
   * @param from first window looked at
   * @param to the window after the last one
   * @param lag of the part against the rest, samples of the low rate; within a window
   */
  static boolean heard(LowRate here, LowRate there, Track track, int from, int to, double lag) {
    int distance = (int) Math.rint(Math.abs(lag));
    int farthest = Track.WINDOW / 4;
    if (distance < NEAREST || distance > farthest - 2) {
      return false;
    }
    List<Integer> windows =
        IntStream.range(from, to)
            .filter(w -> !track.silentAt(w) && Math.abs(track.fits[w]) >= HOLDS)
            .filter(w -> (w - from) % 2 == 0 && 1 - square(track.fits[w]) > LEAST_LEFT)
            .boxed()
            .sorted(Comparator.comparingDouble(w -> -left(here, track, w)))
            .limit(MOST_WINDOWS)
            .toList();
    if (windows.size() < LEAST_WINDOWS) {
      return false;
    }
    FloatFFT_1D fft = new FloatFFT_1D(SIZE);
    double[] likeness = new double[farthest];
    for (int w : windows) {
      add(fft, leftOver(here, there, track, w), likeness);
    }
    int least = NEAREST;
    for (int k = NEAREST; k < farthest; k++) {
      least = likeness[k] < likeness[least] ? k : least;
    }
    return likeness[least] < UNLIKE * likeness[0] && Math.abs(least - distance) <= NEAR;
  }

  private static double left(LowRate here, Track track, int w) {
    return here.power(w * Track.HOP, Track.WINDOW) * (1 - square(track.fits[w]));
  }

  private static double square(double x) {
    return x * x;
  }

  /** One bounce less the other, matched in level, over one window. */
  private static float[] leftOver(LowRate here, LowRate there, Track track, int w) {
    int start = w * Track.HOP;
    int count = Math.min(Track.WINDOW, here.samples.length - start);
    double[] other = shifted(there, start + track.lags[w], count);
    double cross = 0;
    double power = 0;
    for (int i = 0; i < count; i++) {
      cross += here.samples[start + i] * other[i];
      power += square(other[i]);
    }
    double gain = power > 0 ? cross / power : 0;
    float[] left = new float[count];
    for (int i = 0; i < count; i++) {
      left[i] = (float) (here.samples[start + i] - gain * other[i]);
    }
    return left;
  }

  private static double[] shifted(LowRate there, double from, int count) {
    int base = (int) Math.floor(from);
    double[] taps = new double[TAPS];
    for (int k = 0; k < TAPS; k++) {
      taps[k] = Sinc.lowPass(k - (TAPS / 2 - 1) - (from - base), 0.5, TAPS / 2.0);
    }
    double[] near = new double[count + TAPS];
    for (int i = 0; i < near.length; i++) {
      int at = base - (TAPS / 2 - 1) + i;
      near[i] = at >= 0 && at < there.samples.length ? there.samples[at] : 0;
    }
    double[] out = new double[count];
    for (int i = 0; i < count; i++) {
      out[i] = Sinc.sum(taps, near, i);
    }
    return out;
  }

  /**
   * Adds how like itself a stretch is at each lag, its spectrum partly whitened: a chord would
   * otherwise be unlike itself at lags of its own.
   */
  private static void add(FloatFFT_1D fft, float[] left, double[] likeness) {
    float[] x = Arrays.copyOf(left, SIZE);
    fft.realForward(x);
    x[0] = 0;
    x[1] = 0;
    for (int k = 1; k < SIZE / 2; k++) {
      double power = (double) x[2 * k] * x[2 * k] + (double) x[2 * k + 1] * x[2 * k + 1];
      x[2 * k] = (float) Math.pow(power, WHITENED);
      x[2 * k + 1] = 0;
    }
    fft.realInverse(x, true);
    for (int k = 0; k < likeness.length; k++) {
      likeness[k] += x[k];
    }
  }
}
