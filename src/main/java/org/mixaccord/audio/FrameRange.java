package org.mixaccord.audio;

/**
 * A half-open stretch of frames {@code [from, to)} on one bounce's own time line.
 *
 * @param from first frame, 0 or more
 * @param to the frame after the last one, not before {@code from}
 */
public record FrameRange(long from, long to) {
  public FrameRange {
    if (from < 0 || to < from) {
      throw new IllegalArgumentException("not a range of frames: " + from + " to " + to);
    }
  }

  /** Number of frames in the range. */
  public long frames() {
    return to - from;
  }

  /**
   * The frames nearest to two times, kept inside a clip.
   *
   * @param fromSeconds start in seconds, clamped to the clip
   * @param toSeconds end in seconds, clamped to the clip and to the start
   * @param sampleRate frames per second
   * @param clipFrames length of the clip in frames
   */
  public static FrameRange ofSeconds(
      double fromSeconds, double toSeconds, int sampleRate, long clipFrames) {
    long from = Math.min(clipFrames, Math.max(0, Math.round(fromSeconds * sampleRate)));
    long to = Math.min(clipFrames, Math.max(from, Math.round(toSeconds * sampleRate)));
    return new FrameRange(from, to);
  }
}
