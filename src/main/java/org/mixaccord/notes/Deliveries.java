package org.mixaccord.notes;

import java.util.List;

/** Finds what is asked for beside the mix itself: another print, stems, proper file names. */
final class Deliveries {
  private Deliveries() {}

  /** "Extended version for the label please", "an acapella too": asks without a verb. */
  private static boolean pleads(List<Segment> segments, int first) {
    Segment segment = segments.get(first);
    boolean leads = !segment.items.isEmpty() && segment.items.get(0).is(Type.THING);
    boolean alone = !segment.heading;
    for (Item item : segment.items) {
      alone &= item.is(Type.THING) || item.is(Type.ALSOTHIS) || item.is(Type.PURPOSE);
    }
    return leads
        && (segment.has(Type.DVERB) && !segment.heading
            || segment.hasPlease() && !segment.has(Type.COPULA)
            || alone);
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
      asks |= segment.pleads;
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
