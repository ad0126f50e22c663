package org.mixaccord.notes;

import java.util.EnumSet;
import java.util.List;
import java.util.Set;

/** What nobody could act on: "it needs something", "a bit pingy", "the synth thing". */
abstract class Doubts extends Presence {
  private static final int NEXT = 2;

  /** Verbs that need to be told which way. */
  private static final Set<String> STEERED = Set.of("pan", "move");

  Doubts(Segment segment, List<Item> items) {
    super(segment, items);
  }

  void vague() {
    for (int i = 0; i < items.size(); i++) {
      Item item = items.get(i);
      if (item.is(Type.DISLIKE) && item.a().equals("thing") && told()) {
        continue;
      }
      if (item.is(Type.DISLIKE)) {
        add(i, Pred.of("other", "any").asUnclear().asComplaint());
        return;
      }
      if (item.is(Type.PREFER) && (item.a().equals("old") || compared())) {
        add(i, Pred.of("other", "any").asUnclear().asComplaint());
        return;
      }
      boolean named = !segment.targets.isEmpty();
      if (item.is(Type.PRAISE) && negated(i) && (named || segment.joint == Segment.Joint.HEADED)) {
        // "bass: not happy"
        add(i, Pred.of("other", "any").asUnclear().asComplaint());
        return;
      }
      boolean nowhere = item.is(Type.VERB) && STEERED.contains(item.a());
      boolean aim =
          item.is(Type.VAGUEAIM) && (asking() || segment.asks || modifier(i, Type.TOO) >= 0);
      boolean pointed = segment.has(Type.PRON) && item.a().equals("pan");
      if (aim || nowhere && (!segment.targets.isEmpty() || pointed)) {
        add(i, Pred.of("other", "any").asUnclear());
        return;
      }
    }
  }

  /** "The snare like in mix 2": as it was, whatever that was. */
  void asOnce() {
    List<Item> all = segment.items;
    for (int i = 1; i < all.size(); i++) {
      boolean like = all.get(i - 1).is(Type.REF) && all.get(i - 1).a().equals("as");
      boolean level = mentions("level") && all.get(i).is(Type.PLACE);
      if (like && level) {
        // "the level in V1 should be like in V2"
        found.add(Pred.of("level", "match"));
        return;
      }
      boolean named = !segment.targets.isEmpty() && !segment.has(Type.PRAISE);
      boolean made =
          i > 2
              && all.get(i - 2).is(Type.ELEM)
              && all.get(i - 3).is(Type.ADD)
              && !all.get(i - 3).a().equals("add")
              && all.get(i).is(Type.PRON);
      if (like && made) {
        // "make the snare like the other one"
        found.add(Pred.of("other", "any").asUnclear());
        return;
      }
      if (all.get(i).is(Type.VERSION) && like && named) {
        found.add(Pred.of("other", "any"));
        return;
      }
    }
  }

  /** "The snare is a bit pingy", "make it sadder": a word nobody listed. */
  void unheardOf() {
    int last = items.size() - 1;
    boolean made =
        last >= 2
            && type(last) == Type.UNKNOWN
            && items.get(last).a().endsWith("er")
            && (type(last - 1) == Type.PRON || type(last - 1) == Type.ELEM)
            && type(last - 2) == Type.ADD;
    if (made) {
      add(last, Pred.of("other", "any").asUnclear());
      return;
    }
    for (int i = 1; i < items.size(); i++) {
      boolean measured = type(i - 1) == Type.TOO || type(i - 1) == Type.DEG;
      boolean said = copulaBefore(i) || type(i - 1) == Type.TOO;
      boolean ends = i + 1 == items.size();
      if (items.get(i).is(Type.UNKNOWN) && measured && said && ends && named()) {
        add(i, Pred.of("other", "any").asUnclear().asComplaint());
        return;
      }
    }
  }

  private boolean negated(int i) {
    for (int k = i - 1; k >= Math.max(0, i - NEXT); k--) {
      if (type(k) == Type.NEG) {
        return true;
      }
      if (type(k) != Type.DEG && type(k) != Type.TOO) {
        return false;
      }
    }
    return false;
  }

  private boolean named() {
    return !segment.targets.isEmpty() && !segment.has(Type.PRAISE) && !negatedBefore(items.size());
  }

  /** "Same bass thing", "the vocal thing is great": no doubt about it. */
  private boolean told() {
    return segment.hasAny(EnumSet.of(Type.SAME, Type.SAMEAGAIN, Type.PRAISE, Type.REF, Type.KEEP));
  }

  private boolean compared() {
    return segment.has(Type.REF)
        || segment.has(Type.VERSION)
        || segment.items.stream()
            .anyMatch(i -> i.is(Type.PLACE) && i.place().words().matches("v ?\\d+"));
  }
}
