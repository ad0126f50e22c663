package org.mixaccord.api.v1.bounces;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import java.util.function.Function;
import java.util.stream.IntStream;
import org.mixaccord.api.v1.Csv;
import org.mixaccord.measure.Band;
import org.mixaccord.measure.Measurements;

/** Figures as tables for a spreadsheet; the same numbers as in JSON. */
final class FigureTables {
  private record Column(String name, Function<Measurements, OptionalDouble> of) {}

  private static final List<Column> COLUMNS =
      List.of(
          new Column("integrated loudness, gated (LUFS)", Measurements::integratedLufs),
          new Column("loudness, ungated (LUFS)", Measurements::ungatedLufs),
          new Column("share of the whole (LUFS)", Measurements::shareLufs),
          new Column("loudness of mono from two loudspeakers (LUFS)", Measurements::dualMonoLufs),
          new Column("loudness range (LU)", Measurements::loudnessRangeLu),
          new Column("loudest 0.4 s (LUFS)", Measurements::maxMomentaryLufs),
          new Column("loudest 3 s (LUFS)", Measurements::maxShortTermLufs),
          new Column("loudest 3 s from (s)", Measurements::maxShortTermAt),
          new Column("true peak (dBTP)", Measurements::truePeakDbtp),
          new Column("true peak at (s)", Measurements::truePeakAt),
          new Column("sample peak (dBFS)", Measurements::samplePeakDbfs),
          new Column("sample peak at (s)", Measurements::samplePeakAt),
          new Column("clipped runs", m -> OptionalDouble.of(m.clippedRuns())),
          new Column("inter-sample overs", m -> OptionalDouble.of(m.interSampleOvers())),
          new Column("crest (dB)", Measurements::crestDb),
          new Column("true peak to loudness (dB)", Measurements::peakToLoudnessDb),
          new Column("least true peak to loudest 3 s (dB)", Measurements::minPeakToShortTermDb),
          new Column("least true peak to 3 s from (s)", Measurements::minPeakToShortTermAt),
          new Column("DC offset (full scale = 1)", Measurements::dcOffset),
          new Column("correlation", Measurements::correlation),
          new Column("sides to middle (dB)", Measurements::sideToMidDb),
          new Column("balance, left positive (dB)", Measurements::balanceDb),
          new Column("lost in mono (dB)", Measurements::monoLossDb));

  private FigureTables() {}

  /** A line for the whole and one for each section; third octaves at the end. */
  static Csv measurements(MeasurementResource.MeasurementsView all) {
    List<Band> bands = all.whole().bands();
    List<String> names = new ArrayList<>(List.of("section", "from (s)", "to (s)"));
    COLUMNS.forEach(c -> names.add(c.name()));
    bands.forEach(b -> names.add("third octave " + Csv.number(b.centreHz()) + " Hz (dB)"));
    Csv csv = new Csv().header(names);
    csv.line(line(List.of("", "", ""), all.whole(), bands));
    for (MeasurementResource.SectionView section : all.sections()) {
      csv.line(
          line(
              List.of(
                  Csv.words(section.name()), Csv.number(section.from()), Csv.number(section.to())),
              section.figures(),
              bands));
    }
    return csv;
  }

  private static List<String> line(List<String> place, Measurements m, List<Band> bands) {
    List<String> cells = new ArrayList<>(place);
    COLUMNS.forEach(c -> cells.add(Csv.number(c.of().apply(m))));
    // A section too short for bands has none at all.
    IntStream.range(0, bands.size())
        .forEach(
            i -> cells.add(i < m.bands().size() ? Csv.number(m.bands().get(i).levelDb()) : ""));
    return cells;
  }

  /** A line for each step. */
  static Csv series(FiguresResource.SeriesView series) {
    Csv csv =
        new Csv()
            .header(
                List.of(
                    "middle of the step (s)",
                    "momentary loudness (LUFS)",
                    "short-term loudness (LUFS)",
                    "true peak (dBTP)",
                    "sample peak (dBFS)",
                    "correlation"));
    for (int i = 0; i < series.atSeconds().size(); i++) {
      csv.line(
          List.of(
              Csv.number(series.atSeconds().get(i)),
              Csv.number(series.momentaryLufs().get(i)),
              Csv.number(series.shortTermLufs().get(i)),
              Csv.number(series.truePeakDbtp().get(i)),
              Csv.number(series.samplePeakDbfs().get(i)),
              Csv.number(series.correlation().get(i))));
    }
    return csv;
  }
}
