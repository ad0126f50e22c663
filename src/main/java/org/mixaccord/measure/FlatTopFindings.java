package org.mixaccord.measure;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

/** Peaks that are flat although they lie under full scale. */
final class FlatTopFindings {
  private static final int LEAST_RUNS = 6; // of one value, in one channel
  private static final int BITS_24 = 24;
  private static final int BITS_16 = 16;

  private final MeasureTrack track;
  private final int tolerance;

  FlatTopFindings(MeasureTrack track, Optional<FileFacts> file) {
    this.track = track;
    this.tolerance = file.map(f -> tolerance(f, track)).orElse(0);
  }

  /** Which of {@link FlatTopFinder#WIDTHS} a file's word length calls for. */
  private static int tolerance(FileFacts file, MeasureTrack track) {
    int bits =
        file.floating()
            ? track.marks().gridBits().orElse(Integer.MAX_VALUE)
            : file.usedBits().orElse(file.bitDepth().orElse(Integer.MAX_VALUE));
    return bits <= BITS_16 ? 2 : bits <= BITS_24 ? 1 : 0;
  }

  List<Finding> work() {
    List<Finding> all = new ArrayList<>();
    List<Marks.FlatTop> tops =
        track.marks().flatTops().stream()
            .filter(t -> t.tolerance() == tolerance && t.runs() >= LEAST_RUNS)
            .filter(t -> t.level() < MeasureTrack.FULL_SCALE)
            .toList();
    for (int c = 0; c < track.channels(); c++) {
      int channel = c;
      List<Marks.FlatTop> mine = tops.stream().filter(t -> t.channel() == channel).toList();
      if (!mine.isEmpty()) {
        all.add(finding(channel, mine));
      }
    }
    all.sort(Comparator.comparingDouble(f -> -f.value().getAsDouble()));
    return all;
  }

  private Finding finding(int channel, List<Marks.FlatTop> tops) {
    int runs = 0;
    double level = 0;
    long from = Long.MAX_VALUE;
    long to = 0;
    Marks.Stretch densest = tops.get(0).stretches().get(0);
    for (Marks.FlatTop top : tops) {
      runs += top.runs();
      level = Math.max(level, top.level());
      for (Marks.Stretch s : top.stretches()) {
        from = Math.min(from, s.from());
        to = Math.max(to, s.to());
        densest = s.runs() > densest.runs() ? s : densest;
      }
    }
    double rate = track.sampleRate();
    return new Finding(
        "flat-tops",
        Severity.WARNING,
        runs
            + " peaks"
            + Words.in(channel, track.channels())
            + " are cut off flat at the same level, "
            + Words.level(20 * Math.log10(level), "dBFS")
            + ", most of them from "
            + Words.time(densest.from() / rate)
            + ". It looks as if the sound was clipped and turned down afterwards.",
        from / rate,
        to / rate,
        OptionalDouble.of(runs),
        OptionalDouble.of(LEAST_RUNS));
  }
}
