package org.mixaccord.intake;

import java.io.EOFException;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.DoubleBuffer;
import java.nio.FloatBuffer;
import java.nio.IntBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import org.mixaccord.audio.PcmSource;

/**
 * Decoded samples on disk, read at any place. Full scale is ±1.0; what is no number reads as
 * silence unless {@link #asStored} is asked for. Files of any length; not for use by several
 * threads at once.
 */
public final class PcmFile implements PcmSource, AutoCloseable {
  private static final int BUFFER_BYTES = 1 << 18;
  private static final double S32_SCALE = 0x1p-31;

  private final FileChannel channel;
  private final SampleFormat format;
  private final int sampleRate;
  private final int channels;
  private final long frames;
  private final ByteBuffer buffer;
  private boolean asStored;

  private PcmFile(FileChannel channel, SampleFormat format, int sampleRate, int channels)
      throws IOException {
    this.channel = channel;
    this.format = format;
    this.sampleRate = sampleRate;
    this.channels = channels;
    int frameBytes = format.bytes() * channels;
    this.frames = channel.size() / frameBytes;
    int whole = Math.max(1, BUFFER_BYTES / frameBytes) * frameBytes;
    this.buffer = ByteBuffer.allocate(whole).order(ByteOrder.LITTLE_ENDIAN);
  }

  /** Opens a raw interleaved little-endian file. */
  public static PcmFile open(Path file, SampleFormat format, int sampleRate, int channels)
      throws IOException {
    if (sampleRate < 1 || channels < 1) {
      throw new IllegalArgumentException(sampleRate + " Hz, " + channels + " channels");
    }
    FileChannel channel = FileChannel.open(file, StandardOpenOption.READ);
    try {
      return new PcmFile(channel, format, sampleRate, channels);
    } catch (IOException e) {
      channel.close();
      throw e;
    }
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
  public boolean integers() {
    return format == SampleFormat.S32;
  }

  /** From now on samples that are no numbers are read as they are, for whoever looks for them. */
  public PcmFile asStored() {
    asStored = true;
    return this;
  }

  /** How the samples are kept. */
  public SampleFormat format() {
    return format;
  }

  @Override
  public void read(long from, double[][] into, int count) throws IOException {
    if (from < 0 || count < 0 || from + count > frames) {
      throw new IllegalArgumentException(
          "frames " + from + " to " + (from + count) + " of " + frames);
    }
    int frameBytes = format.bytes() * channels;
    int done = 0;
    while (done < count) {
      int some = Math.min(count - done, buffer.capacity() / frameBytes);
      fill((from + done) * frameBytes, some * frameBytes);
      switch (format) {
        case S32 -> integers(into, done, some);
        case F32 -> floats(into, done, some);
        case F64 -> doubles(into, done, some);
      }
      done += some;
    }
  }

  // One loop each: choosing the format for every sample took longer than reading it.
  private void integers(double[][] into, int at, int frames) {
    IntBuffer samples = buffer.asIntBuffer();
    for (int c = 0; c < channels; c++) {
      double[] x = into[c];
      for (int i = 0, s = c; i < frames; i++, s += channels) {
        x[at + i] = samples.get(s) * S32_SCALE;
      }
    }
  }

  private void floats(double[][] into, int at, int frames) {
    FloatBuffer samples = buffer.asFloatBuffer();
    for (int c = 0; c < channels; c++) {
      double[] x = into[c];
      for (int i = 0, s = c; i < frames; i++, s += channels) {
        x[at + i] = orSilence(samples.get(s));
      }
    }
  }

  private void doubles(double[][] into, int at, int frames) {
    DoubleBuffer samples = buffer.asDoubleBuffer();
    for (int c = 0; c < channels; c++) {
      double[] x = into[c];
      for (int i = 0, s = c; i < frames; i++, s += channels) {
        x[at + i] = orSilence(samples.get(s));
      }
    }
  }

  private double orSilence(double value) {
    return asStored || Double.isFinite(value) ? value : 0;
  }

  private void fill(long position, int count) throws IOException {
    buffer.clear().limit(count);
    long at = position;
    while (buffer.hasRemaining()) {
      int some = channel.read(buffer, at);
      if (some < 0) {
        throw new EOFException("decoded samples end early");
      }
      at += some;
    }
    buffer.flip();
  }

  @Override
  public void close() throws IOException {
    channel.close();
  }
}
