package org.mixaccord.measure;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * What the measure track of a bounce gives reason to look at: {@code over}, {@code clipped}, {@code
 * intersample-over}, {@code digital-silence}, {@code one-sided-silence}, {@code dc-offset}, {@code
 * cut-head}, {@code cut-tail}, {@code dropout}, {@code mono-loss}, {@code not-a-number}, {@code
 * out-of-spec}. Which limits are standards and which are habits: docs/measurement.md.
 */
public final class Findings {
  /** Loudness limits are held at the one decimal they are written with. */
  private static final double LOUDNESS_ROUNDING_LU = 0.05;

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
      all.addAll(new SignalFindings(track).work());
      all.addAll(new MonoFindings(track).work());
      loudness(track, limits, all);
    }
    file.ifPresent(f -> format(track, limits, f, all));
    return List.copyOf(all);
  }

  private static void loudness(MeasureTrack track, DeliveryLimits limits, List<Finding> all) {
    OptionalDouble integrated = track.whole().integratedLufs();
    if (integrated.isEmpty()) {
      return;
    }
    double lufs = integrated.getAsDouble();
    if (limits.maxLufs().isPresent()
        && lufs > limits.maxLufs().getAsDouble() + LOUDNESS_ROUNDING_LU) {
      double most = limits.maxLufs().getAsDouble();
      all.add(
          outOfSpec(
              track,
              "The mix is louder than agreed: "
                  + Words.level(lufs, most, "LUFS")
                  + " over the whole song, at most "
                  + Words.level(most, "LUFS")
                  + " was agreed.",
              lufs,
              most));
    }
    if (limits.minLufs().isPresent()
        && lufs < limits.minLufs().getAsDouble() - LOUDNESS_ROUNDING_LU) {
      double least = limits.minLufs().getAsDouble();
      all.add(
          outOfSpec(
              track,
              "The mix is quieter than agreed: "
                  + Words.level(lufs, least, "LUFS")
                  + " over the whole song, at least "
                  + Words.level(least, "LUFS")
                  + " was agreed.",
              lufs,
              least));
    }
  }

  private static void format(
      MeasureTrack track, DeliveryLimits limits, FileFacts file, List<Finding> all) {
    if (limits.sampleRate().isPresent() && limits.sampleRate().getAsInt() != file.sampleRate()) {
      int agreed = limits.sampleRate().getAsInt();
      all.add(
          outOfSpec(
              track,
              "The file has a sample rate of "
                  + Words.hertz(file.sampleRate())
                  + "; "
                  + Words.hertz(agreed)
                  + " was agreed.",
              file.sampleRate(),
              agreed));
    }
    if (limits.bitDepth().isEmpty()) {
      return;
    }
    int agreed = limits.bitDepth().getAsInt();
    if (file.bitDepth().isPresent() && file.bitDepth().getAsInt() != agreed) {
      all.add(
          outOfSpec(
              track,
              "The file has "
                  + file.bitDepth().getAsInt()
                  + " bits a sample; "
                  + agreed
                  + " bits were agreed.",
              file.bitDepth().getAsInt(),
              agreed));
    } else if (file.lossy()) {
      all.add(
          new Finding(
              "out-of-spec",
              Severity.FAULT,
              "The file is lossy; a file of " + agreed + " bits a sample was agreed.",
              0,
              track.seconds(),
              OptionalDouble.empty(),
              OptionalDouble.of(agreed)));
    }
  }

  private static Finding outOfSpec(MeasureTrack track, String detail, double value, double limit) {
    return new Finding(
        "out-of-spec",
        Severity.FAULT,
        detail,
        0,
        track.seconds(),
        OptionalDouble.of(value),
        OptionalDouble.of(limit));
  }
}
