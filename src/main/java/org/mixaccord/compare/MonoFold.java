package org.mixaccord.compare;

import java.util.List;
import java.util.Optional;

/**
 * One bounce mono, the other stereo: what the mono one lacks is known, and the level is that of the
 * sums of both sides.
 *
 * @param here whether this bounce is the mono one
 * @param gain factor from there to here, positive
 */
record MonoFold(boolean here, double gain) {
  /** Difference of the sides over their sum, power: under the first none, over the second some. */
  private static final double NO_SIDE = 1e-9;

  private static final double SIDE = 1e-5;

  /** A section whose sum moved by less than this differs by nothing but the fold (dB). */
  private static final double SAME_DB = 0.05;

  static Optional<MonoFold> of(List<BandSums> parts) {
    BandSums all = new BandSums(parts.isEmpty() ? 0 : parts.get(0).here.length);
    parts.forEach(all::add);
    boolean here = all.sideHere <= NO_SIDE * all.midHere && all.sideThere > SIDE * all.midThere;
    boolean there = all.sideThere <= NO_SIDE * all.midThere && all.sideHere > SIDE * all.midHere;
    double[] ratios =
        parts.stream()
            .filter(p -> p.midHere > 0 && p.midThere > 0)
            .mapToDouble(p -> Math.sqrt(p.midHere / p.midThere))
            .sorted()
            .toArray();
    return (here || there) && ratios.length > 0
        ? Optional.of(new MonoFold(here, ratios[ratios.length / 2]))
        : Optional.empty();
  }

  String detail() {
    return here ? "this mix is mono, the other stereo" : "this mix is stereo, the other mono";
  }

  /** Whether a section differs by the fold alone. */
  static boolean explains(Comparison c, Comparison.SectionDifference s) {
    boolean folded = c.causes().stream().anyMatch(cause -> cause.code() == CauseCode.MONO);
    return folded
        && s.midChangeDb().isPresent()
        && Math.abs(s.midChangeDb().getAsDouble() - c.gainDb()) < SAME_DB;
  }
}
