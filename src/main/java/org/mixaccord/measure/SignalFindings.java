package org.mixaccord.measure;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;

/** Findings about silence, edges, offsets, gaps and samples that are no numbers. */
final class SignalFindings {
  private static final int SILENCE = 10; // cells: exact zeros from 100 ms are worth a word
  private static final int LONG_HEAD = 200; // 2 s
  private static final int LONG_TAIL = 500; // 5 s
  private static final int ONE_SIDED = 300; // 3 s
  private static final double DC_LIMIT_DB = -60; // habit
  private static final double DC_FROM_SECONDS = 1;
  private static final double HEAD_STEP = 0.01; // −40 dBFS: a click one can hear
  private static final int TAIL = 2; // cells: the last 20 ms
  private static final int TAIL_BEFORE = 10; // cells: the 100 ms before them
  private static final double FADING_DB = 10; // a straight fade to nothing falls 16 dB there
  private static final double TAIL_LIMIT_DB = -60;
  private static final double TAIL_FAULT_DB = -40;
  private static final double PROGRAMME_DB = -50;

  private final MeasureTrack track;
  private final Grid grid;
  private final Cells cells;
  private final List<Finding> all = new ArrayList<>();

  SignalFindings(MeasureTrack track) {
    this.track = track;
    this.grid = track.grid();
    this.cells = track.cells();
  }

  List<Finding> work() {
    notNumbers();
    if (track.silent(0, cells.count())) {
      add(
          "digital-silence",
          Severity.FAULT,
          "There is nothing in this file but digital silence.",
          0,
          cells.count());
      return all;
    }
    silences();
    oneSided();
    offset();
    head();
    tail();
    dropouts();
    return all;
  }

  private void notNumbers() {
    NonFinite bad = track.nonFinite();
    if (bad.count() == 0) {
      return;
    }
    double first = bad.firstSeconds().orElseThrow();
    double last = bad.lastSeconds().orElseThrow();
    all.add(
        new Finding(
            "not-a-number",
            Severity.FAULT,
            (bad.count() == 1 ? "One sample is" : bad.count() + " samples are")
                + " broken (no number at all), first at "
                + Words.time(first)
                + ". They were measured as silence; players may make loud noise of them.",
            first,
            last,
            OptionalDouble.of(bad.count()),
            OptionalDouble.of(0)));
  }

  private void silences() {
    int n = cells.count();
    for (Place p : Place.where(n, 1, k -> cells.samplePeak[k] == 0, k -> 0)) {
      int length = p.to() - p.from();
      boolean head = p.from() == 0;
      boolean tail = p.to() == n;
      if (length < (head ? LONG_HEAD : tail ? LONG_TAIL : SILENCE)) {
        continue;
      }
      double seconds = grid.seconds(p.to()) - grid.seconds(p.from());
      String detail =
          head
              ? "The file begins with " + Words.length(seconds) + " of digital silence."
              : tail
                  ? "The file ends with " + Words.length(seconds) + " of digital silence."
                  : "Digital silence for "
                      + Words.length(seconds)
                      + " from "
                      + Words.time(grid.seconds(p.from()))
                      + ", in the middle of the music.";
      add("digital-silence", Severity.HINT, detail, p.from(), p.to());
    }
  }

  private void oneSided() {
    if (track.channels() != 2) {
      return;
    }
    int n = cells.count();
    for (int c = 0; c < 2; c++) {
      double[] mine = cells.energy[c];
      double[] other = cells.energy[1 - c];
      String side = c == 0 ? "left" : "right";
      for (Place p : Place.where(n, 1, k -> mine[k] == 0 && other[k] > 0, k -> 0)) {
        if (p.to() - p.from() < ONE_SIDED && p.to() - p.from() < n) {
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
                    + Words.length(grid.seconds(p.to()) - grid.seconds(p.from()))
                    + " from "
                    + Words.time(grid.seconds(p.from()))
                    + " while the other plays.",
            p.from(),
            p.to());
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

  private void offset() {
    if (track.seconds() < DC_FROM_SECONDS) {
      return;
    }
    double dc = track.whole().dcOffset().orElse(0);
    double db = 20 * Math.log10(Math.abs(dc));
    if (db > DC_LIMIT_DB) {
      all.add(
          new Finding(
              "dc-offset",
              Severity.HINT,
              "The waveform sits off the middle by "
                  + Words.number(100 * dc, 2)
                  + "\u00A0% of full scale ("
                  + Words.level(db, DC_LIMIT_DB, "dBFS")
                  + "). It costs headroom and can click at edits.",
              0,
              track.seconds(),
              OptionalDouble.of(db),
              OptionalDouble.of(DC_LIMIT_DB)));
    }
  }

  private void head() {
    double step = track.edges().firstSample();
    if (step >= HEAD_STEP && levelDb(0, 1) > PROGRAMME_DB) {
      double db = 20 * Math.log10(step);
      all.add(
          new Finding(
              "cut-head",
              Severity.WARNING,
              "The file begins in mid-sound: its very first sample stands at "
                  + Words.level(db, "dBFS")
                  + ". The start may be cut off.",
              0,
              grid.seconds(1),
              OptionalDouble.of(db),
              OptionalDouble.of(20 * Math.log10(HEAD_STEP))));
    }
  }

  private void tail() {
    int n = cells.count();
    int from = Math.max(0, n - TAIL);
    double db = levelDb(from, n);
    boolean fading = from > 0 && levelDb(Math.max(0, from - TAIL_BEFORE), from) - db > FADING_DB;
    if (db > TAIL_LIMIT_DB && !fading) {
      all.add(
          new Finding(
              "cut-tail",
              db > TAIL_FAULT_DB ? Severity.WARNING : Severity.HINT,
              "The file ends while it still sounds: its last "
                  + Words.length(track.seconds() - grid.seconds(from))
                  + " are at "
                  + Words.level(db, TAIL_LIMIT_DB, "dB RMS")
                  + ". The tail may be cut off.",
              grid.seconds(from),
              track.seconds(),
              OptionalDouble.of(db),
              OptionalDouble.of(TAIL_LIMIT_DB)));
    }
  }

  private void dropouts() {
    int rate = track.sampleRate();
    long previousEnd = -1;
    List<Edges.Gap> gaps = new ArrayList<>(track.edges().gaps());
    gaps.sort(java.util.Comparator.comparingLong(Edges.Gap::from));
    for (Edges.Gap gap : gaps) {
      int before = grid.cellOf(gap.from()) - 1;
      int after = grid.cellOf(gap.to()) + 1;
      boolean inProgramme =
          before >= 0
              && after < cells.count()
              && channelDb(gap.channel(), before) > PROGRAMME_DB
              && channelDb(gap.channel(), after) > PROGRAMME_DB;
      if (!inProgramme || gap.from() < previousEnd) {
        continue;
      }
      previousEnd = gap.to();
      double from = gap.from() / (double) rate;
      double to = gap.to() / (double) rate;
      all.add(
          new Finding(
              "dropout",
              Severity.WARNING,
              "The sound breaks off for "
                  + Words.length(to - from)
                  + " at "
                  + Words.time(from)
                  + " and comes back with a jump"
                  + (track.channels() == 2 ? " (" + side(gaps, gap) + ")" : "")
                  + ". Unless it is an effect, the bounce dropped out.",
              from,
              to,
              OptionalDouble.of(to - from),
              OptionalDouble.empty()));
    }
  }

  private static String side(List<Edges.Gap> gaps, Edges.Gap gap) {
    boolean both =
        gaps.stream()
            .anyMatch(
                g -> g.channel() != gap.channel() && g.from() < gap.to() && gap.from() < g.to());
    return both ? "both channels" : gap.channel() == 0 ? "left" : "right";
  }

  private double channelDb(int channel, int cell) {
    long frames = grid.edge(cell + 1) - grid.edge(cell);
    return 10 * Math.log10(cells.energy[channel][cell] / frames);
  }

  /** Level of some cells in dB re full scale 1.0, the louder channel's. */
  private double levelDb(int a, int b) {
    double most = 0;
    for (double[] channel : cells.energy) {
      double sum = 0;
      for (int k = a; k < b; k++) {
        sum += channel[k];
      }
      most = Math.max(most, sum);
    }
    return 10 * Math.log10(most / (grid.edge(b) - grid.edge(a)));
  }

  private void add(String code, Severity severity, String detail, int a, int b) {
    double from = grid.seconds(a);
    double to = grid.seconds(b);
    all.add(
        new Finding(
            code,
            severity,
            detail,
            from,
            to,
            OptionalDouble.of(to - from),
            OptionalDouble.empty()));
  }
}
