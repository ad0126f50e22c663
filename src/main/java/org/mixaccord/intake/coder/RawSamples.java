package org.mixaccord.intake.coder;

import java.io.EOFException;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.channels.FileChannel;

/**
 * The interleaved little-endian samples on standard input as 32-bit float, full scale ±1.0, from
 * their beginning as often as wanted. What is no number is silence.
 */
final class RawSamples {
  private static final float S32_SCALE = 0x1p-31f;

  private final FileChannel channel = StandardInput.FILE;
  private final String format;
  private final int sampleBytes;
  private final int channels;
  private long position;

  /**
   * @param format {@code s32}, {@code f32} or {@code f64}
   */
  RawSamples(String format, int channels) throws IOException {
    this.format = format;
    this.channels = channels;
    this.sampleBytes =
        switch (format) {
          case "s32", "f32" -> 4;
          case "f64" -> 8;
          default -> throw new IOException("no samples are called " + format);
        };
  }

  void toBeginning() {
    position = 0;
  }

  /** The next frames, interleaved. */
  float[] next(int frames) throws IOException {
    ByteBuffer raw =
        ByteBuffer.allocate(frames * channels * sampleBytes).order(ByteOrder.LITTLE_ENDIAN);
    while (raw.hasRemaining()) {
      int some = channel.read(raw, position);
      if (some < 0) {
        throw new EOFException("the samples end before their number does");
      }
      position += some;
    }
    raw.flip();
    float[] samples = new float[frames * channels];
    for (int i = 0; i < samples.length; i++) {
      float sample =
          switch (format) {
            case "s32" -> raw.getInt() * S32_SCALE;
            case "f32" -> raw.getFloat();
            default -> (float) raw.getDouble();
          };
      samples[i] = Float.isFinite(sample) ? sample : 0;
    }
    return samples;
  }
}
