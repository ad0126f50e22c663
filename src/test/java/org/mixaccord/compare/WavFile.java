package org.mixaccord.compare;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.channels.FileChannel;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import org.mixaccord.audio.PcmSource;

/**
 * Reads plain WAV files (16, 24 and 32 bit integer, 32 bit float) for tests on rendered audio. The
 * samples stay in the file: a dozen parts of a song do not fit into a test's memory.
 */
final class WavFile implements PcmSource {
  private final ByteBuffer bytes;
  private final int start;
  private final int channels;
  private final int sampleRate;
  private final int frames;
  private final int bits;
  private final boolean floatingPoint;

  private WavFile(
      ByteBuffer bytes, int start, int size, int channels, int rate, int bits, boolean floating) {
    this.bytes = bytes;
    this.start = start;
    this.channels = channels;
    this.sampleRate = rate;
    this.frames = size / (channels * bits / 8);
    this.bits = bits;
    this.floatingPoint = floating;
  }

  static WavFile read(Path file) throws IOException {
    ByteBuffer in;
    try (FileChannel channel = FileChannel.open(file, StandardOpenOption.READ)) {
      in = channel.map(FileChannel.MapMode.READ_ONLY, 0, channel.size());
    }
    in.order(ByteOrder.LITTLE_ENDIAN).position(12);
    int format = 0;
    int channels = 0;
    int rate = 0;
    int bits = 0;
    while (in.remaining() >= 8) {
      int id = in.getInt();
      int size = in.getInt();
      int at = in.position();
      if (id == 0x20746d66) {
        format = in.getShort() & 0xffff;
        channels = in.getShort();
        rate = in.getInt();
        bits = in.getShort(at + 14);
        format = format == 0xfffe ? in.getShort(at + 24) & 0xffff : format;
      } else if (id == 0x61746164) {
        int held = Math.min(size, in.remaining());
        return new WavFile(in, at, held, channels, rate, bits, format == 3);
      }
      in.position(at + size + (size & 1));
    }
    throw new IOException("no audio in " + file);
  }

  int bits() {
    return bits;
  }

  boolean floatingPoint() {
    return floatingPoint;
  }

  @Override
  public int sampleRate() {
    return sampleRate;
  }

  @Override
  public int channels() {
    return channels;
  }

  @Override
  public long frames() {
    return frames;
  }

  @Override
  public void read(long from, double[][] into, int count) {
    if (from < 0 || count < 0 || from + count > frames) {
      throw new IllegalArgumentException(from + " + " + count + " of " + frames);
    }
    int width = bits / 8;
    int at = start + (int) from * channels * width;
    for (int i = 0; i < count; i++) {
      for (int c = 0; c < channels; c++, at += width) {
        into[c][i] = sample(at);
      }
    }
  }

  private double sample(int at) {
    if (floatingPoint) {
      return bytes.getFloat(at);
    }
    return switch (bits) {
      case 16 -> bytes.getShort(at) / 32768.0;
      case 24 ->
          ((bytes.get(at) & 0xff) | (bytes.get(at + 1) & 0xff) << 8 | bytes.get(at + 2) << 16)
              / 8388608.0;
      case 32 -> bytes.getInt(at) / 2147483648.0;
      default -> throw new IllegalArgumentException(bits + " bits");
    };
  }
}
