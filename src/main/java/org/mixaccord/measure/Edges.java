package org.mixaccord.measure;

/**
 * What the sample-by-sample pass saw of the clip's first frame and of broken samples.
 *
 * @param firstSample largest |sample| of the very first frame
 * @param nonFinite number of samples that are no numbers
 * @param firstNonFinite frame of the first, if there is one
 * @param lastNonFinite frame of the last, if there is one
 */
record Edges(double firstSample, long nonFinite, long firstNonFinite, long lastNonFinite) {}
