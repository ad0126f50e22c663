package org.mixaccord.intake;

import java.util.Locale;

/** How decoded samples are kept: interleaved, little-endian. */
public enum SampleFormat {
  /** 32-bit integers, left-justified: full scale is 2^31 whatever the file's depth. */
  S32(4),
  F32(4),
  F64(8);

  private final int bytes;

  SampleFormat(int bytes) {
    this.bytes = bytes;
  }

  /** Bytes of one sample of one channel. */
  public int bytes() {
    return bytes;
  }

  /**
   * The format of this name.
   *
   * @throws IllegalArgumentException if there is none
   */
  static SampleFormat of(String wireName) {
    return valueOf(wireName.toUpperCase(Locale.ROOT));
  }

  /** Name in hashes, file names and commands: s32, f32, f64. */
  public String wireName() {
    return name().toLowerCase(Locale.ROOT);
  }
}
