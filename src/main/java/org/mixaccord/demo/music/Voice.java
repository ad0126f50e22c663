package org.mixaccord.demo.music;

/** One sounding note. */
interface Voice {
  /**
   * Adds the next {@code to − from} frames to both channels at {@code from … to}.
   *
   * @return whether the note still sounds afterwards
   */
  boolean add(double[] left, double[] right, int from, int to);
}
