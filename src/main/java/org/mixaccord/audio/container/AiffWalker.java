package org.mixaccord.audio.container;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/**
 * Finds the samples of AIFF and AIFF-C files; chunks in any order, sizes never believed beyond the
 * bytes that are there.
 *
 * @see <a href="https://www.loc.gov/preservation/digital/formats/fdd/fdd000005.shtml">AIFF 1.3 and
 *     AIFF-C (draft of 1991)</a>
 */
public final class AiffWalker {
  private static final int MOST_CHUNKS = 10_000;
  private static final int ORDER_SAMPLES = 4096;

  private final Bytes in;
  private final boolean compressed;
  private final List<FileDefect> defects = new ArrayList<>();
  private long commonAt = -1;
  private long commonSize;
  private long soundAt = -1;
  private long soundDeclared;
  private List<FileMarker> markers = List.of();

  private AiffWalker(ByteSource source, boolean compressed) {
    this.in = new Bytes(source, true);
    this.compressed = compressed;
  }

  /**
   * Walks a file whose first bytes were recognised as AIFF or AIFF-C.
   *
   * @throws IllegalArgumentException if it is neither
   */
  public static Walk walk(ByteSource source) throws IOException {
    Bytes head = new Bytes(source, true);
    String form = head.id(8);
    if (!head.id(0).equals("FORM") || !(form.equals("AIFF") || form.equals("AIFC"))) {
      throw new IllegalArgumentException("not an AIFF file: " + form);
    }
    return new AiffWalker(source, form.equals("AIFC")).walk();
  }

  /** How one compression type writes its samples. */
  private record Form(SampleCoding coding, String codec, int bits, boolean bigEndian) {}

  private Walk walk() throws IOException {
    long at = 12;
    for (int n = 0; n < MOST_CHUNKS && at + 8 <= in.size(); n++) {
      String id = in.id(at);
      long size = in.u32(at + 4);
      if (id.equals("COMM") && commonAt < 0) {
        commonAt = at + 8;
        commonSize = size;
      } else if (id.equals("SSND") && soundAt < 0) {
        soundAt = at + 8;
        soundDeclared = size;
      } else if (id.equals("MARK") && markers.isEmpty()) {
        markers = AiffMarkers.read(in, at + 8, size);
      }
      long end = at + 8 + size;
      at = end + (size & 1);
      if ((size & 1) == 1 && Bytes.looksLikeId(in.id(end)) && !Bytes.looksLikeId(in.id(end + 1))) {
        at = end;
      }
    }
    if (commonAt < 0) {
      return Walk.Unusable.noAudio(
          "The AIFF file does not say how its sound is written. Export it again.");
    }
    int channels = in.u16(commonAt);
    int rate = sampleRate(commonAt + 8);
    if (channels == 0 || rate == 0 || soundAt < 0) {
      return Walk.Unusable.noAudio(
          "The AIFF file has a header but no sound in it. Export it again.");
    }
    int bits = in.u16(commonAt + 6);
    String type = compressed && commonSize >= 22 ? in.id(commonAt + 18) : "NONE";
    Form form = form(type, bits);
    if (form.coding == SampleCoding.CODED && form.codec.isEmpty()) {
      return Walk.Unusable.unsupported(
          "The AIFF file holds sound in a coding that is not read here (\""
              + type.strip()
              + "\"). Export it as 24-bit WAV.");
    }
    if (form.bits == 0 || (form.coding == SampleCoding.SIGNED && form.bits > 32)) {
      return Walk.Unusable.unsupported(
          form.bits + "-bit samples are not read. Export it as 24-bit WAV.");
    }
    return locate(form, channels, rate);
  }

  private Walk locate(Form form, int channels, int rate) throws IOException {
    String container = compressed ? "AIFF-C" : "AIFF";
    long data = soundAt + 8 + in.u32(soundAt);
    long declared = soundDeclared - 8 - in.u32(soundAt);
    long there = in.size() - data;
    if (form.coding == SampleCoding.CODED) {
      return there <= 0
          ? Walk.Unusable.noAudio("The AIFF file has a header but no sound in it. Export it again.")
          : new Walk.Found(
              new PcmLayout(
                  container,
                  form.coding,
                  form.codec,
                  rate,
                  channels,
                  0,
                  form.bits,
                  0,
                  true,
                  data,
                  0,
                  defects),
              markers);
    }
    int sampleBytes = (form.bits + 7) / 8;
    int frameBytes = sampleBytes * channels;
    long promised = in.u32(commonAt + 2);
    long bytes = Math.min(declared, there);
    if (declared <= 0 || declared > 0xFFFF_0000L) {
      bytes = there;
      defects.add(FileDefect.unfinishedHeader());
    } else if (declared > there) {
      defects.add(FileDefect.truncated(Math.max(0, there), declared));
    }
    long frames = Math.max(0, bytes) / frameBytes;
    if (declared > 0 && bytes == declared && promised > 0 && promised != frames) {
      boolean missing = promised > frames;
      defects.add(
          FileDefect.whole(
              "lying-sizes",
              "The file says in two places how long it is, and they differ ("
                  + promised
                  + " and "
                  + frames
                  + " samples); the smaller was taken.",
              missing || frames - promised > 1));
      frames = Math.min(frames, promised);
    }
    if (frames == 0) {
      return Walk.Unusable.noAudio(
          "The AIFF file has a header but no sound in it. Export it again.");
    }
    boolean bigEndian = form.bigEndian;
    if (form.codec.equals("pcm") && !bigEndian && sampleBytes == 3) {
      bigEndian = smootherBigEndian(data, Math.min(frames * channels, ORDER_SAMPLES), channels);
    }
    return new Walk.Found(
        new PcmLayout(
            container,
            form.coding,
            form.codec,
            rate,
            channels,
            0,
            form.bits,
            sampleBytes,
            bigEndian,
            data,
            frames,
            defects),
        markers);
  }

  private static Form form(String type, int bits) {
    return switch (type.toLowerCase(Locale.ROOT)) {
      case "none", "twos" -> new Form(SampleCoding.SIGNED, "pcm", bits, true);
      case "sowt" -> new Form(SampleCoding.SIGNED, "pcm", bits, false);
      case "in24" -> new Form(SampleCoding.SIGNED, "pcm", 24, true);
      case "in32" -> new Form(SampleCoding.SIGNED, "pcm", 32, true);
      case "42ni" -> new Form(SampleCoding.SIGNED, "pcm", 24, false);
      case "23ni" -> new Form(SampleCoding.SIGNED, "pcm", 32, false);
      case "raw " -> new Form(SampleCoding.UNSIGNED, "pcm", 8, true);
      case "fl32" -> new Form(SampleCoding.FLOAT, "float", 32, true);
      case "fl64" -> new Form(SampleCoding.FLOAT, "float", 64, true);
      case "ulaw" -> new Form(SampleCoding.CODED, "µ-law", 16, true);
      case "alaw" -> new Form(SampleCoding.CODED, "A-law", 16, true);
      case "ima4" -> new Form(SampleCoding.CODED, "ADPCM (IMA)", 16, true);
      default -> new Form(SampleCoding.CODED, "", bits, true);
    };
  }

  /**
   * 24-bit samples marked little-endian are written in either order; sound moves in small steps,
   * noise from swapped bytes does not.
   */
  private boolean smootherBigEndian(long data, long samples, int channels) throws IOException {
    byte[] bytes = in.read(data, (int) samples * 3);
    double little = 0;
    double big = 0;
    for (int i = channels; i < samples; i++) {
      int a = (i - channels) * 3;
      int b = i * 3;
      little += Math.abs((double) order(bytes, b + 2, b + 1, b) - order(bytes, a + 2, a + 1, a));
      big += Math.abs((double) order(bytes, b, b + 1, b + 2) - order(bytes, a, a + 1, a + 2));
    }
    return big * 4 < little;
  }

  private static int order(byte[] bytes, int high, int middle, int low) {
    return bytes[high] << 16 | (bytes[middle] & 0xff) << 8 | (bytes[low] & 0xff);
  }

  /** The 80-bit extended float of COMM; 0 where it is no sensible rate. */
  private int sampleRate(long at) throws IOException {
    int exponent = in.u16(at) - 16383;
    long mantissa = in.i64(at + 2);
    if (exponent < 0 || exponent > 30) {
      return 0;
    }
    return (int) Math.round(Math.scalb((double) (mantissa >>> 1), exponent - 62));
  }
}
