package org.mixaccord.measure;

import java.util.OptionalDouble;

/**
 * The smallest peak-to-short-term ratio: true peak of a 3 s window minus its short-term loudness.
 * Windows at 10 ms steps, those under −70 LUFS left out.
 *
 * @param db the ratio in dB; empty when there is no such window
 * @param at the window's start in seconds
 */
record PeakToShortTerm(OptionalDouble db, OptionalDouble at) {
  static PeakToShortTerm lowest(MeasureTrack track, int a, int b) {
    double[] power = track.shortTerm();
    double[] peaks = track.cells().truePeak;
    double least = Double.POSITIVE_INFINITY;
    int where = -1;
    double floor = Loudness.power(-70);
    int[] queue = new int[Math.max(0, b - a)];
    int head = 0;
    int tail = 0;
    int lastStart = Math.min(b - Grid.SHORT_TERM, power.length - 1);
    for (int k = a; k < lastStart + Grid.SHORT_TERM; k++) {
      while (tail > head && peaks[queue[tail - 1]] <= peaks[k]) {
        tail--;
      }
      queue[tail++] = k;
      int start = k - Grid.SHORT_TERM + 1;
      if (start < a) {
        continue;
      }
      while (queue[head] < start) {
        head++;
      }
      double peak = peaks[queue[head]];
      // Compared as peak² / power: one logarithm at the end.
      double ratio = peak * peak / power[start];
      if (power[start] > floor && ratio < least) {
        least = ratio;
        where = start;
      }
    }
    if (where < 0) {
      return new PeakToShortTerm(OptionalDouble.empty(), OptionalDouble.empty());
    }
    // lufs() carries the −0.691 of the loudness scale.
    double loudness = Loudness.lufs(power[where]).orElseThrow();
    double peakDb = 10 * Math.log10(least * power[where]);
    return new PeakToShortTerm(
        OptionalDouble.of(peakDb - loudness), OptionalDouble.of(track.grid().seconds(where)));
  }
}
