package org.mixaccord.audio.container;

import java.util.OptionalLong;

/**
 * How much of what a coded stream decodes to is meant to be heard. Block codings need a run-up and
 * fill their last block; the file says by how much, in ticks of its own clock.
 *
 * @param ticksPerSecond the clock, 1 or more
 * @param startTicks decoded sound in front that is not meant to be heard, 0 or more
 * @param lengthTicks how long the sound is behind that; empty where the file does not say
 * @param silenceTicks silence the file asks for in front of its sound, 0 or more
 */
public record CodedTiming(
    long ticksPerSecond, long startTicks, OptionalLong lengthTicks, long silenceTicks) {

  public CodedTiming {
    boolean badLength = lengthTicks.isPresent() && lengthTicks.getAsLong() < 0;
    if (ticksPerSecond < 1 || startTicks < 0 || silenceTicks < 0 || badLength) {
      throw new IllegalArgumentException(
          ticksPerSecond + " Hz, " + startTicks + " + " + lengthTicks + ", " + silenceTicks);
    }
  }

  /** Frames to leave out in front, at a rate in hertz. */
  public long startFrames(int sampleRate) {
    return frames(startTicks, sampleRate);
  }

  /** Frames that are meant to be heard, at a rate in hertz. */
  public OptionalLong lengthFrames(int sampleRate) {
    return lengthTicks.isEmpty()
        ? lengthTicks
        : OptionalLong.of(frames(lengthTicks.getAsLong(), sampleRate));
  }

  /** Exact where the clock is the sample rate. */
  private long frames(long ticks, int sampleRate) {
    return ticksPerSecond == sampleRate
        ? ticks
        : Math.round((double) ticks * sampleRate / ticksPerSecond);
  }
}
