package org.mixaccord.audio.container;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;

/**
 * Finds the samples of Core Audio files; sizes are not believed beyond the bytes that are there.
 *
 * @see <a
 *     href="https://developer.apple.com/library/archive/documentation/MusicAudio/Reference/CAFSpec/">
 *     Core Audio Format Specification 1.0</a>
 */
public final class CafWalker {
  private static final int MOST_CHUNKS = 10_000;
  private static final int FLOAT = 1;
  private static final int LITTLE_ENDIAN = 2;
  private static final long LAYOUT_BY_BITMAP = 0x10000;

  private final Bytes in;
  private final List<FileDefect> defects = new ArrayList<>();
  private long descriptionAt = -1;
  private long dataAt = -1;
  private long dataDeclared;
  private long packetsAt = -1;
  private long mask;
  private long afterData;

  private CafWalker(ByteSource source) {
    this.in = new Bytes(source, true);
  }

  /**
   * Walks a file whose first bytes were recognised as CAF. Coded sound comes out as {@link
   * SampleCoding#CODED} without a place.
   *
   * @throws IllegalArgumentException if it is none
   */
  public static Walk walk(ByteSource source) throws IOException {
    CafWalker walker = new CafWalker(source);
    if (!walker.in.id(0).equals("caff")) {
      throw new IllegalArgumentException("not a CAF file: " + walker.in.id(0));
    }
    walker.chunks();
    return walker.found();
  }

  /** What a coded file says of its run-up and its length; empty where it says nothing. */
  public static Optional<CodedTiming> timing(ByteSource source) throws IOException {
    CafWalker walker = new CafWalker(source);
    walker.chunks();
    if (walker.packetsAt < 0 || walker.descriptionAt < 0) {
      return Optional.empty();
    }
    long valid = walker.in.i64(walker.packetsAt + 8);
    long priming = walker.in.u32(walker.packetsAt + 16);
    int rate = walker.rate();
    return valid <= 0 || rate < 1
        ? Optional.empty()
        : Optional.of(new CodedTiming(rate, priming, OptionalLong.of(valid), 0));
  }

  private void chunks() throws IOException {
    long at = 8;
    for (int n = 0; n < MOST_CHUNKS && at + 12 <= in.size(); n++) {
      String id = in.id(at);
      long size = in.i64(at + 4);
      long body = at + 12;
      switch (id) {
        case "desc" -> descriptionAt = descriptionAt < 0 ? body : descriptionAt;
        case "pakt" -> packetsAt = packetsAt < 0 ? body : packetsAt;
        case "chan" -> {
          if (in.u32(body) == LAYOUT_BY_BITMAP) {
            mask = in.u32(body + 4);
          }
        }
        case "data" -> {
          if (dataAt < 0) {
            dataAt = body + 4;
            dataDeclared = size < 0 ? -1 : size - 4;
          }
        }
        default -> {
          // Whatever else there is, its size says where the next one begins.
        }
      }
      if (size < 0 || size > in.size() - body) {
        return;
      }
      at = body + size;
      afterData = dataAt >= 0 ? at : afterData;
    }
  }

  private int rate() throws IOException {
    double rate = Double.longBitsToDouble(in.i64(descriptionAt));
    return rate >= 1 && rate <= 1e7 ? (int) Math.round(rate) : 0;
  }

  private Walk found() throws IOException {
    if (descriptionAt < 0) {
      return Walk.Unusable.noAudio(
          "The CAF file does not say how its sound is written. Export it again.");
    }
    int rate = rate();
    int channels = (int) Math.min(in.u32(descriptionAt + 24), 1 << 16);
    long there = in.size() - dataAt;
    if (rate == 0 || channels == 0 || dataAt < 0 || there <= 0) {
      return Walk.Unusable.noAudio(
          "The CAF file has a header but no sound in it. Export it again.");
    }
    String codec = in.id(descriptionAt + 8).strip();
    if (!codec.equals("lpcm")) {
      return new Walk.Found(
          layout(SampleCoding.CODED, codec, rate, channels, 0, 0, false, 0), List.of());
    }
    int flags = (int) in.u32(descriptionAt + 12);
    int bits = (int) Math.min(in.u32(descriptionAt + 28), 999);
    long frameBytes = in.u32(descriptionAt + 16);
    int sampleBytes = (int) Math.min(frameBytes / channels, 9);
    boolean isFloat = (flags & FLOAT) != 0;
    if (sampleBytes * 8 < bits || sampleBytes == 0 || frameBytes % channels != 0) {
      sampleBytes = (bits + 7) / 8;
    }
    boolean usable = isFloat ? sampleBytes == 4 || sampleBytes == 8 : sampleBytes <= 4;
    if (bits == 0 || !usable) {
      return Walk.Unusable.unsupported(
          bits + "-bit samples are not read. Export it as 24-bit WAV.");
    }
    long bytes = bytes(there);
    long frames = bytes / ((long) sampleBytes * channels);
    if (frames == 0) {
      return Walk.Unusable.noAudio(
          "The CAF file has a header but no sound in it. Export it again.");
    }
    if (bytes % ((long) sampleBytes * channels) != 0) {
      defects.add(FileDefect.partialFrame());
    }
    SampleCoding coding = isFloat ? SampleCoding.FLOAT : SampleCoding.SIGNED;
    boolean big = (flags & LITTLE_ENDIAN) == 0;
    return new Walk.Found(
        layout(coding, isFloat ? "float" : "pcm", rate, channels, bits, sampleBytes, big, frames),
        List.of());
  }

  private long bytes(long there) {
    if (dataDeclared < 0) {
      // The format allows this for a last chunk, so it is no defect.
      return there;
    }
    if (dataDeclared == 0) {
      defects.add(FileDefect.unfinishedHeader());
      return there;
    }
    if (dataDeclared > there) {
      defects.add(FileDefect.truncated(there, dataDeclared));
      return there;
    }
    if (in.size() > afterData) {
      defects.add(FileDefect.trailing(in.size() - afterData));
    }
    return dataDeclared;
  }

  private PcmLayout layout(
      SampleCoding coding,
      String codec,
      int rate,
      int channels,
      int bits,
      int sampleBytes,
      boolean bigEndian,
      long frames) {
    return new PcmLayout(
        "CAF",
        coding,
        codec,
        rate,
        channels,
        mask,
        bits,
        sampleBytes,
        bigEndian,
        coding == SampleCoding.CODED ? 0 : dataAt,
        frames,
        defects);
  }
}
