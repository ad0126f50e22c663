package org.mixaccord.notes;

import java.util.List;

/** What stands together under one wish: parts, or places, that share what is said of them. */
final class Groups {
  private Groups() {}

  /** Whether a joint stands inside "kick, snare and hats" or "C2 and C3". */
  static boolean joins(List<Item> items, int i, Segment current) {
    int next = i + 1;
    while (next < items.size()
        && (items.get(next).is(Type.CONJ) || items.get(next).is(Type.MARK))
        && next - i < 2) {
      next++;
    }
    if (current.items.isEmpty() || next >= items.size()) {
      return false;
    }
    Type left = current.items.get(current.items.size() - 1).type();
    Type right = items.get(next).type();
    boolean alike =
        (left == Type.ELEM && (right == Type.ELEM || right == Type.HER))
            || (left == Type.PLACE && right == Type.PLACE && !items.get(i).is(Type.COLON));
    boolean begins =
        right == Type.PLACE
            && (current.has(Type.KEEP)
                || items.get(i).is(Type.MARK) && current.hasAny(Segmenter.SAYING)
                || current.has(Type.ELEM) && current.hasAny(Segmenter.SAYING)
                || items.get(next + 1 < items.size() ? next + 1 : next).is(Type.PRON))
            && next + 2 < items.size()
            && (items.get(next + 1).is(Type.ELEM) || items.get(next + 1).is(Type.PRON))
            && Segmenter.SAYING.contains(items.get(next + 2).type());
    if (!alike || begins) {
      // "leave V1, V2 kick up" is about two places
      return false;
    }
    if (items.get(i).is(Type.COLON) || items.get(i).is(Type.DASH)) {
      return left == Type.PLACE && items.get(i).is(Type.DASH);
    }
    boolean saidBefore = current.hasAny(Segmenter.SAYING);
    int after = next + 1;
    while (after + 1 < items.size()
        && after - i < Segmenter.MOST_ITEMS
        && (items.get(after).is(Type.CONJ) || items.get(after).is(Type.MARK))
        && items.get(after + 1).is(right)) {
      after += 2;
    }
    boolean saysAfter =
        after < items.size()
            && (Segmenter.SAYING.contains(items.get(after).type())
                || items.get(after).is(Type.COPULA)
                || items.get(after).is(Type.TOO)
                || items.get(after).is(Type.DEG)
                || items.get(after).is(Type.NUMBER)
                || items.get(after).is(Type.AMOUNT)
                || items.get(after).is(Type.AUX) && !isPlea(items, after));
    boolean stays =
        current.has(Type.KEEP) && after < items.size() && items.get(after).is(Type.KEEP);
    return stays || !(saidBefore && saysAfter) || isOpen(items, current, after);
  }

  /** "Take the bass and the kick down", "lower the bass and the kick by 2": one wish for both. */
  private static boolean isOpen(List<Item> items, Segment current, int after) {
    List<Item> said =
        current.items.stream()
            .dropWhile(x -> x.is(Type.PLACE))
            .filter(x -> !x.is(Type.AUX))
            .toList();
    boolean verb = said.size() >= 2 && said.stream().skip(1).allMatch(x -> x.is(Type.ELEM));
    if (!verb || after >= items.size()) {
      return false;
    }
    Item first = said.get(0);
    Item next = items.get(after);
    boolean wants = first.is(Type.ADD) && !first.a().equals("add");
    if (wants || first.is(Type.CUT)) {
      return next.signed() == 0;
    }
    boolean moves = first.is(Type.UP) || first.is(Type.DOWN) || first.is(Type.OUT);
    boolean step = next.is(Type.AMOUNT) || next.is(Type.NUMBER) || next.is(Type.DEG);
    Item behind = after + 1 < items.size() ? items.get(after + 1) : null;
    boolean closes = behind == null || behind.is(Type.MARKW) || Segmenter.isJoint(behind.type());
    // "tighten the bass and the kick up"
    boolean particle = first.is(Type.PRED) && next.is(Type.UP) && closes;
    return particle || moves && step && next.signed() == 0 && closes;
  }

  /** "In C2 and C3 please": belongs to what was said before. */
  static boolean isPlea(List<Item> items, int i) {
    boolean last = i + 1 >= items.size() || Segmenter.isJoint(items.get(i + 1).type());
    return Segmenter.isPlease(items.get(i)) && last;
  }
}
