package org.mixaccord.measure;

import java.util.OptionalDouble;
import java.util.OptionalInt;

/**
 * What was agreed for delivery; whatever is empty is not checked.
 *
 * @param ceilingDbtp highest true peak, dBTP
 * @param ceilingDbfs highest sample, dBFS
 * @param minLufs lowest integrated loudness
 * @param maxLufs highest integrated loudness
 * @param sampleRate frames per second
 * @param bitDepth bits a sample
 */
public record DeliveryLimits(
    OptionalDouble ceilingDbtp,
    OptionalDouble ceilingDbfs,
    OptionalDouble minLufs,
    OptionalDouble maxLufs,
    OptionalInt sampleRate,
    OptionalInt bitDepth) {
  /** Nothing agreed. */
  public static DeliveryLimits none() {
    return new DeliveryLimits(
        OptionalDouble.empty(),
        OptionalDouble.empty(),
        OptionalDouble.empty(),
        OptionalDouble.empty(),
        OptionalInt.empty(),
        OptionalInt.empty());
  }
}
