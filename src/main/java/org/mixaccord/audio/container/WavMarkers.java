package org.mixaccord.audio.container;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalLong;

/**
 * The cue points of a WAV file with their names and lengths, out of its {@code cue } chunk and its
 * associated data lists.
 *
 * <p>Counts and sizes are believed no further than the bytes that are there. Of several names for
 * one point the first in the file counts; a label comes before a note, a note before the text of a
 * region.
 *
 * @see <a href="https://www.loc.gov/preservation/digital/formats/fdd/fdd000001.shtml">The cue and
 *     associated data chunks after the Multimedia Programming Interface, 1991</a>
 */
final class WavMarkers {
  private static final int POINT_BYTES = 24;
  private static final int MOST_ENTRIES = 10_000;

  /** More text than any label needs, so that a long comment costs no more. */
  private static final int TEXT_BYTES = 2048;

  private final Bytes in;
  private final Map<Long, Long> frames = new LinkedHashMap<>();
  private final Map<Long, Long> lengths = new HashMap<>();
  private final Map<Long, String> labels = new HashMap<>();
  private final Map<Long, String> notes = new HashMap<>();
  private final Map<Long, String> regionTexts = new HashMap<>();

  WavMarkers(Bytes in) {
    this.in = in;
  }

  /** Takes in a chunk if it has to do with markers. */
  void note(String id, long at, long size) throws IOException {
    long there = Math.min(size, in.size() - at);
    if (id.equals("cue ")) {
      points(at, there);
    } else if (id.equals("LIST") && there >= 4 && in.id(at).equals("adtl")) {
      list(at + 4, at + there);
    }
  }

  private void points(long at, long there) throws IOException {
    long count = Math.min(in.u32(at), (there - 4) / POINT_BYTES);
    for (long n = 0; n < count && frames.size() < FileMarker.MOST_MARKERS; n++) {
      long point = at + 4 + n * POINT_BYTES;
      long offset = in.u32(point + 20);
      // Writers that know no offset into the chunk leave it 0 and fill the place in play order.
      frames.putIfAbsent(in.u32(point), offset == 0 ? in.u32(point + 4) : offset);
    }
  }

  private void list(long from, long end) throws IOException {
    long at = from;
    for (int n = 0; n < MOST_ENTRIES && at + 12 <= end; n++) {
      String id = in.id(at);
      long size = Math.min(in.u32(at + 4), end - at - 8);
      long point = in.u32(at + 8);
      switch (id) {
        case "labl" -> text(labels, point, at + 12, size - 4);
        case "note" -> text(notes, point, at + 12, size - 4);
        case "ltxt" -> {
          if (lengths.size() < FileMarker.MOST_MARKERS) {
            lengths.putIfAbsent(point, in.u32(at + 12));
          }
          text(regionTexts, point, at + 28, size - 20);
        }
        default -> {
          // Pictures, files and whatever else hangs on a point name nothing.
        }
      }
      long next = at + 8 + size;
      boolean unpadded = size % 2 == 1 && known(in.id(next)) && !known(in.id(next + 1));
      at = next + (size % 2 == 1 && !unpadded ? 1 : 0);
    }
  }

  private static boolean known(String id) {
    return id.equals("labl") || id.equals("note") || id.equals("ltxt") || id.equals("file");
  }

  private void text(Map<Long, String> into, long point, long at, long size) throws IOException {
    if (size <= 0 || into.containsKey(point) || into.size() >= FileMarker.MOST_MARKERS) {
      return;
    }
    byte[] bytes = in.read(at, (int) Math.min(size, TEXT_BYTES));
    String label = Labels.read(bytes, FileMarker.MOST_CHARS);
    if (!label.isEmpty()) {
      into.put(point, label);
    }
  }

  /** The markers in order of time. */
  List<FileMarker> found() {
    List<FileMarker> markers = new ArrayList<>();
    frames.forEach(
        (id, frame) -> {
          long length = lengths.getOrDefault(id, 0L);
          String label = labels.getOrDefault(id, notes.getOrDefault(id, regionTexts.get(id)));
          markers.add(
              new FileMarker(
                  frame,
                  length > 0 ? OptionalLong.of(frame + length) : OptionalLong.empty(),
                  label == null ? "" : label));
        });
    markers.sort(Comparator.comparingLong(FileMarker::frame));
    return markers;
  }
}
