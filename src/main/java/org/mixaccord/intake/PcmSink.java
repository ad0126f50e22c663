package org.mixaccord.intake;

import java.io.Closeable;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.security.MessageDigest;
import java.util.Optional;
import java.util.OptionalInt;
import org.mixaccord.audio.container.FileDefect;
import org.mixaccord.storage.DerivedFiles;
import org.mixaccord.storage.Sha256;

/** Takes decoded samples as they come: writes, hashes, counts and looks at them once. */
final class PcmSink implements Closeable {
  private static final long CHECK_DISK_EVERY_BYTES = 64L << 20;

  private final SampleFormat format;
  private final int sampleRate;
  private final int channels;
  private final DerivedFiles derived;
  private final long maxBytes;
  private final MessageDigest digest = Sha256.digest();
  private final FileChannel out;
  private final ChannelWatch watch;
  private long bytes;
  private long roomUntil;
  private int usedBits;
  private double highest;
  private long nonFinite;
  private long firstNonFinite = -1;
  private long lastNonFinite = -1;

  PcmSink(
      Path file,
      SampleFormat format,
      int sampleRate,
      int channels,
      DerivedFiles derived,
      long maxBytes)
      throws IOException {
    this.format = format;
    this.sampleRate = sampleRate;
    this.channels = channels;
    this.derived = derived;
    this.maxBytes = maxBytes;
    this.watch = new ChannelWatch(format.bytes(), channels);
    this.out = FileChannel.open(file, StandardOpenOption.WRITE);
    String head = format.wireName() + " " + sampleRate + " " + channels + "\n";
    digest.update(head.getBytes(StandardCharsets.US_ASCII));
  }

  /** The samples went beyond what is allowed, or the disk beyond its reserve. */
  static final class Full extends IOException {
    private static final long serialVersionUID = 1L;
    private final boolean disk;

    Full(boolean disk) {
      super(disk ? "disk full" : "too long");
      this.disk = disk;
    }

    boolean isDisk() {
      return disk;
    }
  }

  /** Takes whole frames in the sink's own format. */
  void take(byte[] samples, int from, int count) throws IOException {
    if (count % (format.bytes() * channels) != 0) {
      throw new IllegalArgumentException(count + " bytes are no whole frames");
    }
    if (bytes + count > maxBytes) {
      throw new Full(false);
    }
    if (bytes + count > roomUntil) {
      long room = derived.roomBytes();
      if (room < count) {
        throw new Full(true);
      }
      roomUntil = bytes + Math.min(room, CHECK_DISK_EVERY_BYTES);
    }
    look(ByteBuffer.wrap(samples, from, count).order(ByteOrder.LITTLE_ENDIAN));
    watch.take(samples, from, count);
    digest.update(samples, from, count);
    ByteBuffer buffer = ByteBuffer.wrap(samples, from, count);
    while (buffer.hasRemaining()) {
      out.write(buffer);
    }
    bytes += count;
  }

  private void look(ByteBuffer samples) {
    switch (format) {
      case S32 -> {
        int used = 0;
        while (samples.hasRemaining()) {
          used |= samples.getInt();
        }
        usedBits |= used;
      }
      case F32 -> {
        for (long at = bytes / 4; samples.hasRemaining(); at++) {
          look(samples.getFloat(), at);
        }
      }
      case F64 -> {
        for (long at = bytes / 8; samples.hasRemaining(); at++) {
          look(samples.getDouble(), at);
        }
      }
    }
  }

  private void look(double sample, long at) {
    double level = Math.abs(sample);
    if (level <= highest) {
      return;
    }
    if (level <= Double.MAX_VALUE) {
      highest = level;
      return;
    }
    nonFinite++;
    long frame = at / channels;
    firstNonFinite = firstNonFinite < 0 ? frame : firstNonFinite;
    lastNonFinite = frame;
  }

  long frames() {
    return bytes / format.bytes() / channels;
  }

  int sampleRate() {
    return sampleRate;
  }

  /** Bits used by integer samples; empty for floats and for silence. */
  OptionalInt significantBits() {
    return format != SampleFormat.S32 || usedBits == 0
        ? OptionalInt.empty()
        : OptionalInt.of(32 - Integer.numberOfTrailingZeros(usedBits));
  }

  /** Highest finite sample of float material, full scale 1.0. */
  double highest() {
    return highest;
  }

  /** Whether every sample is zero. */
  boolean isSilent() {
    return format == SampleFormat.S32 ? usedBits == 0 : highest == 0 && nonFinite == 0;
  }

  /** What is odd about the channels, if anything. */
  Optional<FileDefect> channelDefect() {
    return watch.found();
  }

  long nonFinite() {
    return nonFinite;
  }

  double firstNonFiniteSeconds() {
    return (double) firstNonFinite / sampleRate;
  }

  double lastNonFiniteSeconds() {
    return (double) (lastNonFinite + 1) / sampleRate;
  }

  /** The hash of all that was taken; call once, at the end. */
  Sha256 hash() {
    return Sha256.of(digest);
  }

  @Override
  public void close() throws IOException {
    out.close();
  }
}
