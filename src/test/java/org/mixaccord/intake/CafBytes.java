package org.mixaccord.intake;

import static java.nio.charset.StandardCharsets.ISO_8859_1;
import static org.mixaccord.intake.Fixtures.join;
import static org.mixaccord.intake.Fixtures.number;

/** Core Audio files written chunk by chunk. */
final class CafBytes {
  static final int FLOAT = 1;
  static final int LITTLE = 2;

  private CafBytes() {}

  static byte[] file(byte[]... chunks) {
    return join(text("caff"), number(1, 2, true), number(0, 2, true), join(chunks));
  }

  static byte[] chunk(String id, byte[] body) {
    return chunk(id, body, body.length);
  }

  static byte[] chunk(String id, byte[] body, long claims) {
    return join(text(id), number(claims, 8, true), body);
  }

  /** The description of plain samples. */
  static byte[] description(double rate, int flags, int channels, int bits, int sampleBytes) {
    return chunk(
        "desc",
        join(
            number(Double.doubleToLongBits(rate), 8, true),
            text("lpcm"),
            number(flags, 4, true),
            number((long) sampleBytes * channels, 4, true),
            number(1, 4, true),
            number(channels, 4, true),
            number(bits, 4, true)));
  }

  /** The description of coded sound in packets of unequal size. */
  static byte[] coded(String coding, double rate, int channels, int packetFrames) {
    return chunk(
        "desc",
        join(
            number(Double.doubleToLongBits(rate), 8, true),
            text(coding),
            new byte[8],
            number(packetFrames, 4, true),
            number(channels, 4, true),
            new byte[4]));
  }

  /** The sound behind its count of edits. */
  static byte[] data(byte[] sound) {
    return chunk("data", join(new byte[4], sound));
  }

  /** A size of −1: the writer went on to the end of the file. */
  static byte[] openData(byte[] sound) {
    return chunk("data", join(new byte[4], sound), -1);
  }

  /** A channel layout by its bitmap of loudspeakers. */
  static byte[] layout(long bitmap) {
    return chunk("chan", join(number(0x10000, 4, true), number(bitmap, 4, true), new byte[4]));
  }

  private static byte[] text(String words) {
    return words.getBytes(ISO_8859_1);
  }
}
