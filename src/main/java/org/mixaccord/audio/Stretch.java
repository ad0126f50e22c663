package org.mixaccord.audio;

import java.io.IOException;

/**
 * A stretch of a clip as a clip of its own.
 *
 * @param source the clip
 * @param range frames of it
 */
public record Stretch(PcmSource source, FrameRange range) implements PcmSource {
  public Stretch {
    if (range.to() > source.frames()) {
      throw new IllegalArgumentException(range + " is not in a clip of " + source.frames());
    }
  }

  @Override
  public int sampleRate() {
    return source.sampleRate();
  }

  @Override
  public int channels() {
    return source.channels();
  }

  @Override
  public long frames() {
    return range.frames();
  }

  @Override
  public void read(long from, double[][] into, int count) throws IOException {
    if (from < 0 || count < 0 || from + count > frames()) {
      throw new IllegalArgumentException(
          "frames " + from + " + " + count + " are outside the stretch of " + frames());
    }
    source.read(range.from() + from, into, count);
  }
}
