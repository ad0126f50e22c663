package org.mixaccord.measure;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;

/** Whether the loudness of the whole is what was agreed. */
final class LoudnessFindings {
  /** Loudness limits are held at the one decimal they are written with. */
  private static final double ROUNDING_LU = 0.05;

  private LoudnessFindings() {}

  static List<Finding> of(MeasureTrack track, DeliveryLimits limits) {
    List<Finding> all = new ArrayList<>();
    OptionalDouble integrated = track.whole().integratedLufs();
    if (integrated.isEmpty()) {
      return all;
    }
    double lufs = integrated.getAsDouble();
    double most = limits.maxLufs().orElse(Double.POSITIVE_INFINITY);
    double least = limits.minLufs().orElse(Double.NEGATIVE_INFINITY);
    if (lufs > most + ROUNDING_LU) {
      all.add(outOfSpec(track, "louder", lufs, "most", most));
    }
    if (lufs < least - ROUNDING_LU) {
      all.add(outOfSpec(track, "quieter", lufs, "least", least));
    }
    return all;
  }

  private static Finding outOfSpec(
      MeasureTrack track, String how, double lufs, String bound, double limit) {
    return new Finding(
        "out-of-spec",
        Severity.FAULT,
        "The mix is "
            + how
            + " than agreed: "
            + Words.level(lufs, limit, "LUFS")
            + " over the whole song, at "
            + bound
            + " "
            + Words.level(limit, "LUFS")
            + " was agreed.",
        0,
        track.seconds(),
        OptionalDouble.of(lufs),
        OptionalDouble.of(limit));
  }
}
