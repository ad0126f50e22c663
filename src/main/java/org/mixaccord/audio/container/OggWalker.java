package org.mixaccord.audio.container;

import java.io.IOException;

/**
 * Looks at the pages of an Ogg file: whether its end is there, and where its sound ends.
 *
 * @see <a href="https://www.rfc-editor.org/rfc/rfc3533">RFC 3533, section 6</a>
 */
public final class OggWalker {
  private static final int HEAD_BYTES = 27;
  private static final int LAST_PAGE = 4;
  private static final long NO_PACKET_ENDS = -1;

  private OggWalker() {}

  /**
   * What was found.
   *
   * @param preSkip frames at 48 kHz that an Opus stream gives its decoder for a run-up; 0 for
   *     others
   * @param lastGranule position the last page with an ending packet names; 0 without one
   * @param isFinished true if the last page says it is the last
   */
  public record Found(int preSkip, long lastGranule, boolean isFinished) {}

  /** Walks the pages from a byte on; stops where no page begins. */
  public static Found walk(ByteSource source, long from) throws IOException {
    Bytes in = new Bytes(source, false);
    long granule = 0;
    boolean finished = false;
    long head = from + HEAD_BYTES + in.u8(from + 26);
    int preSkip = in.id(head).equals("Opus") ? in.u16(head + 10) : 0;
    long at = from;
    while (at + HEAD_BYTES <= in.size() && in.id(at).equals("OggS")) {
      int segments = in.u8(at + 26);
      long length = HEAD_BYTES + segments;
      for (byte lacing : in.read(at + HEAD_BYTES, segments)) {
        length += lacing & 0xff;
      }
      if (length > in.size() - at) {
        return new Found(preSkip, granule, false); // cut off inside a page
      }
      long here = in.i64(at + 6);
      granule = here == NO_PACKET_ENDS ? granule : here;
      finished = (in.u8(at + 5) & LAST_PAGE) != 0;
      at += length;
    }
    return new Found(preSkip, granule, finished);
  }
}
