package org.mixaccord.measure;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import java.util.function.DoubleFunction;

/**
 * Sets the drop-outs and clicks of a bounce against those of an earlier one: what both have is more
 * likely meant, what only the new one has is more likely damage.
 */
public final class BesideOther {
  private static final double SAME_SECONDS = 0.005;

  private BesideOther() {}

  /**
   * The findings with a word on the other bounce, and more or less severe for it. Findings of
   * another kind, and those whose music the other does not have, stay as they are.
   *
   * @param findings of the bounce
   * @param other track of the other bounce
   * @param toOther the other's time, in seconds, for a time on the bounce; empty where its music is
   *     not in the other
   * @param name what people call the other
   */
  public static List<Finding> judge(
      List<Finding> findings,
      MeasureTrack other,
      DoubleFunction<OptionalDouble> toOther,
      String name) {
    List<Finding> theirs = new BreakFindings(other).work();
    List<Finding> all = new ArrayList<>();
    for (Finding f : findings) {
      boolean dropout = f.code().equals("dropout");
      OptionalDouble there =
          dropout || f.code().equals("click")
              ? toOther.apply(f.fromSeconds())
              : OptionalDouble.empty();
      if (there.isEmpty()) {
        all.add(f);
      } else if (has(theirs, f.code(), there.getAsDouble())) {
        all.add(f.with(Severity.HINT, name + " has the same, so it may be meant."));
      } else {
        all.add(f.with(dropout ? Severity.FAULT : Severity.WARNING, name + " does not have this."));
      }
    }
    return List.copyOf(all);
  }

  private static boolean has(List<Finding> theirs, String code, double at) {
    return theirs.stream()
        .anyMatch(t -> t.code().equals(code) && Math.abs(t.fromSeconds() - at) <= SAME_SECONDS);
  }
}
