package org.mixaccord.measure;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * What the measure track of a bounce gives reason to look at; the codes, and which limits are
 * standards, agreements and habits, stand in {@code FindingCode} and docs/measurement.md.
 */
public final class Findings {
  /** More places of one kind than this are counted and not listed. */
  static final int MOST_OF_A_KIND = 20;

  private Findings() {}

  /** Findings of the audio alone, the worst of each kind first. */
  public static List<Finding> of(MeasureTrack track, DeliveryLimits limits) {
    return of(track, limits, Optional.empty());
  }

  /** Findings of the audio and of what the file says of itself. */
  public static List<Finding> of(MeasureTrack track, DeliveryLimits limits, FileFacts file) {
    return of(track, limits, Optional.of(file));
  }

  private static List<Finding> of(
      MeasureTrack track, DeliveryLimits limits, Optional<FileFacts> file) {
    List<Finding> all = new ArrayList<>();
    if (track.frames() > 0) {
      all.addAll(new PeakFindings(track).work(limits));
      all.addAll(new FlatTopFindings(track, file).work());
      all.addAll(new SignalFindings(track).work());
      all.addAll(new SilenceFindings(track).work());
      all.addAll(new BreakFindings(track).work());
      all.addAll(new MonoFindings(track).work());
      all.addAll(new LossyFindings(track, file).work());
      all.addAll(LoudnessFindings.of(track, limits));
    }
    file.ifPresent(f -> all.addAll(new FormatFindings(track, limits, f).work()));
    return shortened(all);
  }

  /** Keeps the first, so the worst, of each kind, and lets the first say how many there are. */
  private static List<Finding> shortened(List<Finding> all) {
    Map<String, List<Finding>> kinds = new LinkedHashMap<>();
    for (Finding f : all) {
      kinds.computeIfAbsent(f.code(), code -> new ArrayList<>()).add(f);
    }
    List<Finding> kept = new ArrayList<>();
    for (List<Finding> kind : kinds.values()) {
      int n = kind.size();
      for (int i = 0; i < Math.min(n, MOST_OF_A_KIND); i++) {
        Finding f = kind.get(i);
        kept.add(
            i == 0 && n > MOST_OF_A_KIND
                ? f.with(
                    f.severity(),
                    "There are "
                        + n
                        + " places like it; the "
                        + MOST_OF_A_KIND
                        + " that stand out most are listed.")
                : f);
      }
    }
    return List.copyOf(kept);
  }
}
