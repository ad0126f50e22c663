package org.mixaccord.compare;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.mixaccord.align.MapPiece;
import org.mixaccord.align.TimeSpan;

/**
 * What was done to the form between two bounces, read from their time map: material taken out, new,
 * moved or repeated, and other starts and ends.
 */
final class FormEdits {
  private static final double LEAST_SECONDS = 0.01;

  /** A section that holds this much of a stretch says it already. */
  private static final double SAID = 0.8;

  private static final double SAME_PLACE_SECONDS = 0.5;

  private FormEdits() {}

  /**
   * One edit.
   *
   * @param seconds how much music it concerns
   * @param sentence in words, without a full stop
   */
  record Edit(double seconds, String sentence) {}

  /** All edits, the longest first; sections that are only here or only there are left to them. */
  static List<Edit> of(Comparison c) {
    List<Edit> edits = new ArrayList<>();
    if (c.timeMap().isEmpty()) {
      return edits;
    }
    double endHere = end(c.onlyHere(), c.timeMap().stream().mapToDouble(MapPiece::to));
    double endThere = end(c.onlyThere(), c.timeMap().stream().mapToDouble(MapPiece::otherTo));
    for (TimeSpan span : c.onlyHere()) {
      if (span.seconds() >= LEAST_SECONDS && !said(c, span, Difference.ONLY_HERE)) {
        edits.add(new Edit(span.seconds(), onlyHere(span, endHere)));
      }
    }
    for (TimeSpan span : c.onlyThere()) {
      if (span.seconds() >= LEAST_SECONDS && !said(c, span, Difference.ONLY_THERE)) {
        edits.add(new Edit(span.seconds(), onlyThere(span, endThere, c.timeMap())));
      }
    }
    List<MapPiece> inOrder = inOrder(c.timeMap());
    for (MapPiece p : c.timeMap()) {
      double again = repeated(p, c.timeMap());
      if (again >= LEAST_SECONDS) {
        edits.add(new Edit(again, place(c, p.from(), p.from() + again) + " comes twice now"));
      } else if (!inOrder.contains(p)) {
        edits.add(
            new Edit(
                p.seconds(),
                place(c, p.from(), p.to())
                    + " was moved; it was at "
                    + place(p.otherFrom(), p.otherTo())));
      }
    }
    edits.sort(Comparator.comparingDouble(e -> -e.seconds()));
    return edits;
  }

  private static double end(List<TimeSpan> only, java.util.stream.DoubleStream covered) {
    return Math.max(
        covered.max().orElse(0), only.stream().mapToDouble(TimeSpan::to).max().orElse(0));
  }

  private static String onlyHere(TimeSpan span, double end) {
    if (span.from() < LEAST_SECONDS) {
      return length(span.seconds()) + " more at the start";
    }
    return span.to() > end - LEAST_SECONDS
        ? length(span.seconds()) + " more at the end"
        : place(span.from(), span.to()) + " is new, " + length(span.seconds());
  }

  private static String onlyThere(TimeSpan span, double end, List<MapPiece> pieces) {
    if (span.from() < LEAST_SECONDS) {
      return length(span.seconds()) + " less at the start";
    }
    if (span.to() > end - LEAST_SECONDS) {
      return length(span.seconds()) + " less at the end";
    }
    double at =
        pieces.stream()
            .filter(p -> p.otherTo() <= span.from() + LEAST_SECONDS)
            .max(Comparator.comparingDouble(MapPiece::otherTo))
            .map(MapPiece::to)
            .orElse(0.0);
    return length(span.seconds()) + " taken out at " + Figures.time(at);
  }

  /** Seconds from the start of a piece on that an earlier piece holds already. */
  private static double repeated(MapPiece piece, List<MapPiece> pieces) {
    double again = 0;
    for (MapPiece before : pieces) {
      if (before.from() < piece.from() && before.otherFrom() <= piece.otherFrom() + LEAST_SECONDS) {
        again = Math.max(again, Math.min(before.otherTo(), piece.otherTo()) - piece.otherFrom());
      }
    }
    return again;
  }

  /** The pieces that keep their order and hold most of the music; the others were moved. */
  private static List<MapPiece> inOrder(List<MapPiece> pieces) {
    int n = pieces.size();
    double[] held = new double[n];
    int[] before = new int[n];
    int last = 0;
    for (int i = 0; i < n; i++) {
      before[i] = -1;
      held[i] = pieces.get(i).seconds();
      for (int j = 0; j < i; j++) {
        boolean follows = pieces.get(j).otherFrom() <= pieces.get(i).otherFrom();
        if (follows && held[j] + pieces.get(i).seconds() > held[i]) {
          held[i] = held[j] + pieces.get(i).seconds();
          before[i] = j;
        }
      }
      last = held[i] > held[last] ? i : last;
    }
    List<MapPiece> kept = new ArrayList<>();
    for (int i = last; i >= 0; i = before[i]) {
      kept.add(pieces.get(i));
    }
    return kept;
  }

  private static boolean said(Comparison c, TimeSpan span, Difference only) {
    double held = 0;
    for (Comparison.SectionDifference s : c.sections()) {
      if (s.difference() == only) {
        double from = (only == Difference.ONLY_HERE ? s.from() : s.otherFrom()).orElse(0);
        double to = (only == Difference.ONLY_HERE ? s.to() : s.otherTo()).orElse(0);
        held += Math.max(0, Math.min(to, span.to()) - Math.max(from, span.from()));
      }
    }
    return held >= SAID * span.seconds();
  }

  private static String place(double from, double to) {
    return Figures.time(from) + "–" + Figures.time(to);
  }

  /** A stretch here, by the name of its section where it is one. */
  private static String place(Comparison c, double from, double to) {
    return c.sections().stream()
        .filter(s -> Math.abs(s.from().orElse(-9) - from) < SAME_PLACE_SECONDS)
        .filter(s -> Math.abs(s.to().orElse(-9) - to) < SAME_PLACE_SECONDS)
        .findFirst()
        .map(s -> s.name() + " (" + place(from, to) + ")")
        .orElse(place(from, to));
  }

  private static String length(double seconds) {
    return seconds < 1
        ? Figures.plain(seconds * 1000, 0) + " ms"
        : Figures.plain(seconds, 1) + " s";
  }
}
