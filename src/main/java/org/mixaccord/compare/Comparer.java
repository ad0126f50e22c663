package org.mixaccord.compare;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.DoubleConsumer;
import org.mixaccord.align.Aligner;
import org.mixaccord.align.Alignment;
import org.mixaccord.align.MapPiece;
import org.mixaccord.align.TimeMap;
import org.mixaccord.align.TimeSpan;
import org.mixaccord.audio.PcmSource;

/**
 * Sets two bounces side by side: alignment, overall level, what is left after both, section by
 * section, and what that makes them to each other.
 */
public final class Comparer {
  private static final double ALIGNED = 0.35;
  private static final double SPECTRA = 0.85;

  /** Stretches between sections shorter than this are not judged by themselves. */
  private static final double LEAST_GAP_SECONDS = 1;

  private static final double LONGEST_GAP_SECONDS = 30;

  private Comparer() {}

  /**
   * Compares two bounces. Two or three seconds for four minutes of stereo; memory grows with length
   * by about 60 kB a second, and the transforms of aligning take at most 120 MB beside.
   *
   * @param input the two bounces, sections, parts
   * @param progress told how far it is, 0 to 1
   * @return the comparison; {@link Likeness#NOT_COMPARABLE} with empty figures when nothing matches
   * @throws IOException if samples cannot be read
   */
  public static Comparison compare(ComparisonInput input, DoubleConsumer progress)
      throws IOException {
    PcmSource here = input.here().pcm();
    PcmSource there = input.there().pcm();
    boolean identical = input.here().pcmSha256().equals(input.there().pcmSha256());
    Alignment alignment =
        identical
            ? new Alignment(TimeMap.identity(seconds(here)), 0, 1, 1, false, false, false, 1)
            : Aligner.align(here, there);
    progress.accept(ALIGNED);
    Comparison result =
        alignment.matched()
            ? measured(input, alignment, identical, progress)
            : notComparable(input, alignment);
    progress.accept(1);
    return result;
  }

  private static Comparison measured(
      ComparisonInput input, Alignment alignment, boolean identical, DoubleConsumer progress)
      throws IOException {
    PcmSource here = input.here().pcm();
    PcmSource there = input.there().pcm();
    CrossSpectra pass = new CrossSpectra(here, there, alignment);
    List<Segment> segments = segments(input, alignment.timeMap(), pass.bands.count());
    pass.run(segments, p -> progress.accept(ALIGNED + p * (SPECTRA - ALIGNED)));
    Verdicts verdicts = Verdicts.of(input, alignment, pass, segments, identical);
    KLoudness loudnessHere = KLoudness.of(here);
    KLoudness loudnessThere = KLoudness.of(there);
    progress.accept(SPECTRA + 0.05);
    BandSums all = new BandSums(pass.bands.count());
    segments.forEach(s -> all.add(s.sums()));
    double mixDb = Report.ratioDb(all.totalHere(), all.totalThere()).orElse(0);
    double gainDb = 20 * Math.log10(verdicts.gain());
    PartChanges parts = PartChanges.of(input, alignment, gainDb, mixDb);
    Report report = new Report(pass, verdicts.gain(), loudnessHere, loudnessThere, alignment);
    List<Comparison.SectionDifference> sections = new ArrayList<>();
    for (int i = 0; i < segments.size(); i++) {
      Segment s = segments.get(i);
      if (s.section().isPresent()) {
        sections.add(report.section(s, verdicts.differences().get(i), parts.in(s.from(), s.to())));
      }
    }
    addOnlyThere(input, alignment.timeMap(), sections);
    return new Comparison(
        verdicts.likeness(),
        verdicts.causes(),
        alignment.offsetSeconds(),
        alignment.speedRatio(),
        alignment.polarity(),
        gainDb,
        alignment.timeMap().pieces(),
        alignment.timeMap().onlyHere(),
        alignment.timeMap().onlyThere(),
        verdicts.floorDb(),
        report.whole(segments, parts.in(0, seconds(here))),
        sections);
  }

  /** Sections in their order, and the stretches between them. */
  static List<Segment> segments(ComparisonInput input, TimeMap map, int bands) {
    double end = seconds(input.here().pcm());
    List<Segment> out = new ArrayList<>();
    double at = 0;
    for (NamedSection section : input.sections()) {
      double from = Math.min(end, section.from());
      double to = Math.min(end, section.to());
      addGap(out, at, from, map, bands);
      out.add(segment(Optional.of(section), from, to, map, bands));
      at = Math.max(at, to);
    }
    addGap(out, at, end, map, bands);
    return out;
  }

  private static void addGap(List<Segment> out, double from, double to, TimeMap map, int bands) {
    if (to - from < LEAST_GAP_SECONDS) {
      return;
    }
    int parts = (int) Math.ceil((to - from) / LONGEST_GAP_SECONDS);
    for (int i = 0; i < parts; i++) {
      double a = from + (to - from) * i / parts;
      double b = from + (to - from) * (i + 1) / parts;
      out.add(segment(Optional.empty(), a, b, map, bands));
    }
  }

  private static Segment segment(
      Optional<NamedSection> section, double from, double to, TimeMap map, int bands) {
    TimeSpan span = new TimeSpan(from, to);
    return new Segment(
        section, from, to, map.toOther(span), map.sharedSeconds(span), new BandSums(bands));
  }

  private static void addOnlyThere(
      ComparisonInput input, TimeMap map, List<Comparison.SectionDifference> sections) {
    for (NamedSection s : input.sectionsThere()) {
      double shared = 0;
      for (MapPiece p : map.pieces()) {
        shared += Math.max(0, Math.min(s.to(), p.otherTo()) - Math.max(s.from(), p.otherFrom()));
      }
      if (shared < 0.1 * (s.to() - s.from())) {
        sections.add(
            Report.without(
                s.name(),
                OptionalDouble.empty(),
                OptionalDouble.empty(),
                OptionalDouble.of(s.from()),
                OptionalDouble.of(s.to()),
                Difference.ONLY_THERE));
      }
    }
  }

  private static Comparison notComparable(ComparisonInput input, Alignment alignment) {
    List<Comparison.SectionDifference> sections = new ArrayList<>();
    for (NamedSection s : input.sections()) {
      sections.add(
          Report.without(
              s.name(),
              OptionalDouble.of(s.from()),
              OptionalDouble.of(s.to()),
              OptionalDouble.empty(),
              OptionalDouble.empty(),
              Difference.UNCERTAIN));
    }
    TimeMap map = alignment.timeMap();
    return new Comparison(
        Likeness.NOT_COMPARABLE,
        List.of(),
        0,
        1,
        1,
        0,
        List.of(),
        map.onlyHere(),
        map.onlyThere(),
        OptionalDouble.empty(),
        new Comparison.Whole(OptionalDouble.empty(), OptionalDouble.empty(), List.of(), List.of()),
        sections);
  }

  static double seconds(PcmSource pcm) {
    return pcm.frames() / (double) pcm.sampleRate();
  }
}
