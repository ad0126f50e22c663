package org.mixaccord.measure;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.OptionalDouble;
import java.util.OptionalInt;

/** Findings about what is lost on one loudspeaker. */
final class MonoFindings {
  private static final double LOSS_LIMIT_DB = 6; // habit: twice what unrelated channels lose
  private static final double QUIET = 1e-5; // mean square −50 dB: below, nobody misses it
  private static final double BAND_SPAN_DB = 20; // bands farther under the loudest are left alone
  private static final int JOIN = 300;

  private final MeasureTrack track;
  private final Grid grid;

  MonoFindings(MeasureTrack track) {
    this.track = track;
    this.grid = track.grid();
  }

  List<Finding> work() {
    if (track.channels() != 2) {
      return List.of();
    }
    List<Finding> places = places();
    List<Finding> all = new ArrayList<>(places);
    OptionalInt whole = places.isEmpty() ? bands(all) : OptionalInt.empty();
    List<MonoBands.Hole> holes = new ArrayList<>(new MonoBands(track.bandGrid()).find());
    holes.removeIf(h -> whole.isPresent() && whole.getAsInt() == h.band());
    holes.removeIf(
        h ->
            places.stream()
                .anyMatch(p -> p.fromSeconds() < h.toSeconds() && h.fromSeconds() < p.toSeconds()));
    holes.sort(Comparator.comparingDouble(h -> -h.lossDb()));
    holes.forEach(h -> all.add(finding(h)));
    return all;
  }

  private List<Finding> places() {
    Cells cells = track.cells();
    int n = grid.fullCells();
    double[] pair = new double[n];
    double[] folded = new double[n];
    for (int k = 0; k < n; k++) {
      double both = cells.energy[0][k] + cells.energy[1][k];
      pair[k] = 2 * both;
      folded[k] = Math.max(0, both + 2 * cells.product[k]);
    }
    double[] pairs = Loudness.windowSums(pair, n, Grid.SHORT_TERM);
    double[] folds = Loudness.windowSums(folded, n, Grid.SHORT_TERM);
    double limit = Math.pow(10, LOSS_LIMIT_DB / 10);
    double quiet = 4 * QUIET * Grid.SHORT_TERM * grid.sampleRate() / Grid.CELLS_PER_SECOND;
    List<Place> places =
        new ArrayList<>(
            Place.where(
                pairs.length,
                JOIN,
                k -> pairs[k] > quiet && pairs[k] > limit * folds[k],
                k -> pairs[k] / folds[k]));
    places.sort(Comparator.comparingDouble(p -> -pairs[p.worst()] / folds[p.worst()]));
    List<Finding> all = new ArrayList<>();
    for (Place p : places) {
      OptionalDouble loss =
          folds[p.worst()] > 0
              ? OptionalDouble.of(10 * Math.log10(pairs[p.worst()] / folds[p.worst()]))
              : OptionalDouble.empty();
      double from = grid.seconds(p.from());
      double to = grid.seconds(Math.min(n, p.to() - 1 + Grid.SHORT_TERM));
      String what =
          loss.isPresent()
              ? "becomes " + Words.level(loss.getAsDouble(), "dB") + " quieter"
              : "disappears";
      all.add(
          new Finding(
              "mono-loss",
              Severity.WARNING,
              "On one loudspeaker the mix "
                  + what
                  + " around "
                  + Words.time(grid.seconds(p.worst()) + 1.5)
                  + ": left and right cancel each other there.",
              from,
              to,
              loss,
              OptionalDouble.of(LOSS_LIMIT_DB)));
    }
    return all;
  }

  private static Finding finding(MonoBands.Hole hole) {
    return new Finding(
        "mono-loss",
        Severity.HINT,
        "On one loudspeaker "
            + Words.level(hole.lossDb(), "dB")
            + " are lost around "
            + Words.hertz(ThirdOctaves.nominalHz(hole.band()))
            + " near "
            + Words.time(hole.worstSeconds())
            + ": left and right cancel each other in that range there.",
        hole.fromSeconds(),
        hole.toSeconds(),
        OptionalDouble.of(hole.lossDb()),
        OptionalDouble.of(MonoBands.strongDb()));
  }

  /** Adds the band that loses most over the whole song; answers which. */
  private OptionalInt bands(List<Finding> all) {
    List<Band> bands = track.whole().bands();
    double loudest = Double.NEGATIVE_INFINITY;
    for (Band b : bands) {
      loudest = Math.max(loudest, b.levelDb().orElse(Double.NEGATIVE_INFINITY));
    }
    int worst = -1;
    double most = LOSS_LIMIT_DB;
    for (int i = 0; i < bands.size(); i++) {
      Band b = bands.get(i);
      boolean matters =
          b.levelDb().isPresent() && b.levelDb().getAsDouble() > loudest - BAND_SPAN_DB;
      if (matters && b.monoLossDb().orElse(0) > most) {
        worst = i;
        most = b.monoLossDb().getAsDouble();
      }
    }
    if (worst < 0) {
      return OptionalInt.empty();
    }
    all.add(
        new Finding(
            "mono-loss",
            Severity.HINT,
            "On one loudspeaker "
                + Words.level(most, "dB")
                + " are lost around "
                + Words.hertz(bands.get(worst).centreHz())
                + ", over the whole song: left and right cancel each other in that range.",
            0,
            track.seconds(),
            OptionalDouble.of(most),
            OptionalDouble.of(LOSS_LIMIT_DB)));
    return OptionalInt.of(worst);
  }
}
