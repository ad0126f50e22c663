package org.mixaccord.audio.container;

import static java.nio.charset.StandardCharsets.ISO_8859_1;

import java.io.IOException;
import java.util.OptionalInt;
import java.util.OptionalLong;

/**
 * Counts the frames of MP3 and raw AAC files one by one: neither has a length anywhere that could
 * be believed. Time is linear in the bytes.
 */
public final class FrameWalker {
  private static final int BLOCK = 1 << 16;

  /** Behind so much that is no frame there is no more sound. */
  private static final long MOST_SKIPPED = 1 << 24;

  /**
   * Samples by which every layer 3 decoder is late, by its filters: 528 and the one it starts at.
   */
  private static final int DECODER_DELAY = 529;

  private final ByteSource source;
  private final boolean adts;
  private final byte[] block = new byte[BLOCK];
  private long blockAt = -1;
  private int blockCount;

  private FrameWalker(ByteSource source, boolean adts) {
    this.source = source;
    this.adts = adts;
  }

  /**
   * What was counted.
   *
   * @param soundAt first byte of the first frame that holds sound
   * @param sampleRate hertz
   * @param frames sample frames of all whole frames together, run-up and padding among them
   * @param delayFrames run-up the encoder says it has put in front, decoder's delay included; empty
   *     where it says nothing
   * @param paddingFrames filling the encoder says it has put behind
   * @param claimedFrames how many there should be by the head; empty where it says nothing
   * @param isCutOff true if the last frame is not whole
   * @param skippedBytes bytes between frames that belong to none
   */
  public record Found(
      long soundAt,
      int sampleRate,
      long frames,
      OptionalInt delayFrames,
      int paddingFrames,
      OptionalLong claimedFrames,
      boolean isCutOff,
      long skippedBytes) {}

  /** Counts the frames of an MP3 file from a byte on. */
  public static Found mpeg(ByteSource source, long from) throws IOException {
    return new FrameWalker(source, false).walk(from);
  }

  /** Counts the frames of a raw AAC file from a byte on. */
  public static Found adts(ByteSource source, long from) throws IOException {
    return new FrameWalker(source, true).walk(from);
  }

  private Found walk(long from) throws IOException {
    Info info = Info.NONE;
    byte[] first = null;
    long soundAt = from;
    long frames = 0;
    long skipped = 0;
    boolean cut = false;
    int rate = 0;
    long at = from;
    while (at + FrameHead.BYTES <= source.size()) {
      byte[] head = head(at);
      int bytes = adts ? FrameHead.adtsBytes(head, 0) : FrameHead.mpegBytes(head, 0);
      boolean ours = bytes > 0 && (first == null || FrameHead.sameStream(first, head));
      if (ours && first == null) {
        // A single pattern proves nothing: the next frame must follow.
        ours = at + bytes >= source.size() || follows(head, at + bytes);
      }
      if (!ours) {
        if (skipped++ > MOST_SKIPPED || (first != null && isTag(at))) {
          break;
        }
        at++;
        continue;
      }
      if (at + bytes > source.size()) {
        cut = true;
        break;
      }
      if (first == null) {
        first = head;
        rate = adts ? FrameHead.adtsRate(head, 0) : FrameHead.mpegRate(head, 0);
        soundAt = at;
        skipped = 0;
        info = adts ? Info.NONE : info(head, at, bytes);
        if (info.isFrame) {
          soundAt = at + bytes;
        }
      }
      if (at >= soundAt) {
        frames += adts ? FrameHead.adtsFrames(head, 0) : FrameHead.mpegFrames(head, 0);
      }
      at += bytes;
    }
    boolean told = info.delay >= 0;
    return new Found(
        soundAt,
        rate,
        frames,
        told ? OptionalInt.of(info.delay + DECODER_DELAY) : OptionalInt.empty(),
        told ? Math.max(0, info.padding - DECODER_DELAY) : 0,
        info.frames > 0 && first != null
            ? OptionalLong.of(info.frames * FrameHead.mpegFrames(first, 0))
            : OptionalLong.empty(),
        cut,
        skipped);
  }

  private boolean follows(byte[] head, long at) throws IOException {
    byte[] next = head(at);
    int bytes = adts ? FrameHead.adtsBytes(next, 0) : FrameHead.mpegBytes(next, 0);
    return bytes > 0 && FrameHead.sameStream(head, next);
  }

  /** The frame some encoders put in front, which holds figures and no sound. */
  private record Info(boolean isFrame, long frames, int delay, int padding) {
    static final Info NONE = new Info(false, 0, -1, 0);
  }

  private Info info(byte[] head, long at, int bytes) throws IOException {
    if (!FrameHead.isLayer3(head, 0)) {
      return Info.NONE;
    }
    byte[] frame = new byte[bytes];
    source.read(at, frame, 0, bytes);
    int side = FrameHead.layer3SideEnd(head, 0);
    if (bytes >= 4 + 32 + 26 && id(frame, 36).equals("VBRI")) {
      return new Info(true, number(frame, 36 + 14, 4), -1, 0);
    }
    String id = bytes >= side + 8 ? id(frame, side) : "";
    if (!id.equals("Xing") && !id.equals("Info")) {
      return Info.NONE;
    }
    int flags = (int) number(frame, side + 4, 4);
    int place = side + 8;
    long frames = (flags & 1) != 0 ? number(frame, place, 4) : 0;
    place += ((flags & 1) != 0 ? 4 : 0) + ((flags & 2) != 0 ? 4 : 0);
    place += ((flags & 4) != 0 ? 100 : 0) + ((flags & 8) != 0 ? 4 : 0);
    if (place + 24 > bytes || !Bytes.looksLikeId(id(frame, place))) {
      return new Info(true, frames, -1, 0);
    }
    int both = (int) number(frame, place + 21, 3);
    return both == 0
        ? new Info(true, frames, -1, 0)
        : new Info(true, frames, both >> 12, both & 0xfff);
  }

  private static String id(byte[] bytes, int at) {
    return new String(bytes, at, 4, ISO_8859_1);
  }

  private static long number(byte[] bytes, int at, int count) {
    long value = 0;
    for (int i = at; i < at + count && i < bytes.length; i++) {
      value = value << 8 | (bytes[i] & 0xff);
    }
    return value;
  }

  private boolean isTag(long at) throws IOException {
    String text = new String(head(at), ISO_8859_1);
    return text.startsWith("TAG")
        || text.startsWith("APETAGE")
        || text.startsWith("LYRICS")
        || text.startsWith("ID3");
  }

  private byte[] head(long at) throws IOException {
    byte[] head = new byte[FrameHead.BYTES];
    if (blockAt < 0 || at < blockAt || at + head.length > blockAt + blockCount) {
      blockAt = at;
      blockCount = source.read(at, block, 0, BLOCK);
    }
    System.arraycopy(
        block, (int) (at - blockAt), head, 0, Math.max(0, Math.min(head.length, blockCount)));
    return head;
  }
}
