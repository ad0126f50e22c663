package org.mixaccord.notes;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/** Keeps every word that was not read as a change or a keep. */
final class Remarks {
  private Remarks() {}

  static List<Remark> of(
      String text,
      Segmenter.Pieces pieces,
      List<RequestedChange> changes,
      List<RequestedKeep> keeps) {
    List<Segment> segments = pieces.segments();
    boolean[] read = new boolean[text.length() + 1];
    for (RequestedChange change : changes) {
      java.util.Arrays.fill(read, change.start(), change.end(), true);
    }
    for (RequestedKeep keep : keeps) {
      java.util.Arrays.fill(read, keep.start(), keep.end(), true);
    }
    List<Remark> remarks = new ArrayList<>();
    int i = 0;
    while (i < segments.size()) {
      Segment first = segments.get(i);
      if (first.from < 0 || read[first.from]) {
        i++;
        continue;
      }
      int last = i;
      while (last + 1 < segments.size()
          && segments.get(last + 1).sentence == first.sentence
          && segments.get(last + 1).from >= 0
          && !read[segments.get(last + 1).from]) {
        last++;
      }
      int end = Math.max(first.to, segments.get(last).to);
      remarks.add(
          new Remark(kind(segments, i, last), text.substring(first.from, end), first.from, end));
      i = last + 1;
    }
    for (int[] span : pieces.chatter()) {
      String words = text.substring(span[0], span[1]);
      remarks.add(new Remark(Remark.Kind.OTHER, words, span[0], span[1]));
    }
    boolean unnamed = segments.isEmpty() && remarks.isEmpty() && !text.isBlank();
    if (unnamed) {
      // signs and letters of which the tables know nothing at all
      String words = text.strip();
      int start = text.indexOf(words);
      remarks.add(new Remark(Remark.Kind.OTHER, words, start, start + words.length()));
    }
    remarks.sort(java.util.Comparator.comparingInt(Remark::start));
    return remarks;
  }

  private static Remark.Kind kind(List<Segment> segments, int from, int to) {
    for (int i = from; i <= to; i++) {
      Segment segment = segments.get(i);
      if (segment.has(Type.RETRACT)) {
        return Remark.Kind.RETRACTION;
      }
      if (segment.asks && (segment.has(Type.WH) || segment.has(Type.FILEQ))) {
        return Remark.Kind.QUESTION;
      }
    }
    for (int i = from; i <= to; i++) {
      Segment segment = segments.get(i);
      for (Item item : segment.items) {
        if (item.is(Type.PRAISE)) {
          return Remark.Kind.PRAISE;
        }
        if (item.a().toLowerCase(Locale.ROOT).startsWith("approve")) {
          return Remark.Kind.APPROVAL;
        }
      }
      if (segment.asks) {
        return Remark.Kind.QUESTION;
      }
    }
    return Remark.Kind.OTHER;
  }
}
