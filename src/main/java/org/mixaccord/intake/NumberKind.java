package org.mixaccord.intake;

import java.io.IOException;
import java.util.List;
import org.mixaccord.audio.container.ByteSource;
import org.mixaccord.audio.container.FileDefect;
import org.mixaccord.audio.container.PcmLayout;
import org.mixaccord.audio.container.SampleCoding;

/**
 * Tells 32-bit integers from 32-bit floats by the samples themselves: read the wrong way, music
 * becomes noise at full scale.
 */
final class NumberKind {
  private static final int PROBES = 64;
  private static final int SAMPLES_PER_PROBE = 64;
  private static final int ENOUGH = 64;
  private static final double NEARLY_ALL = 0.98;

  /** Half of all integer samples are negative, and read as floats these are huge or no numbers. */
  private static final double MANY = 0.25;

  private NumberKind() {}

  /** The layout as the samples say, and a defect where the header says otherwise. */
  static PcmLayout check(ByteSource file, PcmLayout layout, List<FileDefect> defects)
      throws IOException {
    boolean floats = layout.coding() == SampleCoding.FLOAT;
    if (layout.sampleBytes() != 4 || (!floats && layout.coding() != SampleCoding.SIGNED)) {
      return layout;
    }
    int seen = 0;
    int likeFloats = 0;
    int absurd = 0;
    byte[] bytes = new byte[SAMPLES_PER_PROBE * 4];
    long samples = layout.frames() * layout.channels();
    for (int probe = 0; probe < PROBES; probe++) {
      long from = samples / PROBES * probe;
      int read = file.read(layout.dataOffset() + from * 4, bytes, 0, bytes.length);
      for (int at = 0; at + 4 <= read && from + at / 4 < samples; at += 4) {
        int bits = bits(bytes, at, layout.bigEndian());
        if (bits != 0 && bits != 0x80000000) {
          seen++;
          likeFloats += isSound(Float.intBitsToFloat(bits)) ? 1 : 0;
          absurd += isAbsurd(bits) ? 1 : 0;
        }
      }
    }
    boolean otherwise = floats ? absurd > MANY * seen : likeFloats >= NEARLY_ALL * seen;
    if (seen < ENOUGH || !otherwise) {
      return layout;
    }
    defects.add(
        FileDefect.whole(
            "integer-float-confusion",
            floats
                ? "The file says its samples are floating-point, but they are integers; they were"
                    + " read as integers. Listen whether it sounds right, and export it again."
                : "The file says its samples are integers, but they are floating-point; they were"
                    + " read as floating-point. Listen whether it sounds right, and export it"
                    + " again.",
            true));
    return new PcmLayout(
        layout.container(),
        floats ? SampleCoding.SIGNED : SampleCoding.FLOAT,
        layout.codec(),
        layout.sampleRate(),
        layout.channels(),
        layout.channelMask(),
        32,
        4,
        layout.bigEndian(),
        layout.dataOffset(),
        layout.frames(),
        layout.defects());
  }

  /** Over +120 dBFS or no number; but not the few patterns that a failing plug-in repeats. */
  private static boolean isAbsurd(int bits) {
    return !(Math.abs(Float.intBitsToFloat(bits)) < 1e6f) && (bits & 0x3FFFFF) != 0;
  }

  /** From −160 dBFS to +20 dBFS, where floats lie. */
  private static boolean isSound(float value) {
    float level = Math.abs(value);
    return level >= 1e-8f && level <= 10f;
  }

  private static int bits(byte[] b, int at, boolean big) {
    int first = big ? at : at + 3;
    int step = big ? 1 : -1;
    return b[first] << 24
        | (b[first + step] & 0xff) << 16
        | (b[first + 2 * step] & 0xff) << 8
        | (b[first + 3 * step] & 0xff);
  }
}
