package org.mixaccord.compare;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.channels.FileChannel;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import org.mixaccord.audio.ArrayPcm;

/** Reads plain WAV files (16, 24 and 32 bit integer, 32 bit float) for tests on rendered audio. */
record WavFile(ArrayPcm pcm, int bits, boolean floatingPoint) {
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
      int start = in.position();
      if (id == 0x20746d66) {
        format = in.getShort() & 0xffff;
        channels = in.getShort();
        rate = in.getInt();
        bits = in.getShort(start + 14);
        format = format == 0xfffe ? in.getShort(start + 24) & 0xffff : format;
      } else if (id == 0x61746164) {
        int frames = Math.min(size, in.remaining()) / (channels * bits / 8);
        return new WavFile(
            new ArrayPcm(rate, samples(in, frames, channels, bits, format == 3)),
            bits,
            format == 3);
      }
      in.position(start + size + (size & 1));
    }
    throw new IOException("no audio in " + file);
  }

  private static double[][] samples(
      ByteBuffer in, int frames, int channels, int bits, boolean floating) {
    double[][] out = new double[channels][frames];
    for (int i = 0; i < frames; i++) {
      for (int c = 0; c < channels; c++) {
        out[c][i] =
            floating
                ? in.getFloat()
                : switch (bits) {
                  case 16 -> in.getShort() / 32768.0;
                  case 24 ->
                      ((in.get() & 0xff) | (in.get() & 0xff) << 8 | in.get() << 16) / 8388608.0;
                  case 32 -> in.getInt() / 2147483648.0;
                  default -> throw new IllegalArgumentException(bits + " bits");
                };
      }
    }
    return out;
  }
}
