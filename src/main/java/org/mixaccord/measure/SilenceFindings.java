package org.mixaccord.measure;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.OptionalDouble;

/** Findings about places where nothing sounds, or only one side does. */
final class SilenceFindings {
  private static final int SILENCE = 10; // cells: exact zeros from 100 ms are worth a word
  private static final int LONG_HEAD = 200; // 2 s
  private static final int LONG_TAIL = 500; // 5 s
  private static final int LONG_PAUSE = 200; // 2 s of near-silence; shorter ones are music
  private static final int ONE_SIDED = 300; // 3 s
  private static final double DEAD_LUFS = -70; // the absolute gate of BS.1770

  private final MeasureTrack track;
  private final Grid grid;
  private final Cells cells;
  private final List<Finding> all = new ArrayList<>();

  SilenceFindings(MeasureTrack track) {
    this.track = track;
    this.grid = track.grid();
    this.cells = track.cells();
  }

  List<Finding> work() {
    int n = cells.count();
    if (track.silent(0, n)) {
      all.add(
          new Finding(
              "digital-silence",
              Severity.FAULT,
              "There is nothing in this file but digital silence.",
              0,
              track.seconds(),
              OptionalDouble.of(track.seconds()),
              OptionalDouble.empty()));
      return all;
    }
    List<Place> zeros =
        new ArrayList<>(
            Place.where(n, 1, k -> cells.samplePeak[k] == 0, k -> 0).stream()
                .filter(p -> length(p) >= shortest(p, SILENCE))
                .toList());
    List<Place> dead = new ArrayList<>();
    for (Place p : nearSilent()) {
      List<Place> inside =
          zeros.stream().filter(z -> z.from() < p.to() && p.from() < z.to()).toList();
      // One word for one place: digital silence where most of it is.
      if (2 * inside.stream().mapToInt(SilenceFindings::length).sum() < length(p)) {
        zeros.removeAll(inside);
        dead.add(p);
      }
    }
    longestFirst(zeros).forEach(this::zeros);
    longestFirst(dead).forEach(this::dead);
    oneSided();
    return all;
  }

  private static List<Place> longestFirst(List<Place> places) {
    return places.stream()
        .sorted(Comparator.comparingInt(SilenceFindings::length).reversed())
        .toList();
  }

  private static int length(Place p) {
    return p.to() - p.from();
  }

  private int shortest(Place p, int inside) {
    return p.from() == 0 ? LONG_HEAD : p.to() == cells.count() ? LONG_TAIL : inside;
  }

  /** Stretches whose every 400 ms lie under the gate. */
  private List<Place> nearSilent() {
    double[] momentary = track.momentary();
    List<Place> places = new ArrayList<>();
    for (Place p :
        Place.where(
            momentary.length,
            1,
            k -> Loudness.lufs(momentary[k]).orElse(DEAD_LUFS - 1) < DEAD_LUFS,
            k -> 0)) {
      int to = Math.min(cells.count(), p.to() - 1 + Grid.BLOCK);
      // The last cell may be shorter than 10 ms and in no window.
      Place whole = new Place(p.from(), to == grid.fullCells() ? cells.count() : to, p.from());
      if (length(whole) >= shortest(whole, LONG_PAUSE)) {
        places.add(whole);
      }
    }
    return places;
  }

  private void zeros(Place p) {
    String seconds = Words.length(seconds(p));
    String detail =
        p.from() == 0
            ? "The file begins with " + seconds + " of digital silence."
            : p.to() == cells.count()
                ? "The file ends with " + seconds + " of digital silence."
                : "Digital silence for "
                    + seconds
                    + " from "
                    + Words.time(grid.seconds(p.from()))
                    + ", in the middle of the music.";
    add("digital-silence", Severity.HINT, detail, p, OptionalDouble.empty());
  }

  private void dead(Place p) {
    boolean head = p.from() == 0;
    boolean tail = p.to() == cells.count();
    String seconds = Words.length(seconds(p));
    String quiet = " (it stays below " + Words.level(DEAD_LUFS, "LUFS") + ").";
    String detail =
        head && tail
            ? "The whole file is next to silent" + quiet
            : head
                ? "Nothing is heard for the first " + seconds + quiet
                : tail
                    ? "Nothing is heard any more in the last " + seconds + quiet
                    : "Nothing is heard for "
                        + seconds
                        + " from "
                        + Words.time(grid.seconds(p.from()))
                        + ", in the middle of the music"
                        + quiet;
    add(
        "dead-air",
        head && tail ? Severity.WARNING : Severity.HINT,
        detail,
        p,
        OptionalDouble.of(shortest(p, LONG_PAUSE) / (double) Grid.CELLS_PER_SECOND));
  }

  private void oneSided() {
    if (track.channels() != 2) {
      return;
    }
    int n = cells.count();
    for (int c = 0; c < 2; c++) {
      double[] mine = cells.energy[c];
      double[] other = cells.energy[1 - c];
      String side = Words.side(c);
      for (Place p : Place.where(n, 1, k -> mine[k] == 0 && other[k] > 0, k -> 0)) {
        if (length(p) < ONE_SIDED && length(p) < n) {
          continue;
        }
        boolean whole = empty(mine);
        add(
            "one-sided-silence",
            whole ? Severity.WARNING : Severity.HINT,
            whole
                ? "The " + side + " channel is empty throughout."
                : "The "
                    + side
                    + " channel is empty for "
                    + Words.length(seconds(p))
                    + " from "
                    + Words.time(grid.seconds(p.from()))
                    + " while the other plays.",
            p,
            OptionalDouble.empty());
        if (whole) {
          break;
        }
      }
    }
  }

  private static boolean empty(double[] energy) {
    for (double e : energy) {
      if (e > 0) {
        return false;
      }
    }
    return true;
  }

  private double seconds(Place p) {
    return grid.seconds(p.to()) - grid.seconds(p.from());
  }

  private void add(String code, Severity severity, String detail, Place p, OptionalDouble limit) {
    all.add(
        new Finding(
            code,
            severity,
            detail,
            grid.seconds(p.from()),
            grid.seconds(p.to()),
            OptionalDouble.of(seconds(p)),
            limit));
  }
}
