package org.mixaccord.measure;

/** The most heap that was in use beyond what was in use at the start, as seen at each look. */
final class HeapWatch {
  private final long before;
  private long largest;

  HeapWatch() {
    System.gc();
    before = used();
  }

  void look() {
    largest = Math.max(largest, used() - before);
  }

  long largestMegabytes() {
    return largest >> 20;
  }

  private static long used() {
    Runtime runtime = Runtime.getRuntime();
    return runtime.totalMemory() - runtime.freeMemory();
  }
}
