package org.mixaccord.measure;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.OptionalDouble;

/** Findings about moments where the sound breaks: drop-outs and clicks. */
final class BreakFindings {
  private static final double PROGRAMME_DB = -50;
  private static final double PLATEAU = 0.9; // a value held that high is a flat peak
  private static final int CELLS_AROUND = 2;
  private static final double SAME_SECONDS = 0.001;
  private static final double BESIDE_GAP_SECONDS = 0.01;

  private final MeasureTrack track;
  private final Grid grid;
  private final Cells cells;

  BreakFindings(MeasureTrack track) {
    this.track = track;
    this.grid = track.grid();
    this.cells = track.cells();
  }

  List<Finding> work() {
    List<Marks.Gap> gaps = new ArrayList<>();
    for (Marks.Gap gap : track.marks().gaps()) {
      if (inProgramme(gap) && !(gap.value() != 0 && isPlateau(gap))) {
        gaps.add(gap);
      }
    }
    List<Finding> all = new ArrayList<>(dropouts(gaps));
    all.addAll(clicks(gaps));
    return all;
  }

  private boolean inProgramme(Marks.Gap gap) {
    int before = grid.cellOf(gap.from()) - 1;
    int after = grid.cellOf(gap.to()) + 1;
    return before >= 0
        && after < cells.count()
        && levelDb(gap.channel(), before) > PROGRAMME_DB
        && levelDb(gap.channel(), after) > PROGRAMME_DB;
  }

  private boolean isPlateau(Marks.Gap gap) {
    int from = Math.max(0, grid.cellOf(gap.from()) - CELLS_AROUND);
    int to = Math.min(cells.count(), grid.cellOf(gap.to()) + CELLS_AROUND + 1);
    double peak = 0;
    for (int k = from; k < to; k++) {
      peak = Math.max(peak, cells.samplePeak[k]);
    }
    return Math.abs(gap.value()) >= PLATEAU * peak;
  }

  private double levelDb(int channel, int cell) {
    long frames = grid.edge(cell + 1) - grid.edge(cell);
    return 10 * Math.log10(cells.energy[channel][cell] / frames);
  }

  private List<Finding> dropouts(List<Marks.Gap> gaps) {
    List<Marks.Gap> inOrder = new ArrayList<>(gaps);
    inOrder.sort(Comparator.comparingLong(Marks.Gap::from).thenComparingInt(Marks.Gap::channel));
    List<Finding> all = new ArrayList<>();
    long previousEnd = -1;
    for (Marks.Gap gap : inOrder) {
      if (gap.from() >= previousEnd) {
        previousEnd = gap.to();
        all.add(dropout(gaps, gap));
      }
    }
    all.sort(Comparator.comparingDouble(f -> -f.value().getAsDouble()));
    return all;
  }

  private Finding dropout(List<Marks.Gap> gaps, Marks.Gap gap) {
    double from = gap.from() / (double) track.sampleRate();
    double to = gap.to() / (double) track.sampleRate();
    boolean both =
        gaps.stream()
            .anyMatch(
                g -> g.channel() != gap.channel() && g.from() < gap.to() && gap.from() < g.to());
    return new Finding(
        "dropout",
        Severity.WARNING,
        (gap.value() == 0 ? "The sound breaks off for " : "The waveform stands still for ")
            + Words.length(to - from)
            + " at "
            + Words.time(from)
            + where(both, gap.channel())
            + (gap.value() == 0 ? " and comes back suddenly." : " and goes on with a jump.")
            + " Unless it is an effect, the bounce dropped out.",
        from,
        to,
        OptionalDouble.of(to - from),
        OptionalDouble.empty());
  }

  private List<Finding> clicks(List<Marks.Gap> gaps) {
    long same = Math.round(SAME_SECONDS * track.sampleRate());
    long beside = Math.round(BESIDE_GAP_SECONDS * track.sampleRate());
    List<Marks.Click> named = new ArrayList<>();
    List<Finding> all = new ArrayList<>();
    List<Marks.Click> clicks = track.marks().clicks();
    for (Marks.Click click : clicks) {
      boolean ofGap =
          gaps.stream()
              .anyMatch(g -> click.frame() > g.from() - beside && click.frame() < g.to() + beside);
      boolean told = named.stream().anyMatch(c -> Math.abs(c.frame() - click.frame()) <= same);
      if (!ofGap && !told) {
        named.add(click);
        all.add(click(clicks, click, same));
      }
    }
    return all;
  }

  private Finding click(List<Marks.Click> clicks, Marks.Click click, long same) {
    double at = click.frame() / (double) track.sampleRate();
    boolean both =
        clicks.stream()
            .anyMatch(
                c -> c.channel() != click.channel() && Math.abs(c.frame() - click.frame()) <= same);
    double db = 20 * Math.log10(click.height());
    return new Finding(
        "click",
        Severity.HINT,
        "A click at "
            + Words.time(at)
            + where(both, click.channel())
            + ": for less than a millisecond the waveform jumps out of its course, by "
            + Words.level(db, "dBFS")
            + ". It can come from an edit or a failed render; it may be meant.",
        at,
        at,
        OptionalDouble.of(db),
        OptionalDouble.empty());
  }

  private String where(boolean both, int channel) {
    return both && track.channels() == 2 ? " on both sides" : Words.in(channel, track.channels());
  }
}
