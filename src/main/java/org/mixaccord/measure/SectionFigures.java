package org.mixaccord.measure;

import java.util.OptionalDouble;

/** Works out {@link Measurements} of the cells {@code [a, b)} of a track. */
final class SectionFigures {
  private static final double RANGE_FROM_SECONDS = 10; // docs/measurement.md
  private static final double STABLE_FROM_SECONDS = 60; // Tech 3341
  private static final double TWO_LOUDSPEAKERS = 2; // one channel heard from both

  private final MeasureTrack track;
  private final Grid grid;
  private final Cells cells;
  private final int a;
  private final int b;
  private final long from;
  private final long to;

  SectionFigures(MeasureTrack track, int a, int b) {
    this.track = track;
    this.grid = track.grid();
    this.cells = track.cells();
    this.a = a;
    this.b = b;
    this.from = grid.edge(a);
    this.to = grid.edge(b);
  }

  Measurements work() {
    int peak = highest(cells.samplePeak);
    int truePeak = highest(cells.truePeak);
    boolean sounds = peak >= 0;
    double seconds = (to - from) / (double) grid.sampleRate();
    double[] blocks = track.blocks(a, b);
    OptionalDouble integrated = lufs(Loudness.gated(blocks));
    OptionalDouble samplePeakDb = sounds ? db(cells.samplePeak[peak]) : OptionalDouble.empty();
    OptionalDouble truePeakDb = sounds ? db(cells.truePeak[truePeak]) : OptionalDouble.empty();
    int loudest = sounds ? track.loudestWindow(track.shortTerm(), a, b, Grid.SHORT_TERM) : -1;
    int loudestMoment = sounds ? track.loudestWindow(track.momentary(), a, b, Grid.BLOCK) : -1;
    OptionalDouble range =
        seconds >= RANGE_FROM_SECONDS
            ? Loudness.range(track.every(track.shortTerm(), a, b, Grid.SHORT_TERM))
            : OptionalDouble.empty();
    PeakToShortTerm lowest = PeakToShortTerm.lowest(track, a, b);
    Sums sums = sums();
    boolean stereo = track.channels() == 2;
    return new Measurements(
        integrated,
        track.ungated(a, b),
        track.share(a, b),
        track.channels() == 1 ? lufs(Loudness.gated(doubled(blocks))) : OptionalDouble.empty(),
        range,
        seconds >= STABLE_FROM_SECONDS,
        loudestMoment < 0
            ? OptionalDouble.empty()
            : Loudness.lufs(track.momentary()[loudestMoment]),
        loudest < 0 ? OptionalDouble.empty() : Loudness.lufs(track.shortTerm()[loudest]),
        loudest < 0 ? OptionalDouble.empty() : OptionalDouble.of(grid.seconds(loudest)),
        truePeakDb,
        sounds ? at(truePeak, cells.truePeakAt[truePeak]) : OptionalDouble.empty(),
        samplePeakDb,
        sounds ? at(peak, cells.samplePeakAt[peak]) : OptionalDouble.empty(),
        clippedRuns(),
        sum(cells.interSampleOvers),
        sounds
            ? OptionalDouble.of(samplePeakDb.getAsDouble() - 10 * Math.log10(sums.meanSquare))
            : OptionalDouble.empty(),
        integrated.isPresent() && truePeakDb.isPresent()
            ? OptionalDouble.of(truePeakDb.getAsDouble() - integrated.getAsDouble())
            : OptionalDouble.empty(),
        lowest.db(),
        lowest.at(),
        sums.dc,
        stereo ? Stereo.correlation(sums.left, sums.right, sums.product) : OptionalDouble.empty(),
        stereo ? Stereo.sideToMidDb(sums.left, sums.right, sums.product) : OptionalDouble.empty(),
        stereo ? Stereo.balanceDb(sums.left, sums.right) : OptionalDouble.empty(),
        stereo ? Stereo.monoLossDb(sums.left, sums.right, sums.product) : OptionalDouble.empty(),
        track.bandGrid().over(from, to));
  }

  private static OptionalDouble lufs(OptionalDouble power) {
    return power.isPresent() ? Loudness.lufs(power.getAsDouble()) : power;
  }

  private static double[] doubled(double[] blocks) {
    double[] out = blocks.clone();
    for (int i = 0; i < out.length; i++) {
      out[i] *= TWO_LOUDSPEAKERS;
    }
    return out;
  }

  static OptionalDouble db(double amplitude) {
    return amplitude > 0 ? OptionalDouble.of(20 * Math.log10(amplitude)) : OptionalDouble.empty();
  }

  private OptionalDouble at(int cell, double frame) {
    return OptionalDouble.of((grid.edge(cell) + frame) / grid.sampleRate());
  }

  /** First cell with the largest value; −1 where there is nothing but zeros. */
  private int highest(double[] values) {
    int best = -1;
    for (int k = a; k < b; k++) {
      if (values[k] > (best < 0 ? 0 : values[best])) {
        best = k;
      }
    }
    return best;
  }

  private int clippedRuns() {
    int runs = 0;
    for (int[] channel : cells.clippedRuns) {
      runs += sum(channel);
    }
    return runs;
  }

  private int sum(int[] counts) {
    int sum = 0;
    for (int k = a; k < b; k++) {
      sum += counts[k];
    }
    return sum;
  }

  private record Sums(
      double meanSquare, double left, double right, double product, OptionalDouble dc) {}

  private Sums sums() {
    double all = 0;
    double[] energy = new double[track.channels()];
    double dc = 0;
    for (int c = 0; c < energy.length; c++) {
      double sum = 0;
      for (int k = a; k < b; k++) {
        energy[c] += cells.energy[c][k];
        sum += cells.sum[c][k];
      }
      all += energy[c];
      double mean = to > from ? sum / (to - from) : 0;
      dc = Math.abs(mean) > Math.abs(dc) ? mean : dc;
    }
    double product = 0;
    if (energy.length == 2) {
      for (int k = a; k < b; k++) {
        product += cells.product[k];
      }
    }
    return new Sums(
        to > from ? all / ((double) energy.length * (to - from)) : 0,
        energy[0],
        energy[energy.length - 1],
        product,
        to > from ? OptionalDouble.of(dc) : OptionalDouble.empty());
  }
}
