package org.mixaccord.audio;

import java.io.IOException;

/**
 * Random access to decoded PCM, planar, full scale = ±1.0 (float material may exceed it).
 *
 * <p>Implementations need not be safe for use by several threads at once.
 */
public interface PcmSource {
  /** Frames per second, 8000 to 192000 for measuring. */
  int sampleRate();

  /** Number of channels, 1 or more. */
  int channels();

  /** Length in frames. */
  long frames();

  /** Whether the samples are stored as whole numbers, whose used bits are known already. */
  default boolean integers() {
    return false;
  }

  /**
   * Copies frames {@code from … from + count} to {@code into[channel][0 … count)}.
   *
   * @throws IllegalArgumentException if the range does not lie inside the clip
   * @throws IOException if the samples cannot be read
   */
  void read(long from, double[][] into, int count) throws IOException;
}
