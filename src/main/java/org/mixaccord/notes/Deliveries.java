package org.mixaccord.notes;

import java.util.List;

/** Finds what is asked for beside the mix itself: another print, stems, proper file names. */
final class Deliveries {
  private Deliveries() {}

  /** "Extended version for the label please": asks, wherever the word stands. */
  private static boolean pleads(List<Segment> segments, int first) {
    int sentence = segments.get(first).sentence;
    for (int i = first; i < segments.size() && segments.get(i).sentence == sentence; i++) {
      Segment segment = segments.get(i);
      boolean leads = i == first && !segment.items.isEmpty() && segment.items.get(0).is(Type.THING);
      boolean please =
          segment.items.stream().anyMatch(x -> x.is(Type.AUX) && x.a().equals("please"));
      if (please && (leads || segments.get(first).items.get(0).is(Type.THING))) {
        return true;
      }
    }
    return false;
  }

  static void find(List<Segment> segments, int first, Drafts drafts) {
    int sentence = segments.get(first).sentence;
    boolean asks = pleads(segments, first);
    for (int i = first; i < segments.size() && segments.get(i).sentence == sentence; i++) {
      Segment segment = segments.get(i);
      if (segment.has(Type.WH) || segment.has(Type.FILEQ)) {
        return;
      }
      boolean denied = false;
      for (Item item : segment.items) {
        switch (item.type()) {
          case NEG -> denied = item.a().equals("order");
          case DVERB, AUX, ADD -> asks |= !denied;
          case THING, LABEL -> {
            if (asks && !denied) {
              Draft draft =
                  new Draft(Vocabulary.MIX, Pred.of("delivery", "add"), List.of(), segment, i);
              drafts.add(draft);
              return;
            }
          }
          default -> {}
        }
      }
    }
  }
}
