package org.mixaccord.measure;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;

/** Findings about edges, offsets and samples that are no numbers. */
final class SignalFindings {
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
    offset();
    head();
    tail();
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
}
