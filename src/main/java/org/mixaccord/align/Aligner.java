package org.mixaccord.align;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import org.mixaccord.audio.PcmSource;

/**
 * Finds how one bounce lies against another: which time is which, polarity, swapped channels.
 *
 * <p>Stretches are found on both bounces reduced to 6 kHz; each stretch's offset is then measured
 * to a small fraction of a frame at full rate in up to 32 places, from which a clock that runs
 * differently shows as a slope. Where nothing fits, the map has no pieces: none is made up.
 */
public final class Aligner {
  /** Wrong rate labels and pull-downs that are tried when nothing fits: true over labelled rate. */
  private static final double[] WRONG_RATES = {
    48000 / 44100.0, 44100 / 48000.0, 1.001, 1 / 1.001, 2, 0.5
  };

  /** Less than this share of the shorter bounce is a chance likeness, not the same song. */
  private static final double LEAST_SHARE = 0.12;

  /** Offsets this near a whole frame at one rate are whole (frames). */
  private static final double SNAP_FRAMES = 0.02;

  /** A slope that moves less than this over the piece is none (frames). */
  private static final double LEAST_DRIFT_FRAMES = 0.08;

  private static final double SIGNIFICANT = 6;

  /** Two pieces this near one line are one. */
  private static final double SAME_LINE_FRAMES = 0.25;

  private Aligner() {}

  /**
   * Aligns two bounces of any rates and lengths. About a second for four minutes of stereo; memory
   * is two copies at 6 kHz, 24 kB a second each, and at most 120 MB of transforms.
   *
   * @param here the bounce whose time line leads
   * @param there the bounce it is laid against
   * @return the alignment; {@link Alignment#matched()} is false when nothing fits (another song,
   *     silence, under about a second of sound)
   * @throws IOException if samples cannot be read
   */
  public static Alignment align(PcmSource here, PcmSource there) throws IOException {
    LowRate low = LowRate.of(here, here.sampleRate());
    Attempt best = attempt(low, there, 1);
    for (int i = 0; i < WRONG_RATES.length && best.share() < LEAST_SHARE; i++) {
      best = attempt(low, there, WRONG_RATES[i]);
    }
    double secondsHere = seconds(here);
    double secondsThere = seconds(there);
    if (best.share() < LEAST_SHARE) {
      return Alignment.none(secondsHere, secondsThere);
    }
    return refined(here, there, best);
  }

  /** What was found with the other bounce taken at some multiple of its labelled rate. */
  private record Attempt(List<PieceFinder.Found> found, double rateFactor, double share) {}

  private static Attempt attempt(LowRate low, PcmSource there, double factor) throws IOException {
    LowRate other = LowRate.of(there, there.sampleRate() * factor);
    List<Integer> lags = new ArrayList<>();
    for (CoarseOffsets.Candidate c : CoarseOffsets.find(low.samples, other.samples)) {
      lags.add(c.lag());
    }
    List<PieceFinder.Found> found = PieceFinder.find(low, other, lags);
    double covered = 0;
    for (PieceFinder.Found piece : found) {
      covered += (piece.to() - piece.from()) / (double) LowRate.RATE;
    }
    double shorter = Math.max(1e-9, Math.min(low.seconds(), other.seconds()));
    return new Attempt(found, factor, covered / shorter);
  }

  private static Alignment refined(PcmSource here, PcmSource there, Attempt best)
      throws IOException {
    double thereRate = there.sampleRate() * best.rateFactor();
    FineOffset fine = new FineOffset(here, there, thereRate);
    List<List<double[]>> points = new ArrayList<>();
    int longest = 0;
    for (int i = 0; i < best.found().size(); i++) {
      points.add(fine.along(best.found().get(i), 1));
      PieceFinder.Found a = best.found().get(i);
      PieceFinder.Found b = best.found().get(longest);
      longest = a.to() - a.from() > b.to() - b.from() ? i : longest;
    }
    double slope = slope(points.get(longest), best.found().get(longest), here.sampleRate());
    for (int round = 0; round < 2 && slope != 0; round++) {
      // A drifting window smears its own peak; measured again on the clock found, it is sharp.
      PieceFinder.Found main = best.found().get(longest);
      points.set(longest, fine.along(on(main, points.get(longest), slope), 1 + slope));
      slope = slope(points.get(longest), main, here.sampleRate());
    }
    for (int i = 0; i < points.size() && slope != 0; i++) {
      PieceFinder.Found found = best.found().get(i);
      points.set(i, fine.along(on(found, points.get(i), slope), 1 + slope));
    }
    boolean sameRate = here.sampleRate() == thereRate;
    List<MapPiece> pieces = new ArrayList<>();
    double lastEnd = 0;
    for (int i = 0; i < best.found().size(); i++) {
      PieceFinder.Found found = best.found().get(i);
      double offset = offsetAtZero(points.get(i), found, slope);
      if (sameRate && slope == 0) {
        double frames = offset * here.sampleRate();
        offset =
            Math.abs(frames - Math.rint(frames)) < SNAP_FRAMES
                ? Math.rint(frames) / here.sampleRate()
                : offset;
      } else if (slope == 0 && Math.abs(offset * here.sampleRate()) < SNAP_FRAMES) {
        offset = 0;
      }
      MapPiece piece = piece(here, there, found, offset, 1 + slope, best.rateFactor(), lastEnd);
      if (piece != null) {
        addOrExtend(pieces, piece, here.sampleRate());
        lastEnd = piece.to();
      }
    }
    return alignment(here, there, best, pieces, slope);
  }

  /** A piece that runs straight on from the one before it is the same piece. */
  private static void addOrExtend(List<MapPiece> pieces, MapPiece piece, int sampleRate) {
    MapPiece last = pieces.isEmpty() ? null : pieces.get(pieces.size() - 1);
    double near = SAME_LINE_FRAMES / sampleRate;
    if (last == null
        || piece.from() - last.to() > near
        || Math.abs(last.toOther(piece.from()) - piece.otherFrom()) > near) {
      pieces.add(piece);
      return;
    }
    double sure =
        (last.sure() * last.seconds() + piece.sure() * piece.seconds())
            / (last.seconds() + piece.seconds());
    pieces.set(
        pieces.size() - 1,
        new MapPiece(
            last.from(), piece.to(), last.otherFrom(), piece.otherTo(), Math.min(1, sure)));
  }

  private static Alignment alignment(
      PcmSource here, PcmSource there, Attempt best, List<MapPiece> pieces, double slope)
      throws IOException {
    TimeMap map = TimeMap.of(pieces, seconds(here), seconds(there));
    if (pieces.isEmpty()) {
      return Alignment.none(seconds(here), seconds(there));
    }
    MapPiece main = map.longest().orElseThrow();
    ChannelMatch channels = ChannelMatch.of(here, there, map);
    double sure = 0;
    double seconds = 0;
    for (MapPiece p : pieces) {
      sure += p.sure() * p.seconds();
      seconds += p.seconds();
    }
    return new Alignment(
        map,
        main.otherFrom() - main.from(),
        slope == 0 && best.rateFactor() == 1 ? 1 : main.speedRatio(),
        channels.polarity(),
        channels.swapped(),
        slope != 0,
        best.rateFactor() != 1,
        sure / seconds);
  }

  /** Seconds by which the offset grows a second; 0 unless it is beyond doubt. */
  private static double slope(List<double[]> points, PieceFinder.Found piece, int sampleRate) {
    if (points.size() < 4) {
      return piece.lagPerSample();
    }
    RobustLine line = RobustLine.through(points);
    double seconds = (piece.to() - piece.from()) / (double) LowRate.RATE;
    boolean large = Math.abs(line.slope()) * seconds * sampleRate > LEAST_DRIFT_FRAMES;
    boolean certain = Math.abs(line.slope()) > SIGNIFICANT * line.slopeError();
    return large && certain ? line.slope() : 0;
  }

  private static PieceFinder.Found on(
      PieceFinder.Found found, List<double[]> points, double slope) {
    double offset = offsetAtZero(points, found, slope);
    return new PieceFinder.Found(
        found.from(), found.to(), offset * LowRate.RATE, slope, found.fit(), found.sign());
  }

  private static double offsetAtZero(List<double[]> points, PieceFinder.Found found, double slope) {
    if (points.isEmpty()) {
      double middle = (found.from() + found.to()) / 2.0;
      return found.lagAt(middle) / LowRate.RATE - slope * middle / LowRate.RATE;
    }
    double median = RobustLine.median(points.stream().mapToDouble(p -> p[1] - slope * p[0]));
    double spread =
        RobustLine.median(points.stream().mapToDouble(p -> Math.abs(p[1] - slope * p[0] - median)));
    return points.stream()
        .mapToDouble(p -> p[1] - slope * p[0])
        .filter(o -> Math.abs(o - median) <= 3 * spread + 1e-9)
        .average()
        .orElse(median);
  }

  /**
   * The piece in labelled seconds, its ends settled on the ends of the bounces where it has them.
   */
  private static MapPiece piece(
      PcmSource here,
      PcmSource there,
      PieceFinder.Found found,
      double offset,
      double growth,
      double rateFactor,
      double lastEnd) {
    double low = LowRate.RATE;
    double from = found.from() / low;
    double to = found.to() / low;
    double thereSeconds = seconds(there) / rateFactor;
    double firstPossible = Math.max(0, -offset / growth);
    double lastPossible = Math.min(seconds(here), (thereSeconds - offset) / growth);
    double edge = 2 / low;
    from = from - firstPossible < edge ? firstPossible : from;
    to = lastPossible - to < edge ? lastPossible : to;
    from = Math.max(from, lastEnd);
    if (to - from < 0.05) {
      return null;
    }
    double otherFrom = Math.max(0, (offset + growth * from) * rateFactor);
    double otherTo = Math.min(seconds(there), (offset + growth * to) * rateFactor);
    return new MapPiece(from, to, otherFrom, otherTo, Math.min(1, found.fit()));
  }

  private static double seconds(PcmSource pcm) {
    return pcm.frames() / (double) pcm.sampleRate();
  }
}
