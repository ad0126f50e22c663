package org.mixaccord.demo.music;

/** A recorded stroke being played: ready samples at a level and a place. */
final class Hit implements Voice {
  private final double[] left;
  private final double[] right;
  private final double gainLeft;
  private final double gainRight;
  private int at;

  Hit(double[][] samples, double gain, double pan) {
    left = samples[0];
    right = samples[samples.length - 1];
    gainLeft = gain * Math.sqrt(1 - pan);
    gainRight = gain * Math.sqrt(1 + pan);
  }

  @Override
  public boolean add(double[] outLeft, double[] outRight, int from, int to) {
    int count = Math.min(to - from, left.length - at);
    for (int i = 0; i < count; i++) {
      outLeft[from + i] += gainLeft * left[at + i];
      outRight[from + i] += gainRight * right[at + i];
    }
    at += count;
    return at < left.length;
  }
}
