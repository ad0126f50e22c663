package org.mixaccord.audio.container;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.OptionalLong;

/**
 * The markers of an AIFF file, out of its {@code MARK} chunk; neither its size nor its count is
 * believed beyond the bytes that are there.
 *
 * @see <a href="https://www.loc.gov/preservation/digital/formats/fdd/fdd000005.shtml">AIFF 1.3,
 *     section "Marker chunk"</a>
 */
final class AiffMarkers {
  private static final int HEAD_BYTES = 7;

  private AiffMarkers() {}

  /** The markers of a chunk's body, in order of time. */
  static List<FileMarker> read(Bytes in, long from, long size) throws IOException {
    long end = Math.min(in.size(), from + size);
    int count = Math.min(in.u16(from), FileMarker.MOST_MARKERS);
    List<FileMarker> markers = new ArrayList<>();
    long at = from + 2;
    for (int n = 0; n < count && at + HEAD_BYTES <= end; n++) {
      int length = (int) Math.min(in.u8(at + 6), end - at - HEAD_BYTES);
      String label = Labels.read(in.read(at + HEAD_BYTES, length), FileMarker.MOST_CHARS);
      markers.add(new FileMarker(in.u32(at + 2), OptionalLong.empty(), label));
      // Count byte and text together are padded to an even length.
      at += HEAD_BYTES + length + (length % 2 == 0 ? 1 : 0);
    }
    markers.sort(Comparator.comparingLong(FileMarker::frame));
    return markers;
  }
}
