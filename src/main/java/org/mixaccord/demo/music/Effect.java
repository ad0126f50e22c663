package org.mixaccord.demo.music;

/** Something a part runs through, in place, block after block. */
interface Effect {
  /** Works on the first {@code count} frames of both channels. */
  void process(double[] left, double[] right, int count);
}
