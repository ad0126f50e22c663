package org.mixaccord.align;

import java.util.ArrayList;
import java.util.List;

/**
 * Moves the ends of found stretches from the nearest window to the nearest few milliseconds.
 *
 * <p>Around an end both sides are judged in frames of 5 ms by what is left over at each offset; the
 * end is where the sum of the two sides is least. Between two offsets it is then settled to the
 * sample of the low rate on the squared left-over itself.
 */
final class EditPoints {
  private static final int FRAME = LowRate.RATE / 200;

  /** How far from the window's guess an end may lie. */
  private static final int SEARCH = LowRate.RATE * 3 / 2;

  private static final double LEAST_LEFT_OVER = 1e-5;

  /** A frame is silent, for an end, already at the level of a fade's last moments. */
  private static final double FADED = 100;

  private final LowRate here;
  private final LowRate there;
  private final double quiet;

  private EditPoints(LowRate here, LowRate there, double quiet) {
    this.here = here;
    this.there = there;
    this.quiet = quiet;
  }

  static List<PieceFinder.Found> refine(
      LowRate here, LowRate there, List<PieceFinder.Found> runs, double quiet) {
    EditPoints points = new EditPoints(here, there, quiet * FADED);
    int[] from = new int[runs.size()];
    int[] to = new int[runs.size()];
    for (int i = 0; i < runs.size(); i++) {
      PieceFinder.Found run = runs.get(i);
      from[i] = run.from();
      to[i] = run.to();
    }
    for (int i = 0; i <= runs.size(); i++) {
      PieceFinder.Found left = i > 0 ? runs.get(i - 1) : null;
      PieceFinder.Found right = i < runs.size() ? runs.get(i) : null;
      boolean touch = left != null && right != null && right.from() - left.to() <= Track.WINDOW;
      if (touch) {
        int at = points.between(left, right);
        to[i - 1] = at;
        from[i] = at;
        continue;
      }
      if (left != null) {
        to[i - 1] = points.end(left);
      }
      if (right != null) {
        from[i] = points.start(right);
      }
    }
    List<PieceFinder.Found> out = new ArrayList<>();
    for (int i = 0; i < runs.size(); i++) {
      PieceFinder.Found run = runs.get(i);
      int a = Math.max(from[i], (int) Math.ceil(-run.lagAt(from[i]) - 1e-6));
      int b = Math.min(to[i], (int) Math.floor(there.samples.length - run.lagAt(to[i]) + 1e-6));
      if (b - a >= LowRate.RATE / 5) {
        out.add(run.between(Math.max(0, a), Math.min(here.samples.length, b)));
      }
    }
    return out;
  }

  private int between(PieceFinder.Found left, PieceFinder.Found right) {
    int centre = (left.to() + right.from()) / 2;
    int a = Math.max(left.from(), centre - SEARCH);
    int b = Math.min(right.to(), centre + SEARCH);
    double[] leftRest = rest(left, a, b);
    double[] rightRest = rest(right, a, b);
    int frames = (b - a) / FRAME;
    double sum = 0;
    for (int f = 0; f < frames; f++) {
      sum += cost(rightRest, a, f);
    }
    double best = sum;
    int bestFrame = 0;
    for (int f = 0; f < frames; f++) {
      sum += cost(leftRest, a, f) - cost(rightRest, a, f);
      if (sum < best - 1e-9) {
        best = sum;
        bestFrame = f + 1;
      }
    }
    return settle(leftRest, rightRest, a, bestFrame * FRAME);
  }

  /** The sample near a frame at which changing over leaves least. */
  private int settle(double[] leftRest, double[] rightRest, int a, int near) {
    int from = Math.max(0, near - 2 * FRAME);
    int to = Math.min(leftRest.length, near + 2 * FRAME);
    double sum = 0;
    double best = 0;
    int at = from;
    for (int i = from; i < to; i++) {
      sum += leftRest[i] * leftRest[i] - rightRest[i] * rightRest[i];
      if (sum < best) {
        best = sum;
        at = i + 1;
      }
    }
    return a + at;
  }

  private int end(PieceFinder.Found run) {
    int a = Math.max(run.from(), run.to() - SEARCH);
    int b = Math.min(here.samples.length, run.to() + SEARCH);
    double[] rest = rest(run, a, b);
    double nothing = nothing(run);
    double sum = 0;
    double best = 0;
    int at = a;
    for (int f = 0; f < (b - a) / FRAME; f++) {
      sum += cost(rest, a, f) - nothing;
      if (sum <= best) {
        best = sum;
        at = a + (f + 1) * FRAME;
      }
    }
    return b - at < FRAME ? b : at;
  }

  private int start(PieceFinder.Found run) {
    int a = Math.max(0, run.from() - SEARCH);
    int b = Math.min(run.to(), run.from() + SEARCH);
    double[] rest = rest(run, a, b);
    double nothing = nothing(run);
    double sum = 0;
    double best = 0;
    int at = b;
    for (int f = (b - a) / FRAME - 1; f >= 0; f--) {
      sum += cost(rest, a, f) - nothing;
      if (sum <= best) {
        best = sum;
        at = a + f * FRAME;
      }
    }
    return at - a < FRAME ? a : at;
  }

  /** Half-way, in the logarithm, between what the run leaves over and nothing fitting. */
  private static double nothing(PieceFinder.Found run) {
    return Math.log10(Math.max(1e-4, 1 - run.fit() * run.fit())) / 2 - 0.02;
  }

  private double cost(double[] rest, int a, int frame) {
    double left = 0;
    for (int i = frame * FRAME; i < (frame + 1) * FRAME; i++) {
      left += rest[i] * rest[i];
    }
    double whole = here.power(a + frame * FRAME, FRAME) * FRAME;
    if (whole < quiet * FRAME && left < quiet * FRAME) {
      return Math.log10(LEAST_LEFT_OVER); // silence in both is as good a match as any
    }
    return Math.log10(Math.min(2, Math.max(LEAST_LEFT_OVER, left / Math.max(whole, 1e-30))));
  }

  /** Here minus there at the run's offset and at the level that leaves least over the stretch. */
  private double[] rest(PieceFinder.Found run, int a, int b) {
    double[] other = new double[b - a];
    int half = 8;
    double[] taps = new double[2 * half];
    double lastFraction = Double.NaN;
    for (int i = a; i < b; i++) {
      double at = i + run.lagAt(i);
      int base = (int) Math.floor(at);
      double fraction = at - base;
      if (!(Math.abs(fraction - lastFraction) < 1e-3)) {
        for (int k = 0; k < taps.length; k++) {
          taps[k] = Sinc.lowPass(k - half + 1 - fraction, 0.5, half);
        }
        lastFraction = fraction;
      }
      double sum = 0;
      for (int k = 0; k < taps.length; k++) {
        int j = base + k - half + 1;
        if (j >= 0 && j < there.samples.length) {
          sum += taps[k] * there.samples[j];
        }
      }
      other[i - a] = sum;
    }
    double gain = gain(run, other, a, b);
    for (int i = a; i < b; i++) {
      other[i - a] = here.samples[i] - gain * other[i - a];
    }
    return other;
  }

  /** Level match over the part of the stretch that surely belongs to the run. */
  private double gain(PieceFinder.Found run, double[] other, int a, int b) {
    int from = Math.max(a, run.from() + Track.HOP);
    int to = Math.min(b, run.to() - Track.HOP);
    if (to - from < Track.HOP) {
      from = a;
      to = b;
    }
    double xy = 0;
    double yy = 0;
    for (int i = from; i < to; i++) {
      xy += here.samples[i] * other[i - a];
      yy += other[i - a] * other[i - a];
    }
    return yy > 0 ? xy / yy : run.sign();
  }
}
