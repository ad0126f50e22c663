package org.mixaccord.measure;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;

/**
 * One figure that was agreed for delivery, held against what a bounce has. Judged with the same
 * tolerances as the findings {@code over} and {@code out-of-spec}; here what is met is said as
 * well.
 *
 * @param field name of the field in {@link DeliveryLimits}
 * @param agreed the figure agreed, in the unit of the field's name (bits, Hz, LUFS, dBTP, dBFS)
 * @param found what the bounce has, same unit; empty where it has none
 * @param met whether the agreement is kept; empty where that can't be told
 * @param words one sentence without figures
 */
public record Agreed(
    String field, double agreed, OptionalDouble found, Optional<Boolean> met, String words) {
  private static final double PEAK_ROUNDING_DB = 0.005;
  private static final double METER_TOLERANCE_DB = 0.3; // EBU R 128
  private static final double LOUDNESS_ROUNDING_LU = 0.05;

  /** Every figure that was agreed, in the order of {@link DeliveryLimits}. */
  public static List<Agreed> of(MeasureTrack track, DeliveryLimits limits, FileFacts file) {
    Measurements whole = track.whole();
    List<Agreed> all = new ArrayList<>();
    limits
        .ceilingDbtp()
        .ifPresent(
            c -> all.add(ceiling("ceilingDbtp", c, whole.truePeakDbtp(), "true peak", true)));
    limits
        .ceilingDbfs()
        .ifPresent(
            c ->
                all.add(
                    ceiling("ceilingDbfs", c, whole.samplePeakDbfs(), "highest sample", false)));
    limits.minLufs().ifPresent(l -> all.add(loudness("minLufs", l, whole.integratedLufs(), true)));
    limits.maxLufs().ifPresent(l -> all.add(loudness("maxLufs", l, whole.integratedLufs(), false)));
    limits.sampleRate().ifPresent(r -> all.add(rate(r, file.sampleRate())));
    limits.bitDepth().ifPresent(b -> all.add(depth(b, file)));
    return List.copyOf(all);
  }

  private static Agreed ceiling(
      String field, double agreed, OptionalDouble found, String what, boolean truePeak) {
    double over = found.orElse(Double.NEGATIVE_INFINITY) - agreed;
    boolean met = over <= PEAK_ROUNDING_DB;
    String words =
        "The "
            + what
            + (met
                ? " stays under the agreed ceiling."
                : truePeak && over <= METER_TOLERANCE_DB
                    ? " goes over the agreed ceiling, by no more than two right meters may differ."
                    : " goes over the agreed ceiling.");
    return new Agreed(field, agreed, found, Optional.of(met), words);
  }

  private static Agreed loudness(
      String field, double agreed, OptionalDouble found, boolean atLeast) {
    if (found.isEmpty()) {
      return new Agreed(
          field, agreed, found, Optional.empty(), "The mix has no loudness over the whole song.");
    }
    double beyond = atLeast ? agreed - found.getAsDouble() : found.getAsDouble() - agreed;
    boolean met = beyond <= LOUDNESS_ROUNDING_LU;
    String words =
        "The mix is "
            + (met
                ? "no " + (atLeast ? "quieter" : "louder") + " than agreed."
                : (atLeast ? "quieter" : "louder") + " than agreed.");
    return new Agreed(field, agreed, found, Optional.of(met), words);
  }

  private static Agreed rate(int agreed, int found) {
    boolean met = agreed == found;
    return new Agreed(
        "sampleRate",
        agreed,
        OptionalDouble.of(found),
        Optional.of(met),
        met ? "The sample rate is the agreed one." : "The sample rate is not the agreed one.");
  }

  private static Agreed depth(int agreed, FileFacts file) {
    OptionalInt bits = file.bitDepth();
    if (bits.isEmpty()) {
      return new Agreed(
          "bitDepth",
          agreed,
          OptionalDouble.empty(),
          file.lossy() ? Optional.of(false) : Optional.empty(),
          file.lossy()
              ? "The file is lossy; a file with a word length was agreed."
              : "The file does not say its word length.");
    }
    boolean met = bits.getAsInt() == agreed;
    return new Agreed(
        "bitDepth",
        agreed,
        OptionalDouble.of(bits.getAsInt()),
        Optional.of(met),
        met ? "The word length is the agreed one." : "The word length is not the agreed one.");
  }
}
