package org.mixaccord.demo.music;

import java.io.IOException;
import java.io.OutputStream;

/** Writes stereo PCM as a WAV file of 24 bits at 48 kHz whose length is known beforehand. */
final class WavWriter {
  private static final int BYTES_PER_FRAME = 6;
  private static final int HEADER_BYTES = 44;
  private static final double FULL = 8_388_608;
  private final OutputStream out;
  private final byte[] block;

  /** Writes the header; {@code blockFrames} is the most that {@link #write} will be given. */
  WavWriter(OutputStream out, long frames, int blockFrames) throws IOException {
    this.out = out;
    this.block = new byte[blockFrames * BYTES_PER_FRAME];
    byte[] header = new byte[HEADER_BYTES];
    int dataBytes = Math.toIntExact(frames * BYTES_PER_FRAME);
    text(header, 0, "RIFF");
    number(header, 4, dataBytes + HEADER_BYTES - 8, 4);
    text(header, 8, "WAVEfmt ");
    number(header, 16, 16, 4);
    number(header, 20, 1, 2);
    number(header, 22, 2, 2);
    number(header, 24, (int) Waves.RATE, 4);
    number(header, 28, (int) Waves.RATE * BYTES_PER_FRAME, 4);
    number(header, 32, BYTES_PER_FRAME, 2);
    number(header, 34, 24, 2);
    text(header, 36, "data");
    number(header, 40, dataBytes, 4);
    out.write(header);
  }

  /** Size of a file with so many frames. */
  static long bytes(long frames) {
    return HEADER_BYTES + frames * BYTES_PER_FRAME;
  }

  /** Writes frames {@code from … to}, rounded to the nearest of the 24-bit values. */
  void write(double[] left, double[] right, int from, int to) throws IOException {
    int at = 0;
    for (int i = from; i < to; i++) {
      at = sample(left[i], at);
      at = sample(right[i], at);
    }
    out.write(block, 0, at);
  }

  private int sample(double value, int at) {
    int rounded = (int) Math.floor(value * FULL + 0.5);
    int held = Math.max(-8_388_608, Math.min(8_388_607, rounded));
    block[at] = (byte) held;
    block[at + 1] = (byte) (held >> 8);
    block[at + 2] = (byte) (held >> 16);
    return at + 3;
  }

  private static void text(byte[] into, int at, String text) {
    for (int i = 0; i < text.length(); i++) {
      into[at + i] = (byte) text.charAt(i);
    }
  }

  private static void number(byte[] into, int at, int value, int bytes) {
    for (int i = 0; i < bytes; i++) {
      into[at + i] = (byte) (value >> (8 * i));
    }
  }
}
