package org.mixaccord.intake;

import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;

/**
 * The bytes of a stereo WAV made from two mono sources, every sample exactly as it was; RF64 where
 * the sizes do not go into 32 bits. Memory does not grow with the length.
 */
public final class PairedWav extends InputStream {
  private static final int BLOCK_FRAMES = 8192;
  private static final int CHANNELS = 2;
  private static final long ALL_ONES = 0xFFFFFFFFL;
  private static final int PCM = 1;
  private static final int FLOAT = 3;

  private final PcmFile left;
  private final PcmFile right;
  private final int sampleBytes;
  private final long length;
  private final double[][] a = new double[1][BLOCK_FRAMES];
  private final double[][] b = new double[1][BLOCK_FRAMES];
  private final ByteBuffer ready;
  private long nextFrame;

  /**
   * A stereo file to be read once.
   *
   * @param left mono, as {@link PcmFile#asStored()} reads it
   * @param right of the same rate, length and sample format
   * @param bits depth of integer samples; the container takes the next whole number of bytes, two
   *     at least
   * @throws IllegalArgumentException where the two do not belong together
   */
  public PairedWav(PcmFile left, PcmFile right, int bits) {
    if (left.channels() != 1
        || right.channels() != 1
        || left.sampleRate() != right.sampleRate()
        || left.frames() != right.frames()
        || left.format() != right.format()) {
      throw new IllegalArgumentException("no pair");
    }
    this.left = left.asStored();
    this.right = right.asStored();
    this.sampleBytes =
        switch (left.format()) {
          case S32 -> Math.max(2, (bits + 7) / 8);
          case F32 -> 4;
          case F64 -> 8;
        };
    this.ready =
        ByteBuffer.allocate(BLOCK_FRAMES * CHANNELS * sampleBytes).order(ByteOrder.LITTLE_ENDIAN);
    head(left.frames() * CHANNELS * sampleBytes);
    this.length = ready.limit() + left.frames() * CHANNELS * sampleBytes;
  }

  /** All of its bytes. */
  public long length() {
    return length;
  }

  private void head(long dataBytes) {
    boolean isFloat = left.format() != SampleFormat.S32;
    int headBytes = 12 + 8 + 16 + (isFloat ? 2 + 12 : 0) + 8;
    boolean isLong = headBytes + dataBytes - 8 >= ALL_ONES;
    id(isLong ? "RF64" : "RIFF");
    ready.putInt((int) (isLong ? ALL_ONES : headBytes + dataBytes - 8));
    id("WAVE");
    if (isLong) {
      id("ds64");
      ready.putInt(28);
      ready.putLong(headBytes + 36 + dataBytes - 8);
      ready.putLong(dataBytes);
      ready.putLong(left.frames());
      ready.putInt(0);
    }
    id("fmt ");
    ready.putInt(isFloat ? 18 : 16);
    ready.putShort((short) (isFloat ? FLOAT : PCM));
    ready.putShort((short) CHANNELS);
    ready.putInt(left.sampleRate());
    ready.putInt(left.sampleRate() * CHANNELS * sampleBytes);
    ready.putShort((short) (CHANNELS * sampleBytes));
    ready.putShort((short) (sampleBytes * 8));
    if (isFloat) {
      ready.putShort((short) 0);
      id("fact");
      ready.putInt(4);
      ready.putInt((int) Math.min(ALL_ONES, left.frames()));
    }
    id("data");
    ready.putInt((int) (isLong ? ALL_ONES : dataBytes));
    ready.flip();
  }

  private void id(String name) {
    ready.put(name.getBytes(StandardCharsets.US_ASCII));
  }

  @Override
  public int read() throws IOException {
    return fill() ? ready.get() & 0xff : -1;
  }

  @Override
  public int read(byte[] into, int at, int count) throws IOException {
    if (count == 0) {
      return 0;
    }
    if (!fill()) {
      return -1;
    }
    int some = Math.min(count, ready.remaining());
    ready.get(into, at, some);
    return some;
  }

  private boolean fill() throws IOException {
    if (ready.hasRemaining()) {
      return true;
    }
    int frames = (int) Math.min(BLOCK_FRAMES, left.frames() - nextFrame);
    if (frames <= 0) {
      return false;
    }
    left.read(nextFrame, a, frames);
    right.read(nextFrame, b, frames);
    nextFrame += frames;
    ready.clear();
    for (int i = 0; i < frames; i++) {
      put(a[0][i]);
      put(b[0][i]);
    }
    ready.flip();
    return true;
  }

  private void put(double sample) {
    switch (left.format()) {
      case S32 -> {
        // Integers come left-justified; what the depth does not use is zero.
        int justified = (int) (sample * 0x1p31);
        for (int shift = 32 - 8 * sampleBytes; shift < 32; shift += 8) {
          ready.put((byte) (justified >> shift));
        }
      }
      case F32 -> ready.putFloat((float) sample);
      case F64 -> ready.putDouble(sample);
    }
  }
}
