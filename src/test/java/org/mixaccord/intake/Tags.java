package org.mixaccord.intake;

import static java.nio.charset.StandardCharsets.ISO_8859_1;
import static org.mixaccord.intake.Fixtures.join;
import static org.mixaccord.intake.Fixtures.number;

/** Tags that music programs write in front of a file or behind it. */
final class Tags {
  private Tags() {}

  /** An empty ID3v2 tag with so much room that it looks like something. */
  static byte[] id3v2() {
    return join("ID3".getBytes(ISO_8859_1), new byte[] {4, 0, 0, 0, 0, 1, 0}, new byte[128]);
  }

  static byte[] id3v1() {
    return join("TAGA title".getBytes(ISO_8859_1), new byte[118]);
  }

  static byte[] ape() {
    return join(
        "APETAGEX".getBytes(ISO_8859_1),
        number(2000, 4, false),
        number(32, 4, false),
        new byte[16]);
  }

  /** A picture inside the head of a FLAC file. */
  static byte[] flacWithPicture(byte[] flac) {
    byte[] png = {(byte) 0x89, 'P', 'N', 'G', 13, 10, 26, 10};
    byte[] picture =
        join(
            number(3, 4, true),
            number(9, 4, true),
            "image/png".getBytes(ISO_8859_1),
            number(0, 4, true),
            number(1, 4, true),
            number(1, 4, true),
            number(24, 4, true),
            number(0, 4, true),
            number(png.length, 4, true),
            png);
    int streamInfoEnd = 42;
    byte[] head = java.util.Arrays.copyOf(flac, streamInfoEnd);
    head[4] &= 0x7f; // no longer the last block
    byte[] rest = java.util.Arrays.copyOfRange(flac, streamInfoEnd, flac.length);
    return join(head, new byte[] {6}, number(picture.length, 3, true), picture, rest);
  }
}
