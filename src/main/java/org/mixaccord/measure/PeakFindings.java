package org.mixaccord.measure;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.OptionalDouble;

/** Findings about levels that are too high. */
final class PeakFindings {
  /** What reads the same at two decimals is not over. */
  private static final double ROUNDING_DB = 0.005;

  /** R 128 allows a true-peak meter this much: two right meters may disagree about less. */
  private static final double METER_TOLERANCE_DB = 0.3;

  private static final int JOIN = 50; // cells: places less than half a second apart are one
  private static final int JOIN_CLIPPED = 200;

  private final MeasureTrack track;
  private final Grid grid;
  private final Cells cells;

  PeakFindings(MeasureTrack track) {
    this.track = track;
    this.grid = track.grid();
    this.cells = track.cells();
  }

  List<Finding> work(DeliveryLimits limits) {
    List<Finding> all = new ArrayList<>();
    limits
        .ceilingDbtp()
        .ifPresent(c -> all.addAll(over(cells.truePeak, c, "dBTP", "true peak", "agreed ")));
    limits
        .ceilingDbfs()
        .ifPresent(c -> all.addAll(over(cells.samplePeak, c, "dBFS", "highest sample", "agreed ")));
    if (limits.ceilingDbtp().isEmpty() && limits.ceilingDbfs().isEmpty()) {
      over(cells.samplePeak, 0, "dBFS", "highest sample", "")
          .forEach(f -> all.add(f.on(Basis.FACT)));
    }
    all.addAll(clipped());
    all.addAll(interSample());
    return all;
  }

  private List<Finding> over(
      double[] peaks, double ceiling, String unit, String what, String whose) {
    double limit = Math.pow(10, (ceiling + ROUNDING_DB) / 20);
    boolean truePeak = peaks == cells.truePeak;
    List<Place> places =
        new ArrayList<>(Place.where(cells.count(), JOIN, k -> peaks[k] > limit, k -> peaks[k]));
    places.sort(Comparator.comparingDouble(p -> -peaks[p.worst()]));
    List<Finding> all = new ArrayList<>();
    for (Place p : places) {
      double db = 20 * Math.log10(peaks[p.worst()]);
      boolean clear = !truePeak || db - ceiling > METER_TOLERANCE_DB;
      String detail =
          "The "
              + what
              + " reaches "
              + Words.signed(db, ceiling, unit)
              + " at "
              + Words.time(peakTime(p.worst(), truePeak))
              + ", over the "
              + whose
              + "ceiling of "
              + Words.signed(ceiling, db, unit)
              + (clear ? "." : "; that is within what two right meters may differ by.")
              + (all.isEmpty() && places.size() > 1
                  ? " It goes over in " + Words.places(places.size()) + ", this is the highest."
                  : "");
      all.add(finding("over", clear ? Severity.FAULT : Severity.WARNING, detail, p, db, ceiling));
    }
    return all;
  }

  private List<Finding> clipped() {
    List<Place> places =
        new ArrayList<>(
            Place.where(
                cells.count(), JOIN_CLIPPED, k -> cells.clippedRuns(k) > 0, cells::clippedRuns));
    places.sort(Comparator.comparingInt(p -> -runs(p)));
    List<Finding> all = new ArrayList<>();
    for (Place p : places) {
      int runs = runs(p);
      String detail =
          (runs == 1 ? "A peak is" : runs + " peaks are")
              + " cut off flat at full scale"
              + sides(p, runs)
              + ", three samples or more in a row, from "
              + Words.time(grid.seconds(p.from()))
              + ". That is clipping unless it was meant.";
      all.add(
          new Finding(
              "clipped",
              Severity.WARNING,
              detail,
              grid.seconds(p.from()),
              grid.seconds(p.to()),
              OptionalDouble.of(runs),
              OptionalDouble.of(0)));
    }
    return all;
  }

  private int runs(Place p) {
    int runs = 0;
    for (int c = 0; c < track.channels(); c++) {
      runs += runs(p, c);
    }
    return runs;
  }

  private int runs(Place p, int channel) {
    int runs = 0;
    for (int k = p.from(); k < p.to(); k++) {
      runs += cells.clippedRuns[channel][k];
    }
    return runs;
  }

  /** Says on which side, and how many on each where it is both. */
  private String sides(Place p, int all) {
    for (int c = 0; c < track.channels(); c++) {
      if (runs(p, c) == all) {
        return Words.in(c, track.channels());
      }
    }
    return track.channels() == 2
        ? " (" + runs(p, 0) + " on the left, " + runs(p, 1) + " on the right)"
        : "";
  }

  private List<Finding> interSample() {
    double limit = Math.pow(10, ROUNDING_DB / 20);
    List<Place> places =
        new ArrayList<>(
            Place.where(
                cells.count(),
                JOIN,
                k -> cells.truePeak[k] > limit && cells.samplePeak[k] <= 1,
                k -> cells.truePeak[k]));
    places.sort(Comparator.comparingDouble(p -> -cells.truePeak[p.worst()]));
    List<Finding> all = new ArrayList<>();
    for (Place p : places) {
      double db = 20 * Math.log10(cells.truePeak[p.worst()]);
      String detail =
          "Between the samples the signal swings to "
              + Words.signed(db, 0, "dBTP")
              + " at "
              + Words.time(peakTime(p.worst(), true))
              + " although no sample passes full scale. Players and lossy coders may clip there.";
      all.add(finding("intersample-over", Severity.WARNING, detail, p, db, 0));
    }
    return all;
  }

  private double peakTime(int cell, boolean truePeak) {
    double frame = truePeak ? cells.truePeakAt[cell] : cells.samplePeakAt[cell];
    return (grid.edge(cell) + frame) / track.sampleRate();
  }

  private Finding finding(
      String code, Severity severity, String detail, Place p, double value, double limit) {
    return new Finding(
        code,
        severity,
        detail,
        grid.seconds(p.from()),
        grid.seconds(p.to()),
        OptionalDouble.of(value),
        OptionalDouble.of(limit));
  }
}
