package org.mixaccord.measure;

/** What the 10 ms cells of a clip hold: sums over the cell's frames, and its peaks. */
final class Cells {
  /** Sum of squares after K-weighting, {@code [channel][cell]}. */
  final double[][] weighted;

  /** Sum of squares, {@code [channel][cell]}. */
  final double[][] energy;

  /** Sum of samples, {@code [channel][cell]}. */
  final double[][] sum;

  /** Sum of L·R; empty unless there are two channels. */
  final double[] product;

  /** Largest |sample| of any channel. */
  final double[] samplePeak;

  /** Frame of the sample peak, counted from the cell's first. */
  final int[] samplePeakAt;

  /** Largest |value| between and at the samples, any channel. */
  final double[] truePeak;

  /** Instant of the true peak in frames from the cell's first. */
  final float[] truePeakAt;

  /** Runs of three or more full-scale samples that begin in the cell, {@code [channel][cell]}. */
  final int[][] clippedRuns;

  /** Inter-sample overs that begin in the cell, all channels together. */
  final int[] interSampleOvers;

  Cells(int channels, int cells) {
    weighted = new double[channels][cells];
    energy = new double[channels][cells];
    sum = new double[channels][cells];
    product = new double[channels == 2 ? cells : 0];
    samplePeak = new double[cells];
    samplePeakAt = new int[cells];
    truePeak = new double[cells];
    truePeakAt = new float[cells];
    clippedRuns = new int[channels][cells];
    interSampleOvers = new int[cells];
  }

  /** Runs of full-scale samples that begin in a cell, all channels together. */
  int clippedRuns(int cell) {
    int runs = 0;
    for (int[] channel : clippedRuns) {
      runs += channel[cell];
    }
    return runs;
  }

  int count() {
    return samplePeak.length;
  }
}
