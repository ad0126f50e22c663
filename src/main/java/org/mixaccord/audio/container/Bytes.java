package org.mixaccord.audio.container;

import java.io.IOException;
import java.nio.charset.StandardCharsets;

/** Small numbers out of a byte source, either byte order; what lies behind the end reads as 0. */
final class Bytes {
  private final ByteSource source;
  private final boolean bigEndian;
  private final byte[] small = new byte[8];

  Bytes(ByteSource source, boolean bigEndian) {
    this.source = source;
    this.bigEndian = bigEndian;
  }

  long size() {
    return source.size();
  }

  int u8(long at) throws IOException {
    return (int) number(at, 1);
  }

  int u16(long at) throws IOException {
    return (int) number(at, 2);
  }

  long u32(long at) throws IOException {
    return number(at, 4);
  }

  long i64(long at) throws IOException {
    return number(at, 8);
  }

  String id(long at) throws IOException {
    return new String(read(at, 4), 0, 4, StandardCharsets.ISO_8859_1);
  }

  byte[] read(long at, int count) throws IOException {
    byte[] bytes = new byte[count];
    source.read(at, bytes, 0, count);
    return bytes;
  }

  private long number(long at, int count) throws IOException {
    java.util.Arrays.fill(small, (byte) 0);
    source.read(at, small, 0, count);
    long value = 0;
    for (int i = 0; i < count; i++) {
      value = value << 8 | (small[bigEndian ? i : count - 1 - i] & 0xff);
    }
    return value;
  }

  /** Four printable characters: what a chunk's name looks like. */
  static boolean looksLikeId(String id) {
    return id.chars().allMatch(c -> c >= 0x20 && c < 0x7f) && !id.isBlank();
  }
}
