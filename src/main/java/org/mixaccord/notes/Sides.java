package org.mixaccord.notes;

import java.util.List;

/** Where parts are to stand: "hats left", "back to the middle". */
abstract class Sides extends Doubts {
  Sides(Segment segment, List<Item> items) {
    super(segment, items);
  }

  void stereo() {
    if (segment.targets.isEmpty() && segment.has(Type.DISLIKE)) {
      // "the thing on the left is annoying": says which, not where to
      return;
    }
    for (int i = 0; i < items.size(); i++) {
      Item item = items.get(i);
      boolean goes = i > 0 && type(i - 1) == Type.COPULA && items.get(i - 1).a().equals("go");
      boolean moved =
          goes
              || segment.has(Type.PRON)
                  && items.stream()
                      .anyMatch(x -> x.is(Type.ADD) || x.is(Type.AUX) && x.a().equals("must"))
              || nearVerb("pan")
              || nearVerb("move")
              || degrees.has()
              || modifier(i, Type.TOO) >= 0
              || near(i, Type.MORE)
              || items.size() == 1
                  && segment.has(Type.PLACE)
                  && segment.joint != Segment.Joint.SENTENCE
              || nothingBut(i);
      boolean which =
          i + 1 < items.size()
              && items.get(i + 1).is(Type.ELEM)
              && items.get(i + 1).start() - item.end() == 1
              && !nearVerb("pan");
      boolean nobody =
          item.is(Type.CENTRE)
              && segment.targets.isEmpty()
              && !segment.has(Type.PRON)
              && segment.has(Type.QUAL);
      if (nobody || which || isNamed(i) || item.is(Type.CENTRE) && negatedBefore(i)) {
        // "the left guitar", "not in the middle"
        continue;
      }
      if (item.is(Type.LEFT) || (item.is(Type.SIDE) && item.a().equals("left") && moved)) {
        pan(i, "left");
      } else if (item.is(Type.RIGHT) || (item.is(Type.SIDE) && moved)) {
        pan(i, "right");
      } else if (item.is(Type.CENTRE)) {
        pan(i, "centre");
      }
    }
  }

  /** "Gtr L: −1.5", "gtr L +1": a part by the name of its channel. */
  private boolean isNamed(int i) {
    boolean letter = items.get(i).end() - items.get(i).start() == 1;
    boolean behind = i > 0 && type(i - 1) == Type.ELEM;
    boolean step = i + 1 < items.size() && items.get(i + 1).signed() != 0;
    return letter && behind && (segment.heading || step);
  }

  /** "Shaker right": the part and the side, and no more. */
  private boolean nothingBut(int side) {
    for (int k = 0; k < items.size(); k++) {
      Type type = type(k);
      boolean beside = Math.abs(k - side) == 1 && type == Type.NUMBER;
      boolean plain = type == Type.ELEM || type == Type.FILL || type == Type.AUX;
      if (k != side && !plain && !beside) {
        return false;
      }
    }
    return side > 0 && !segment.targets.isEmpty();
  }

  private void pan(int i, String side) {
    boolean said = modifier(i, Type.TOO) >= 0 || near(i, Type.TOOMUCH);
    if (said) {
      add(i, Pred.of("pan", side.equals("left") ? "right" : "left").asComplaint());
      return;
    }
    useAll(Type.MORE);
    useAll(Type.UP);
    useAll(Type.IN);
    // "is on the left" may be what is wrong, or just tell
    Pred pred = Pred.of("pan", side);
    add(i, copulaBefore(i) && !asking() ? pred.asComplaint() : pred);
  }
}
