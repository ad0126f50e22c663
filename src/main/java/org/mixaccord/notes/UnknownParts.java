package org.mixaccord.notes;

import java.util.List;
import java.util.stream.Collectors;

/** Finds a part that no table knows: "the kalimba is too loud", "more theremin". */
final class UnknownParts {
  private UnknownParts() {}

  /** The writer's word for the part, or an empty string. */
  static String in(Segment segment) {
    List<Item> items = segment.items;
    for (int i = 0; i < items.size(); i++) {
      Item item = items.get(i);
      boolean subject =
          item.is(Type.PRON) && i + 1 < items.size() && items.get(i + 1).is(Type.COPULA);
      if (subject || item.is(Type.REF) || item.is(Type.PURPOSE) || item.is(Type.EVENT)) {
        return "";
      }
      boolean named = item.c().equals("det") || asked(items, i);
      if (!item.is(Type.UNKNOWN) || !named || isMade(items, i - 1)) {
        continue;
      }
      int k = nameEnd(items, i);
      String name = items.subList(i, k).stream().map(Item::a).collect(Collectors.joining(" "));
      boolean said =
          k >= items.size()
              || Segmenter.SAYING.contains(items.get(k).type())
              || items.get(k).is(Type.COPULA)
              || items.get(k).is(Type.TOO)
              || items.get(k).is(Type.DEG)
              || items.get(k).is(Type.PLACE)
              || items.get(k).is(Type.PROP)
              || items.get(k).is(Type.KEEP)
              || items.get(k).is(Type.AUX)
              || items.get(k).is(Type.NUMBER)
              || items.get(k).is(Type.AMOUNT);
      if (said) {
        return name;
      }
    }
    return "";
  }

  /** "Make it more orange": no part of that name. */
  static boolean isMade(List<Item> items, int more) {
    boolean word = more + 1 < items.size() && items.get(more + 1).is(Type.UNKNOWN);
    return word
        && more >= 2
        && items.get(more - 2).is(Type.ADD)
        && !items.get(more - 2).a().equals("add")
        && (items.get(more - 1).is(Type.PRON)
            || items.get(more - 1).is(Type.PLACE)
            || items.get(more - 1).is(Type.ELEM));
  }

  /** Index after a name of up to three words. */
  private static int nameEnd(List<Item> items, int i) {
    int k = i + 1;
    while (k < items.size()
        && k < i + 3
        && items.get(k).is(Type.UNKNOWN)
        && items.get(k).start() - items.get(k - 1).end() == 1) {
      k++;
    }
    return k;
  }

  /** "Mute kalimba", "more kalimba", "kalimba down 2": named first or right after the request. */
  private static boolean asked(List<Item> items, int i) {
    if (i == 0) {
      int behind = nameEnd(items, 0);
      Type next = behind < items.size() ? items.get(behind).type() : Type.STOP;
      return next == Type.UP || next == Type.DOWN || next == Type.NUMBER || next == Type.TOO;
    }
    int verb = i - 1;
    while (verb > 0 && (items.get(verb).is(Type.DISLIKE) || items.get(verb).is(Type.QUAL))) {
      verb--;
    }
    Type before = items.get(verb).type();
    return before == Type.MORE || before == Type.LESS || before == Type.OUT;
  }
}
