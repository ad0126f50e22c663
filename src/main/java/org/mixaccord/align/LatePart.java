package org.mixaccord.align;

import java.util.Arrays;
import java.util.List;

/**
 * Keeps one part that comes a little earlier or later from being taken for an edit.
 *
 * <p>Where a loud part moved by some milliseconds, the mix fits best at the part's offset while the
 * part plays, and at the old one elsewhere. An edit looks different: on either side of it the music
 * fits nearly perfectly at its own offset, and not at the neighbour's.
 */
final class LatePart {
  /** Parts are moved by less than this; farther apart, two offsets are two places. */
  private static final int FARTHEST = LowRate.RATE / 4;

  /** Left over, log10, from which a stretch fits its own offset as only an edit does. */
  private static final double FITS = -1.2;

  /** A stretch fits its neighbour's offset too when this much of it correlates (median). */
  private static final double LEAST_SHARED = 0.3;

  private LatePart() {}

  /** The path with stretches at a part's offset laid at the offset of the rest of the music. */
  static int[] settled(LowRate here, LowRate there, int[] path, List<Track> tracks) {
    int[] out = path.clone();
    boolean moved = true;
    while (moved) {
      moved = false;
      for (int w = 1; w < out.length && !moved; w++) {
        boolean jump = out[w] != out[w - 1] && Math.max(out[w], out[w - 1]) < tracks.size();
        moved = jump && join(here, there, out, w, tracks);
      }
    }
    return out;
  }

  private static boolean join(LowRate here, LowRate there, int[] path, int at, List<Track> tracks) {
    Track left = tracks.get(path[at - 1]);
    Track right = tracks.get(path[at]);
    if (Math.abs(left.lags[at - 1] - right.lags[at]) > FARTHEST) {
      return false;
    }
    int start = at - 1;
    while (start > 0 && path[start - 1] == path[at - 1]) {
      start--;
    }
    int end = at;
    while (end < path.length && path[end] == path[at]) {
      end++;
    }
    // A part that plays alone in one of the two stretches is left over twice in the other.
    double lag = left.lags[at - 1] - right.lags[at];
    boolean leftGives = PartEcho.heard(here, there, right, at, end, lag);
    boolean rightGives = PartEcho.heard(here, there, left, start, at, lag);
    if (!leftGives && !rightGives) {
      leftGives = shares(left, right, start, at);
      rightGives = shares(right, left, at, end);
    }
    if (leftGives && rightGives) {
      // Either could be the part: the rest of the music is what fits better over both.
      leftGives = cost(right, start, end) < cost(left, start, end);
      rightGives = !leftGives;
    }
    if (leftGives) {
      Arrays.fill(path, start, at, path[at]);
    } else if (rightGives) {
      Arrays.fill(path, at, end, path[at - 1]);
    }
    return leftGives || rightGives;
  }

  /** Whether a stretch fits its own offset badly enough, and another's well enough, to move. */
  private static boolean shares(Track own, Track other, int from, int to) {
    double[] fits = new double[to - from];
    double sum = 0;
    int heard = 0;
    for (int w = from; w < to; w++) {
      if (!own.silentAt(w)) {
        sum += PieceFinder.cost(own, w);
        fits[heard++] = Math.abs(other.fits[w]);
      }
    }
    if (heard == 0) {
      return true;
    }
    Arrays.sort(fits, 0, heard);
    return sum / heard > FITS && fits[heard / 2] >= LEAST_SHARED;
  }

  private static double cost(Track track, int from, int to) {
    double sum = 0;
    for (int w = from; w < to; w++) {
      sum += PieceFinder.cost(track, w);
    }
    return sum;
  }
}
