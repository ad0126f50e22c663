package org.mixaccord.notes;

import java.util.List;

/** Finds the words that ask for more or less of what a noun names. */
abstract class Operators extends Clause {
  Operators(Segment segment, List<Item> items) {
    super(segment, items);
  }

  boolean mentions(String aspect) {
    return items.stream().anyMatch(x -> x.is(Type.PROP) && x.a().equals(aspect));
  }

  /** A size or level adjective that speaks of the property itself. */
  int qualityFor(int i) {
    String aspect = items.get(i).a();
    for (int k = 0; k < items.size(); k++) {
      Item item = items.get(k);
      if (item.is(Type.QUAL) && !used[k]) {
        boolean size =
            item.a().equals("level")
                || item.a().equals("length")
                || (item.a().equals("impact") && Math.abs(k - i) == 1)
                || (item.a().equals("reverb") && aspect.equals("reverb"))
                || (item.a().equals("harshness") && aspect.equals("sibilance"));
        boolean said = isComparative(item) || modified(k) || !item.c().startsWith("good");
        said &= !namesPlace(item) || modified(k);
        if (size && said && !items.get(i).b().equals("fix") && !aspect.equals("level")) {
          return k;
        }
      }
    }
    return -1;
  }

  /** "In the quiet intro": only says which. */
  boolean namesPlace(Item quality) {
    int at = segment.items.indexOf(quality);
    Item next = at + 1 < segment.items.size() ? segment.items.get(at + 1) : null;
    return next != null
        && next.is(Type.PLACE)
        && !isComparative(quality)
        && next.start() - quality.end() == 1;
  }

  int operatorFor(int i) {
    int behind = i + 1;
    while (behind < items.size() && type(behind) == Type.DEG) {
      behind++;
    }
    boolean measured =
        behind < items.size()
            && !used[behind]
            && (type(behind) == Type.LESS || type(behind) == Type.MORE);
    boolean closes = behind + 1 >= items.size() || type(behind + 1) == Type.PLACE;
    if (measured && closes && i > 0 && copulaOrMake(i)) {
      // "make the delay a little less"
      return behind;
    }
    for (int k = i - 1; k >= 0; k--) {
      Type type = type(k);
      if (!used[k] && (RAISING.contains(type) || LOWERING.contains(type))) {
        return k;
      }
      if (type == Type.PROP || type == Type.QUAL || type == Type.PRED) {
        break;
      }
    }
    for (int k = i + 1; k < items.size(); k++) {
      Type type = type(k);
      if (!used[k] && (RAISING.contains(type) || LOWERING.contains(type))) {
        return k;
      }
      if (type == Type.PROP || type == Type.QUAL || type == Type.PRED) {
        break;
      }
    }
    return -1;
  }

  private boolean copulaOrMake(int i) {
    boolean make = items.stream().limit(i).anyMatch(x -> x.is(Type.ADD) || x.is(Type.AUX));
    return make || copulaBefore(i);
  }

  boolean mentionsLet() {
    return items.stream().anyMatch(i -> i.is(Type.AUX) && i.a().equals("let"));
  }
}
