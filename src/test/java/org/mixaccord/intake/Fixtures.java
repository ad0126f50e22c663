package org.mixaccord.intake;

import static java.nio.charset.StandardCharsets.ISO_8859_1;

import java.io.ByteArrayOutputStream;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.util.Random;

/** Sound files written byte by byte, right ones and broken ones. */
public final class Fixtures {
  private Fixtures() {}

  /**
   * Deterministic music-like integers of so many bits, interleaved: smooth, and of every low bit.
   */
  public static int[] music(int frames, int channels, int bits) {
    Random random = new Random(7L * frames + channels);
    int[] samples = new int[frames * channels];
    double full = Math.scalb(1.0, bits - 1) * 0.4;
    for (int frame = 0; frame < frames; frame++) {
      for (int c = 0; c < channels; c++) {
        double tone = Math.sin(frame * 0.031 * (c + 1)) + 0.5 * Math.sin(frame * 0.0077);
        samples[frame * channels + c] =
            (int) Math.round(tone * full)
                + random.nextInt(Math.max(1, 1 << Math.max(0, bits - 12)));
      }
    }
    return samples;
  }

  /** A rising tone of 16 bits on every channel: it never repeats, so a delay shows. */
  public static int[] sweep(int frames, int channels) {
    int[] samples = new int[frames * channels];
    for (int i = 0; i < samples.length; i++) {
      double frame = i / channels;
      double phase = 0.01 * frame + 0.05 * frame * frame / frames;
      samples[i] = (int) Math.round(12_000 * Math.sin(phase + i % channels));
    }
    return samples;
  }

  /** Integers as little- or big-endian bytes; 8-bit WAV is unsigned. */
  public static byte[] bytes(int[] samples, int sampleBytes, boolean bigEndian) {
    byte[] out = new byte[samples.length * sampleBytes];
    for (int i = 0; i < samples.length; i++) {
      for (int b = 0; b < sampleBytes; b++) {
        int at = i * sampleBytes + (bigEndian ? sampleBytes - 1 - b : b);
        out[at] = (byte) (samples[i] >> 8 * b);
      }
    }
    return out;
  }

  public static byte[] floats(double[] samples, boolean isDouble, boolean bigEndian) {
    ByteBuffer out =
        ByteBuffer.allocate(samples.length * (isDouble ? 8 : 4))
            .order(bigEndian ? ByteOrder.BIG_ENDIAN : ByteOrder.LITTLE_ENDIAN);
    for (double sample : samples) {
      if (isDouble) {
        out.putDouble(sample);
      } else {
        out.putFloat((float) sample);
      }
    }
    return out.array();
  }

  /** A chunk; padded to an even length. */
  public static byte[] chunk(String id, byte[] body, boolean bigEndian) {
    return chunk(id, body, body.length, body.length % 2 == 1, bigEndian);
  }

  /** A chunk that claims whatever it likes. */
  public static byte[] chunk(String id, byte[] body, long claims, boolean pad, boolean bigEndian) {
    return join(id.getBytes(ISO_8859_1), number(claims, 4, bigEndian), body, new byte[pad ? 1 : 0]);
  }

  public static byte[] fmt(int tag, int channels, int rate, int bits, boolean bigEndian) {
    int frame = channels * ((bits + 7) / 8);
    return join(
        number(tag, 2, bigEndian),
        number(channels, 2, bigEndian),
        number(rate, 4, bigEndian),
        number((long) rate * frame, 4, bigEndian),
        number(frame, 2, bigEndian),
        number(bits, 2, bigEndian));
  }

  public static byte[] extensible(int tag, int channels, int rate, int bits, int valid, long mask) {
    return join(
        fmt(0xFFFE, channels, rate, bits, false),
        number(22, 2, false),
        number(valid, 2, false),
        number(mask, 4, false),
        number(tag, 2, false),
        new byte[] {
          0, 0, 0, 0, 0x10, 0, (byte) 0x80, 0, 0, (byte) 0xAA, 0, 0x38, (byte) 0x9B, 0x71
        });
  }

  /** A RIFF file of these chunks with a right length. */
  public static byte[] riff(String magic, byte[]... chunks) {
    byte[] body = join(chunks);
    boolean big = magic.equals("RIFX");
    long length = magic.equals("RF64") || magic.equals("BW64") ? 0xFFFFFFFFL : body.length + 4L;
    return join(
        magic.getBytes(ISO_8859_1), number(length, 4, big), "WAVE".getBytes(ISO_8859_1), body);
  }

  /** A plain WAV. */
  public static byte[] wav(int tag, int channels, int rate, int bits, byte[] data) {
    return riff(
        "RIFF",
        chunk("fmt ", fmt(tag, channels, rate, bits, false), false),
        chunk("data", data, false));
  }

  /** An AIFF-C, or with type "" a plain AIFF. */
  public static byte[] aiff(
      String type, int channels, int rate, int bits, long frames, byte[] data) {
    byte[] common =
        join(
            number(channels, 2, true),
            number(frames, 4, true),
            number(bits, 2, true),
            extended(rate));
    if (!type.isEmpty()) {
      common = join(common, type.getBytes(ISO_8859_1), new byte[] {0, 0});
    }
    byte[] body = join(chunk("COMM", common, true), chunk("SSND", join(new byte[8], data), true));
    return join(
        "FORM".getBytes(ISO_8859_1),
        number(body.length + 4L, 4, true),
        (type.isEmpty() ? "AIFF" : "AIFC").getBytes(ISO_8859_1),
        body);
  }

  public static byte[] extended(int rate) {
    int exponent = 31 - Integer.numberOfLeadingZeros(rate);
    return join(number(16383 + exponent, 2, true), number((long) rate << (63 - exponent), 8, true));
  }

  public static byte[] number(long value, int count, boolean bigEndian) {
    byte[] out = new byte[count];
    for (int i = 0; i < count; i++) {
      out[bigEndian ? count - 1 - i : i] = (byte) (value >> 8 * i);
    }
    return out;
  }

  public static byte[] join(byte[]... parts) {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    for (byte[] part : parts) {
      out.writeBytes(part);
    }
    return out.toByteArray();
  }
}
