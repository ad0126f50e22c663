package org.mixaccord.audio.container;

import static java.nio.charset.StandardCharsets.ISO_8859_1;

import java.io.IOException;
import java.util.Optional;
import java.util.OptionalLong;

/**
 * Reads from an MP4 file which part of its first sound track is meant to be heard: its edit list,
 * the durations of its packets and the gapless tag. Boxes are bounded by their parents, and nothing
 * is believed beyond the bytes that are there.
 *
 * @see <a href="https://www.iso.org/standard/83102.html">ISO/IEC 14496-12, sections on the edit
 *     list and the decoding time to sample box</a>
 */
public final class Mp4Walker {
  private static final int MOST_BOXES = 10_000;
  private static final int MOST_ENTRIES = 100_000;
  private static final int TAG_CHARS = 200;

  private final Bytes in;
  private long moovAt = -1;
  private long moovEnd;
  private boolean cutOff;

  private Mp4Walker(ByteSource source) throws IOException {
    this.in = new Bytes(source, true);
    long[] moov = find(0, in.size(), "moov");
    if (moov.length > 0) {
      moovAt = moov[0];
      moovEnd = moov[1];
    }
  }

  /**
   * What the file says of its sound.
   *
   * @param hasIndex false if the box with the index is missing: the file was never finished
   * @param timing empty where the file says nothing usable, or cuts its sound into several pieces
   * @param isCutOff true if a box claims more bytes than are there
   */
  public record Found(boolean hasIndex, Optional<CodedTiming> timing, boolean isCutOff) {}

  /** Walks a file whose first bytes were recognised as MP4. */
  public static Found walk(ByteSource source) throws IOException {
    Mp4Walker walker = new Mp4Walker(source);
    return new Found(walker.moovAt >= 0, walker.timing(), walker.cutOff);
  }

  private Optional<CodedTiming> timing() throws IOException {
    long at = moovAt;
    for (int n = 0; n < MOST_BOXES && at >= 0 && at < moovEnd; n++) {
      long[] track = find(at, moovEnd, "trak");
      if (track.length == 0) {
        return Optional.empty();
      }
      long[] media = find(track[0], track[1], "mdia");
      long[] handler = media.length == 0 ? media : find(media[0], media[1], "hdlr");
      if (handler.length > 0 && in.id(handler[0] + 8).equals("soun")) {
        return timing(track, media);
      }
      at = track[1];
    }
    return Optional.empty();
  }

  private Optional<CodedTiming> timing(long[] track, long[] media) throws IOException {
    long[] clock = find(media[0], media[1], "mdhd");
    long[] table = find(media[0], media[1], "minf", "stbl", "stts");
    if (clock.length == 0 || table.length == 0) {
      return Optional.empty();
    }
    long ticks = in.u32(clock[0] + (in.u8(clock[0]) == 1 ? 20 : 12));
    long whole = mediaTicks(table);
    if (ticks == 0 || whole == 0) {
      return Optional.empty();
    }
    long[] tag = gaplessTag();
    Edit edit = edit(track);
    if (edit.pieces > 1) {
      return Optional.empty();
    }
    if (edit.pieces == 0) {
      return tag.length == 0 || tag[0] + tag[1] > whole
          ? Optional.of(new CodedTiming(ticks, 0, OptionalLong.of(whole), 0))
          : Optional.of(new CodedTiming(ticks, tag[0], OptionalLong.of(tag[1]), 0));
    }
    long start = Math.min(edit.mediaTick, whole);
    long length = whole - start;
    long[] movie = find(moovAt, moovEnd, "mvhd");
    long movieTicks = movie.length == 0 ? 0 : in.u32(movie[0] + (in.u8(movie[0]) == 1 ? 20 : 12));
    if (movieTicks > 0 && edit.movieTicks > 0) {
      double asked = (double) edit.movieTicks * ticks / movieTicks;
      // The movie's clock is often coarse: within one of its ticks the packets know better.
      if (asked < length - (double) ticks / movieTicks) {
        length = Math.round(asked);
      }
    }
    if (tag.length > 0 && tag[0] == start && tag[1] <= whole - start) {
      length = tag[1];
    }
    double silence = movieTicks == 0 ? 0 : (double) edit.emptyMovieTicks * ticks / movieTicks;
    return Optional.of(new CodedTiming(ticks, start, OptionalLong.of(length), Math.round(silence)));
  }

  /** What an edit list comes to; without one there are no pieces. */
  private record Edit(int pieces, long mediaTick, long movieTicks, long emptyMovieTicks) {}

  private Edit edit(long[] track) throws IOException {
    long[] list = find(track[0], track[1], "edts", "elst");
    if (list.length == 0) {
      return new Edit(0, 0, 0, 0);
    }
    boolean wide = in.u8(list[0]) == 1;
    int entryBytes = wide ? 20 : 12;
    long count = Math.min(in.u32(list[0] + 4), (list[1] - list[0] - 8) / entryBytes);
    int pieces = 0;
    long mediaTick = 0;
    long movieTicks = 0;
    long empty = 0;
    for (int n = 0; n < Math.min(count, MOST_ENTRIES); n++) {
      long at = list[0] + 8 + (long) n * entryBytes;
      long duration = wide ? in.i64(at) : in.u32(at);
      long from = wide ? in.i64(at + 8) : (int) in.u32(at + 4);
      if (from >= 0) {
        pieces++;
        mediaTick = from;
        movieTicks = Math.max(0, duration);
      } else if (pieces == 0) {
        empty += Math.max(0, Math.min(duration, 1L << 40));
      }
    }
    return new Edit(pieces, mediaTick, movieTicks, empty);
  }

  private long mediaTicks(long[] table) throws IOException {
    long count = Math.min(in.u32(table[0] + 4), (table[1] - table[0] - 8) / 8);
    long whole = 0;
    for (int n = 0; n < Math.min(count, MOST_ENTRIES); n++) {
      whole += in.u32(table[0] + 8 + 8L * n) * (in.u32(table[0] + 12 + 8L * n) & 0x7fffffff);
      whole = Math.min(whole, 1L << 50);
    }
    return Math.max(0, whole);
  }

  /** Delay and length out of the tag of hexadecimal words; empty without one. */
  private long[] gaplessTag() throws IOException {
    long[] list = find(moovAt, moovEnd, "udta", "meta", "ilst");
    if (list.length == 0) {
      return list;
    }
    long at = list[0];
    for (int n = 0; n < MOST_BOXES && at < list[1]; n++) {
      long[] tag = find(at, list[1], "----");
      if (tag.length == 0) {
        return new long[0];
      }
      long[] name = find(tag[0], tag[1], "name");
      long[] data = find(tag[0], tag[1], "data");
      if (name.length > 0 && data.length > 0 && text(name, 4).equals("iTunSMPB")) {
        return words(text(data, 8).strip().split(" +"));
      }
      at = tag[1];
    }
    return new long[0];
  }

  private static long[] words(String[] words) {
    try {
      long delay = Long.parseLong(words[1], 16);
      long length = Long.parseLong(words[3], 16);
      return length > 0 ? new long[] {delay, length} : new long[0];
    } catch (NumberFormatException | ArrayIndexOutOfBoundsException broken) {
      return new long[0];
    }
  }

  private String text(long[] box, int skip) throws IOException {
    int count = (int) Math.max(0, Math.min(TAG_CHARS, box[1] - box[0] - skip));
    return new String(in.read(box[0] + skip, count), ISO_8859_1);
  }

  /** Body and end of the first box at the end of this path; empty if there is none. */
  private long[] find(long from, long end, String... path) throws IOException {
    long[] found = {from, end};
    for (String type : path) {
      long inside = found[0];
      if (path[0].equals("udta") && type.equals("ilst")) {
        inside += 4; // the box around it has a version and flags in front of its children
      }
      found = child(inside, found[1], type);
      if (found.length == 0) {
        return found;
      }
    }
    return found;
  }

  private long[] child(long from, long end, String type) throws IOException {
    long at = from;
    for (int n = 0; n < MOST_BOXES && at + 8 <= end; n++) {
      long size = in.u32(at);
      int head = 8;
      if (size == 1) {
        size = in.i64(at + 8);
        head = 16;
      } else if (size == 0) {
        size = end - at;
      }
      if (size < head) {
        return new long[0];
      }
      cutOff |= size > in.size() - at;
      if (in.id(at + 4).equals(type)) {
        return new long[] {at + head, Math.min(end, at + Math.min(size, end - at))};
      }
      at += Math.min(size, end - at);
    }
    return new long[0];
  }
}
