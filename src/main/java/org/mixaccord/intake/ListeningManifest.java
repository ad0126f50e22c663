package org.mixaccord.intake;

import org.mixaccord.audio.FrameRange;

/**
 * How a listening copy is cut. All segments but the last have the same length.
 *
 * @param segmentFrames frames of a segment
 * @param isFlac true for FLAC, false for 32-bit float WAV
 * @param isExact true if every sample is as decoded; false where 32 bits of integer or 64 of float
 *     had to be rounded to what a browser can play
 */
public record ListeningManifest(
    int sampleRate, int channels, long frames, int segmentFrames, boolean isFlac, boolean isExact) {

  /** Number of segments. */
  public int segments() {
    return Math.toIntExact((frames + segmentFrames - 1) / segmentFrames);
  }

  /** Which frames a segment holds. */
  public FrameRange segment(int index) {
    if (index < 0 || index >= segments()) {
      throw new IllegalArgumentException("segment " + index + " of " + segments());
    }
    long from = (long) index * segmentFrames;
    return new FrameRange(from, Math.min(frames, from + segmentFrames));
  }

  /** Media type of the segments and of the whole copy. */
  public String mediaType() {
    return isFlac ? "audio/flac" : "audio/wav";
  }

  String extension() {
    return isFlac ? "flac" : "wav";
  }
}
