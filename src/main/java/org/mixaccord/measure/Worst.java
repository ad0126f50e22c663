package org.mixaccord.measure;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.PriorityQueue;

/** Keeps the worst of what comes, up to a number, and counts the rest. */
final class Worst<T> {
  private final int most;
  private final PriorityQueue<T> kept;
  private long left;

  /**
   * @param mildestFirst orders what comes from the mildest to the worst
   */
  Worst(int most, Comparator<T> mildestFirst) {
    this.most = most;
    this.kept = new PriorityQueue<>(mildestFirst);
  }

  void add(T item) {
    kept.add(item);
    if (kept.size() > most) {
      kept.remove();
      left++;
    }
  }

  /** What was kept, the worst first. */
  List<T> list() {
    List<T> all = new ArrayList<>(kept);
    all.sort(kept.comparator());
    java.util.Collections.reverse(all);
    return all;
  }

  /** How many came that were not kept. */
  long left() {
    return left;
  }
}
