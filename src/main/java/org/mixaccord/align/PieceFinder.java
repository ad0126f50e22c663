package org.mixaccord.align;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * Finds which stretches of two reduced bounces run together, and at which offset.
 *
 * <p>Every candidate offset is followed through the whole bounce. The cheapest path over the
 * windows (dynamic programming) then picks, at each moment, one of them or none: the cost of a
 * window is the logarithm of what is left over at that offset, and every change of offset costs
 * extra, so that music which repeats itself exactly stays with the offset its neighbours have.
 */
final class PieceFinder {
  /** Left-over power, log10, from which the search for still better offsets stops. */
  private static final double GOOD_ENOUGH = -3.0;

  private static final double LEAST_LEFT_OVER = 1e-5;

  /** What "nothing fits" costs a window: as much as a correlation of 0.35. */
  private static final double NOTHING = Math.log10(1 - 0.35 * 0.35);

  private static final double CHANGE = 0.9;
  private static final double TO_NOTHING = 0.5;

  /** A window this far below the bounce's mean power says nothing. */
  static final double QUIET = 1e-7;

  /** An offset that fits this well throughout is not left for a better one and come back to. */
  private static final double STAYS = 0.7;

  private static final double LEAST_PIECE_SECONDS = 1.0;
  private static final double LEAST_FIT = 0.3;
  private static final double LEAST_SHORT_FIT = 0.6;

  private PieceFinder() {}

  /**
   * A stretch found.
   *
   * @param from first sample of the low rate on this bounce
   * @param to the sample after the last one
   * @param lagAtStart lag at sample 0 of this bounce, in samples of the low rate
   * @param lagPerSample by how much the lag grows a sample
   * @param fit root mean square of the windows' correlations, 0 to 1
   * @param sign +1 or −1
   */
  record Found(int from, int to, double lagAtStart, double lagPerSample, double fit, int sign) {
    double lagAt(double sample) {
      return lagAtStart + lagPerSample * sample;
    }

    Found between(int a, int b) {
      return new Found(a, b, lagAtStart, lagPerSample, fit, sign);
    }
  }

  static List<Found> find(LowRate here, LowRate there, List<Integer> candidateLags) {
    double quiet = quiet(here, there);
    List<Track> tracks = tracks(here, there, candidateLags, quiet);
    if (tracks.isEmpty()) {
      return List.of();
    }
    int[] path =
        LatePart.settled(here, there, withoutDetours(cheapestPath(tracks), tracks), tracks);
    List<Found> runs = runs(here, tracks, path);
    return EditPoints.refine(here, there, runs, quiet);
  }

  static double quiet(LowRate here, LowRate there) {
    double power =
        Math.min(
            here.power(0, here.samples.length), there.power(0, Math.max(1, there.samples.length)));
    return Math.max(1e-14, power * QUIET);
  }

  private static List<Track> tracks(
      LowRate here, LowRate there, List<Integer> candidateLags, double quiet) {
    List<Track> tracks = new ArrayList<>();
    for (int lag : candidateLags) {
      if (tracks.stream().anyMatch(t -> passesNear(t, lag))) {
        continue;
      }
      Track track = Track.follow(here, there, lag, quiet);
      if (track.bestFit() >= 0.35) {
        tracks.add(track);
        if (allExplained(tracks)) {
          break;
        }
      }
    }
    return tracks;
  }

  private static boolean passesNear(Track track, int lag) {
    for (int w = 0; w < track.lags.length; w++) {
      if (Math.abs(track.fits[w]) > 0.5 && Math.abs(track.lags[w] - lag) < Track.REACH) {
        return true;
      }
    }
    return false;
  }

  private static boolean allExplained(List<Track> tracks) {
    for (int w = 0; w < tracks.get(0).lags.length; w++) {
      double best = 0;
      for (Track track : tracks) {
        best = track.silentAt(w) ? GOOD_ENOUGH : Math.min(best, cost(track, w));
      }
      if (best > GOOD_ENOUGH) {
        return false;
      }
    }
    return true;
  }

  static double cost(Track track, int w) {
    if (track.silentAt(w)) {
      return NOTHING - 0.01;
    }
    return Math.log10(Math.max(LEAST_LEFT_OVER, 1 - track.fits[w] * track.fits[w]));
  }

  /** Index of the track chosen in every window; {@code tracks.size()} stands for none. */
  private static int[] cheapestPath(List<Track> tracks) {
    int none = tracks.size();
    int windows = tracks.get(0).lags.length;
    double[] total = new double[none + 1];
    int[][] cameFrom = new int[windows][none + 1];
    for (int w = 0; w < windows; w++) {
      double[] next = new double[none + 1];
      for (int s = 0; s <= none; s++) {
        double best = Double.POSITIVE_INFINITY;
        for (int f = 0; f <= none && w > 0; f++) {
          double step = f == s ? 0 : f == none || s == none ? TO_NOTHING : CHANGE;
          if (total[f] + step < best) {
            best = total[f] + step;
            cameFrom[w][s] = f;
          }
        }
        next[s] = (w > 0 ? best : 0) + (s == none ? NOTHING : cost(tracks.get(s), w));
      }
      total = next;
    }
    int[] path = new int[windows];
    int state = 0;
    for (int s = 1; s <= none; s++) {
      state = total[s] < total[state] ? s : state;
    }
    for (int w = windows - 1; w >= 0; w--) {
      path[w] = state;
      state = cameFrom[w][state];
    }
    return path;
  }

  /**
   * Where a path leaves an offset and comes back to it although that offset fits well all the while
   * (a repeated passage in which a part was muted fits its copy better still), it stays.
   */
  private static int[] withoutDetours(int[] path, List<Track> tracks) {
    int[] out = path.clone();
    for (int start = 0; start < out.length; start++) {
      int track = out[start];
      if (track == tracks.size()) {
        continue;
      }
      int back = out.length - 1;
      while (back > start && out[back] != track) {
        back--;
      }
      if (back > start + 1 && holds(tracks.get(track), start, back)) {
        Arrays.fill(out, start, back, track);
      }
    }
    return out;
  }

  private static boolean holds(Track track, int from, int to) {
    double worst = 1;
    for (int w = from; w < to; w++) {
      worst = track.silentAt(w) ? worst : Math.min(worst, Math.abs(track.fits[w]));
    }
    return worst >= STAYS;
  }

  private static List<Found> runs(LowRate here, List<Track> tracks, int[] path) {
    List<Found> runs = new ArrayList<>();
    int[] bridged = bridge(path, tracks.size());
    int start = 0;
    for (int w = 1; w <= bridged.length; w++) {
      if (w < bridged.length && bridged[w] == bridged[start]) {
        continue;
      }
      if (bridged[start] < tracks.size()) {
        Found run = run(here, tracks.get(bridged[start]), start, w, bridged.length);
        double seconds = (run.to() - run.from()) / (double) LowRate.RATE;
        boolean shortOne = seconds < 4;
        if (seconds >= LEAST_PIECE_SECONDS
            && run.fit() >= (shortOne ? LEAST_SHORT_FIT : LEAST_FIT)) {
          runs.add(run);
        }
      }
      start = w;
    }
    return runs;
  }

  /** Where nothing fits between two stretches of one track, the music was replaced in place. */
  private static int[] bridge(int[] path, int none) {
    int[] out = path.clone();
    int last = -1;
    for (int w = 0; w < out.length; w++) {
      if (out[w] == none) {
        continue;
      }
      if (last >= 0 && out[last] == out[w]) {
        Arrays.fill(out, last, w, out[w]);
      }
      last = w;
    }
    return out;
  }

  /** Windows overlap by half, so a run owns the middle of each and all of the first and last. */
  private static Found run(LowRate here, Track track, int start, int end, int windows) {
    int from = start == 0 ? 0 : start * Track.HOP + Track.HOP / 2;
    int to =
        end == windows
            ? here.samples.length
            : Math.min(here.samples.length, end * Track.HOP + Track.HOP / 2);
    List<double[]> points = new ArrayList<>();
    double sum = 0;
    double signs = 0;
    int heard = 0;
    for (int w = start; w < end; w++) {
      if (track.silentAt(w)) {
        continue;
      }
      heard++;
      sum += track.fits[w] * track.fits[w];
      signs += track.fits[w];
      if (Math.abs(track.fits[w]) >= 0.5) {
        points.add(new double[] {w * Track.HOP + Track.WINDOW / 2.0, track.lags[w]});
      }
    }
    double lag = track.lags[(start + end) / 2];
    RobustLine line = points.isEmpty() ? new RobustLine(lag, 0, 0) : RobustLine.through(points);
    // A slope under two samples over the whole run is the low rate's own rounding.
    boolean flat = Math.abs(line.slope()) * (to - from) < 2;
    double level =
        points.isEmpty() ? lag : RobustLine.median(points.stream().mapToDouble(p -> p[1]));
    return new Found(
        from,
        to,
        flat ? level : line.intercept(),
        flat ? 0 : line.slope(),
        heard == 0 ? 0 : Math.sqrt(sum / heard),
        signs < 0 ? -1 : 1);
  }
}
