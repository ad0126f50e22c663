package org.mixaccord.align;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * Which time on one bounce is which time on another: straight pieces, and what is in one only.
 *
 * <p>Times are seconds on each bounce's own time line. Pieces are ordered by {@code from} and do
 * not overlap on this bounce; on the other bounce they may (a passage repeated here points twice at
 * the same place there). A map without pieces means that nothing was found to match.
 *
 * @param pieces what is in both
 * @param onlyHere what is in this bounce only, ordered
 * @param onlyThere what is in the other bounce only, ordered, on the other's time line
 */
public record TimeMap(List<MapPiece> pieces, List<TimeSpan> onlyHere, List<TimeSpan> onlyThere) {
  /** Stretches shorter than this are the rounding of edges, not material (seconds). */
  private static final double LEAST_SPAN_SECONDS = 1e-6;

  /** What pieces leave uncovered is material from this length on: less than a frame is none. */
  private static final double LEAST_GAP_SECONDS = 1e-5;

  public TimeMap {
    pieces = List.copyOf(pieces);
    onlyHere = List.copyOf(onlyHere);
    onlyThere = List.copyOf(onlyThere);
    for (int i = 1; i < pieces.size(); i++) {
      if (pieces.get(i).from() < pieces.get(i - 1).to() - LEAST_SPAN_SECONDS) {
        throw new IllegalArgumentException("pieces of a time map overlap at " + pieces.get(i));
      }
    }
  }

  /**
   * A map from its pieces; what they leave uncovered is only here or only there.
   *
   * @param pieces ordered by {@code from}, not overlapping there
   * @param secondsHere length of this bounce
   * @param secondsThere length of the other bounce
   */
  public static TimeMap of(List<MapPiece> pieces, double secondsHere, double secondsThere) {
    List<TimeSpan> here = new ArrayList<>();
    List<TimeSpan> there = new ArrayList<>();
    for (MapPiece piece : pieces) {
      here.add(new TimeSpan(piece.from(), piece.to()));
      there.add(new TimeSpan(piece.otherFrom(), piece.otherTo()));
    }
    return new TimeMap(pieces, gaps(here, secondsHere), gaps(there, secondsThere));
  }

  /** The map of a bounce of this length onto itself. */
  public static TimeMap identity(double seconds) {
    return of(List.of(new MapPiece(0, seconds, 0, seconds, 1)), seconds, seconds);
  }

  /** The map that says nothing matches. */
  public static TimeMap none(double secondsHere, double secondsThere) {
    return of(List.of(), secondsHere, secondsThere);
  }

  /**
   * The other bounce's time for a time on this one.
   *
   * @return empty where the music of that time is not in the other bounce
   */
  public OptionalDouble toOther(double seconds) {
    return pieceAt(seconds)
        .map(
            p ->
                OptionalDouble.of(
                    Math.min(p.otherTo(), Math.max(p.otherFrom(), p.toOther(seconds)))))
        .orElse(OptionalDouble.empty());
  }

  /**
   * This bounce's time for a time on the other one; the earliest where a passage occurs twice here.
   *
   * @return empty where the music of that time is not in this bounce
   */
  public OptionalDouble fromOther(double seconds) {
    for (MapPiece p : pieces) {
      if (within(seconds, p.otherFrom(), p.otherTo())) {
        return OptionalDouble.of(Math.min(p.to(), Math.max(p.from(), p.fromOther(seconds))));
      }
    }
    return OptionalDouble.empty();
  }

  /** How sure the map is at a time on this bounce, 0 to 1; 0 where nothing matches. */
  public double sureAt(double seconds) {
    return pieceAt(seconds).map(MapPiece::sure).orElse(0.0);
  }

  /**
   * Where a stretch of this bounce lies on the other one.
   *
   * <p>The part of the stretch that is there, taken from the first to the last moment in pieces
   * that run on in order; so a stretch with a cut inside becomes the shorter one.
   *
   * @return empty where none of it is there
   */
  public Optional<TimeSpan> toOther(TimeSpan span) {
    double from = Double.NaN;
    double to = Double.NaN;
    for (MapPiece p : pieces) {
      double a = Math.max(span.from(), p.from());
      double b = Math.min(span.to(), p.to());
      if (b - a <= LEAST_SPAN_SECONDS) {
        continue;
      }
      double otherA = Math.max(0, p.toOther(a));
      double otherB = p.toOther(b);
      if (Double.isNaN(from)) {
        from = otherA;
        to = otherB;
      } else if (otherA >= to - LEAST_SPAN_SECONDS) {
        to = otherB;
      }
    }
    return Double.isNaN(from) ? Optional.empty() : Optional.of(new TimeSpan(from, to));
  }

  /** How many seconds of a stretch of this bounce are in the other one too. */
  public double sharedSeconds(TimeSpan span) {
    double shared = 0;
    for (MapPiece p : pieces) {
      shared += Math.max(0, Math.min(span.to(), p.to()) - Math.max(span.from(), p.from()));
    }
    return shared;
  }

  /** The longest piece on this bounce; empty for a map without pieces. */
  public Optional<MapPiece> longest() {
    return pieces.stream().max(Comparator.comparingDouble(MapPiece::seconds));
  }

  /**
   * The map from the other bounce to this one.
   *
   * <p>Where a passage occurs twice here, the longer of the two pieces keeps the place, so that
   * pieces do not overlap; the rest is then only there.
   */
  public TimeMap inverse() {
    List<MapPiece> byLength = new ArrayList<>(pieces);
    byLength.sort(Comparator.comparingDouble(MapPiece::seconds).reversed());
    List<MapPiece> turned = new ArrayList<>();
    for (MapPiece piece : byLength) {
      addWhereFree(piece.inverse(), turned);
    }
    turned.sort(Comparator.comparingDouble(MapPiece::from));
    List<TimeSpan> covered = new ArrayList<>();
    for (MapPiece piece : turned) {
      covered.add(new TimeSpan(piece.otherFrom(), piece.otherTo()));
    }
    double end = 0;
    for (MapPiece piece : pieces) {
      end = Math.max(end, piece.to());
    }
    for (TimeSpan span : onlyHere) {
      end = Math.max(end, span.to());
    }
    return new TimeMap(turned, onlyThere, gaps(covered, end));
  }

  /**
   * This map followed by one from the other bounce to a third.
   *
   * @param next from the other bounce to the third
   * @param secondsHere length of this bounce
   * @param secondsThird length of the third
   * @return pieces where both maps have one; {@code sure} is the product
   */
  public TimeMap then(TimeMap next, double secondsHere, double secondsThird) {
    List<MapPiece> both = new ArrayList<>();
    for (MapPiece p : pieces) {
      for (MapPiece q : next.pieces) {
        double a = Math.max(p.otherFrom(), q.from());
        double b = Math.min(p.otherTo(), q.to());
        if (b - a > LEAST_SPAN_SECONDS) {
          both.add(
              new MapPiece(
                  Math.max(0, p.fromOther(a)),
                  p.fromOther(b),
                  Math.max(0, q.toOther(a)),
                  q.toOther(b),
                  p.sure() * q.sure()));
        }
      }
    }
    both.sort(Comparator.comparingDouble(MapPiece::from));
    return of(both, secondsHere, secondsThird);
  }

  private Optional<MapPiece> pieceAt(double seconds) {
    for (MapPiece p : pieces) {
      if (within(seconds, p.from(), p.to())) {
        return Optional.of(p);
      }
    }
    return Optional.empty();
  }

  private static boolean within(double seconds, double from, double to) {
    return seconds >= from - LEAST_SPAN_SECONDS && seconds <= to + LEAST_SPAN_SECONDS;
  }

  private static void addWhereFree(MapPiece piece, List<MapPiece> taken) {
    List<TimeSpan> free = List.of(new TimeSpan(piece.from(), piece.to()));
    for (MapPiece t : taken) {
      List<TimeSpan> rest = new ArrayList<>();
      for (TimeSpan span : free) {
        if (t.from() > span.from()) {
          rest.add(new TimeSpan(span.from(), Math.min(span.to(), t.from())));
        }
        if (t.to() < span.to()) {
          rest.add(new TimeSpan(Math.max(span.from(), t.to()), span.to()));
        }
      }
      free = rest;
    }
    for (TimeSpan span : free) {
      if (span.from() == piece.from() && span.to() == piece.to()) {
        taken.add(piece);
      } else if (span.seconds() > LEAST_SPAN_SECONDS) {
        taken.add(
            new MapPiece(
                span.from(),
                span.to(),
                Math.max(0, piece.toOther(span.from())),
                piece.toOther(span.to()),
                piece.sure()));
      }
    }
  }

  private static List<TimeSpan> gaps(List<TimeSpan> covered, double end) {
    List<TimeSpan> sorted = new ArrayList<>(covered);
    sorted.sort(Comparator.comparingDouble(TimeSpan::from));
    List<TimeSpan> gaps = new ArrayList<>();
    double at = 0;
    for (TimeSpan span : sorted) {
      if (span.from() - at > LEAST_GAP_SECONDS) {
        gaps.add(new TimeSpan(at, span.from()));
      }
      at = Math.max(at, span.to());
    }
    if (end - at > LEAST_GAP_SECONDS) {
      gaps.add(new TimeSpan(at, end));
    }
    return gaps;
  }
}
