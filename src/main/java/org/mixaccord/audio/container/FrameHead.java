package org.mixaccord.audio.container;

/**
 * Heads of the frames that MPEG audio and raw AAC are made of. Asked at a place where no frame
 * begins, every length is 0.
 *
 * @see <a href="https://www.iso.org/standard/22412.html">ISO/IEC 11172-3, 13818-3; for raw AAC
 *     (ADTS) ISO/IEC 14496-3, annex on transport</a>
 */
public final class FrameHead {
  /** What must be there to read any of these heads. */
  public static final int BYTES = 7;

  private static final int[] LAYER3 = {
    32, 40, 48, 56, 64, 80, 96, 112, 128, 160, 192, 224, 256, 320
  };
  private static final int[] LAYER2 = {
    32, 48, 56, 64, 80, 96, 112, 128, 160, 192, 224, 256, 320, 384
  };
  private static final int[] LOW = {8, 16, 24, 32, 40, 48, 56, 64, 80, 96, 112, 128, 144, 160};
  private static final int[] ADTS_RATES = {
    96000, 88200, 64000, 48000, 44100, 32000, 24000, 22050, 16000, 12000, 11025, 8000, 7350
  };

  private FrameHead() {}

  /** Bytes of the ADTS frame that begins here, head and all. */
  public static int adtsBytes(byte[] b, int at) {
    boolean sync = (b[at] & 0xff) == 0xff && (b[at + 1] & 0xf6) == 0xf0;
    int rateIndex = b[at + 2] >> 2 & 15;
    int length = (b[at + 3] & 3) << 11 | (b[at + 4] & 0xff) << 3 | (b[at + 5] & 0xff) >> 5;
    return sync && rateIndex < ADTS_RATES.length && length > BYTES ? length : 0;
  }

  static int adtsRate(byte[] b, int at) {
    return ADTS_RATES[b[at + 2] >> 2 & 15];
  }

  /** Sound in an ADTS frame, in sample frames at its rate. */
  static int adtsFrames(byte[] b, int at) {
    return 1024 * (1 + (b[at + 6] & 3));
  }

  /** Bytes of the MPEG audio frame of layer 2 or 3 that begins here. */
  public static int mpegBytes(byte[] b, int at) {
    if ((b[at] & 0xff) != 0xff || (b[at + 1] & 0xe0) != 0xe0) {
      return 0;
    }
    int bitrate = b[at + 2] >> 4 & 15;
    boolean known = version(b, at) != 1 && (layer(b, at) == 1 || layer(b, at) == 2);
    if (!known || bitrate == 0 || bitrate == 15 || (b[at + 2] >> 2 & 3) == 3) {
      return 0;
    }
    int kilobits = (version(b, at) != 3 ? LOW : layer(b, at) == 1 ? LAYER3 : LAYER2)[bitrate - 1];
    return mpegFrames(b, at) / 8 * kilobits * 1000 / mpegRate(b, at) + (b[at + 2] >> 1 & 1);
  }

  static int mpegRate(byte[] b, int at) {
    int full = new int[] {44100, 48000, 32000}[b[at + 2] >> 2 & 3];
    return full / (version(b, at) == 3 ? 1 : version(b, at) == 2 ? 2 : 4);
  }

  /** Sound in an MPEG frame, in sample frames. */
  static int mpegFrames(byte[] b, int at) {
    return layer(b, at) == 1 && version(b, at) != 3 ? 576 : 1152;
  }

  /** Bytes from the frame's begin to where layer 3 keeps its first samples' data. */
  static int layer3SideEnd(byte[] b, int at) {
    boolean mono = (b[at + 3] >> 6 & 3) == 3;
    return 4 + (version(b, at) == 3 ? mono ? 17 : 32 : mono ? 9 : 17);
  }

  /** True for frames of layer 3. */
  static boolean isLayer3(byte[] b, int at) {
    return layer(b, at) == 1;
  }

  /** True if both frames have version, layer and rate in common: one stream. */
  static boolean sameStream(byte[] a, byte[] b) {
    return (a[1] & 0xfe) == (b[1] & 0xfe) && (a[2] & 0x0c) == (b[2] & 0x0c);
  }

  private static int version(byte[] b, int at) {
    return b[at + 1] >> 3 & 3;
  }

  private static int layer(byte[] b, int at) {
    return b[at + 1] >> 1 & 3;
  }
}
