package org.mixaccord.audio;

import java.util.Arrays;

/** A clip in which nothing sounds. */
public record Silence(int sampleRate, int channels, long frames) implements PcmSource {
  @Override
  public void read(long from, double[][] into, int count) {
    if (from < 0 || count < 0 || from + count > frames) {
      throw new IllegalArgumentException(
          "frames " + from + " + " + count + " are outside of " + frames);
    }
    for (double[] channel : into) {
      Arrays.fill(channel, 0, count, 0);
    }
  }
}
