package org.mixaccord.measure;

import java.util.List;

/**
 * What the sample-by-sample pass saw and the cells cannot tell.
 *
 * @param firstSample largest |sample| of the very first frame
 * @param nonFinite number of samples that are no numbers
 * @param firstNonFinite frame of the first, if there is one
 * @param lastNonFinite frame of the last, if there is one
 * @param gaps sudden short silences in a channel
 */
record Edges(
    double firstSample, long nonFinite, long firstNonFinite, long lastNonFinite, List<Gap> gaps) {
  Edges {
    gaps = List.copyOf(gaps);
  }

  /** Exact zeros in one channel between two samples that are clearly not zero. */
  record Gap(int channel, long from, long to) {}
}
