package org.mixaccord.measure;

import java.util.ArrayList;
import java.util.List;
import java.util.function.IntPredicate;
import java.util.function.IntToDoubleFunction;

/** A stretch of cells {@code [from, to)} that share something, and the one where it is worst. */
record Place(int from, int to, int worst) {
  /**
   * The stretches of cells that fit, joined where less than {@code join} cells lie between.
   *
   * @param badness what makes one cell worse than another
   */
  static List<Place> where(int cells, int join, IntPredicate fits, IntToDoubleFunction badness) {
    List<Place> places = new ArrayList<>();
    int from = -1;
    int to = -1;
    int worst = -1;
    for (int k = 0; k < cells; k++) {
      if (!fits.test(k)) {
        continue;
      }
      if (from >= 0 && k - to >= join) {
        places.add(new Place(from, to, worst));
        from = -1;
      }
      if (from < 0) {
        from = k;
        worst = k;
      } else if (badness.applyAsDouble(k) > badness.applyAsDouble(worst)) {
        worst = k;
      }
      to = k + 1;
    }
    if (from >= 0) {
      places.add(new Place(from, to, worst));
    }
    return places;
  }
}
