package org.mixaccord.compare;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.mixaccord.align.Alignment;
import org.mixaccord.align.MapPiece;
import org.mixaccord.align.TimeSpan;

/** Turns sums into the figures of the comparison. */
record Report(
    CrossSpectra pass,
    double gain,
    KLoudness loudnessHere,
    KLoudness loudnessThere,
    Alignment alignment) {

  Comparison.SectionDifference section(
      Segment s, Difference difference, List<Comparison.ElementDifference> elements) {
    NamedSection section = s.section().orElseThrow();
    Optional<TimeSpan> other = s.other();
    if (difference == Difference.ONLY_HERE || other.isEmpty()) {
      return without(
          section.name(),
          OptionalDouble.of(section.from()),
          OptionalDouble.of(section.to()),
          OptionalDouble.empty(),
          OptionalDouble.empty(),
          Difference.ONLY_HERE);
    }
    boolean stereo = s.sums().midHere + s.sums().sideHere > 0;
    return new Comparison.SectionDifference(
        section.name(),
        OptionalDouble.of(section.from()),
        OptionalDouble.of(section.to()),
        OptionalDouble.of(other.get().from()),
        OptionalDouble.of(other.get().to()),
        difference,
        loudnessChange(s.from(), s.to()),
        residualDb(s.sums()),
        stereo ? ratioDb(s.sums().midHere, s.sums().midThere) : OptionalDouble.empty(),
        stereo ? ratioDb(s.sums().sideHere, s.sums().sideThere) : OptionalDouble.empty(),
        bands(s.sums()),
        elements);
  }

  Comparison.Whole whole(List<Segment> segments, List<Comparison.ElementDifference> elements) {
    BandSums all = new BandSums(pass.bands.count());
    for (Segment s : segments) {
      all.add(s.sums());
    }
    return new Comparison.Whole(
        loudnessChange(0, Double.MAX_VALUE), residualDb(all), bands(all), elements);
  }

  static Comparison.SectionDifference without(
      String name,
      OptionalDouble from,
      OptionalDouble to,
      OptionalDouble otherFrom,
      OptionalDouble otherTo,
      Difference difference) {
    return new Comparison.SectionDifference(
        name,
        from,
        to,
        otherFrom,
        otherTo,
        difference,
        OptionalDouble.empty(),
        OptionalDouble.empty(),
        OptionalDouble.empty(),
        OptionalDouble.empty(),
        List.of(),
        List.of());
  }

  OptionalDouble residualDb(BandSums sums) {
    return ratioDb(sums.totalLeft(gain), sums.totalHere());
  }

  private List<Comparison.BandDifference> bands(BandSums sums) {
    List<Comparison.BandDifference> out = new ArrayList<>();
    for (int b = 0; b < pass.bands.count(); b++) {
      out.add(
          new Comparison.BandDifference(
              pass.bands.nominalHz(b),
              ratioDb(sums.here[b], sums.there[b]),
              ratioDb(sums.left(b, gain), sums.here[b])));
    }
    return out;
  }

  /** Over what is in both, each side on its own time line. */
  private OptionalDouble loudnessChange(double from, double to) {
    List<TimeSpan> here = new ArrayList<>();
    List<TimeSpan> there = new ArrayList<>();
    for (MapPiece p : alignment.timeMap().pieces()) {
      double a = Math.max(from, p.from());
      double b = Math.min(to, p.to());
      if (b > a) {
        here.add(new TimeSpan(a, b));
        there.add(new TimeSpan(Math.max(0, p.toOther(a)), Math.max(0, p.toOther(b))));
      }
    }
    OptionalDouble x = loudnessHere.lufs(here);
    OptionalDouble y = loudnessThere.lufs(there);
    return x.isPresent() && y.isPresent()
        ? OptionalDouble.of(x.getAsDouble() - y.getAsDouble())
        : OptionalDouble.empty();
  }

  static OptionalDouble ratioDb(double of, double to) {
    return of > 0 && to > 0 ? OptionalDouble.of(10 * Math.log10(of / to)) : OptionalDouble.empty();
  }
}
