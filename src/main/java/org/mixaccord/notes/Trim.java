package org.mixaccord.notes;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;

/**
 * Takes out of a segment what speaks of something else: reasons, comparisons, conditions and
 * events. "Make room for the guitar" asks nothing of the guitar.
 */
final class Trim {

  private static final EnumSet<Type> HOPING = EnumSet.of(Type.AUX, Type.ADD, Type.PRAISE);

  private final Segment segment;
  private final List<Item> kept = new ArrayList<>();

  private Trim(Segment segment) {
    this.segment = segment;
  }

  static List<Item> items(Segment segment) {
    Trim trim = new Trim(segment);
    List<Item> items = segment.items;
    int i = 0;
    while (i < items.size()) {
      i = trim.step(items, i);
    }
    return trim.kept;
  }

  private int step(List<Item> items, int i) {
    Item item = items.get(i);
    switch (item.type()) {
      case PURPOSE:
        boolean parts = items.subList(i, items.size()).stream().anyMatch(x -> x.is(Type.ELEM));
        if (item.a().equals("else") && parts) {
          return i + 1;
        }
        if (item.a().equals("else")
            && items.subList(i, items.size()).stream().anyMatch(x -> x.is(Type.KEEP))) {
          // "otherwise hands off"
          kept.add(item.as(Type.REST));
          return i + 1;
        }
        for (Item later : items.subList(i, items.size())) {
          if (later.is(Type.ELEM) && !later.a().equals(Vocabulary.MIX)) {
            segment.aside.add(later.a());
          }
        }
        Item last = items.get(items.size() - 1);
        boolean makes = item.a().equals("makes");
        if (makes
            && !parts
            && last.is(Type.PLACE)
            && kept.stream().noneMatch(x -> x.is(Type.PLACE))) {
          // "the pumping makes me seasick in the breakdown"
          kept.add(last);
        }
        return items.size();
      case COND:
        // "I'd be happy if the ending faded longer"
        boolean hoped = i > 0 && kept.stream().anyMatch(x -> HOPING.contains(x.type()));
        boolean wish = hoped || hasWish(items, i) || fixedLater(items, i);
        if (wish) {
          return i + 1;
        }
        segment.blocked = i == 0;
        return items.size();
      case EVENT:
        boolean there =
            i > 0
                && i + 1 < items.size()
                && items.get(i - 1).is(Type.PLACE)
                && items.get(i - 1).place().is(Place.Kind.SECTIONS);
        if (there && items.get(i + 1).is(Type.PRON)) {
          // "great except in the bridge, where they are too wet"
          return i + 1;
        }
        return fixedLater(items, i) ? i + 1 : event(items, i);
      case PAST:
        // "once the snare thing is fixed" asks to fix it
        boolean wanted = item.a().equals("fixed");
        kept.add(wanted ? item.as(Type.DISLIKE) : item);
        return i + 1;
      case REF:
        return reference(items, i);
      case UP, DOWN:
        boolean through =
            item.a().equals("through") && kept.stream().anyMatch(x -> x.is(Type.ELEM));
        kept.add(item);
        return through && i + 1 < items.size() && items.get(i + 1).is(Type.ELEM) ? i + 2 : i + 1;
      case COVERS:
        kept.add(item);
        boolean direct =
            i + 1 < items.size() && items.get(i + 1).start() - item.end() <= " the ".length();
        boolean than = item.a().equals("than") && i + 1 < items.size();
        // "fighting the hook"
        return (than || direct) && items.get(i + 1).is(Type.PLACE) ? i + 2 : i + 1;
      case KEEP:
        // "as loud in the verse as it is in the chorus"
        boolean likened = kept.stream().anyMatch(x -> x.is(Type.MATCH));
        if (likened || kept.stream().anyMatch(x -> x.is(Type.HALF))) {
          return reference(items, i);
        }
        kept.add(item);
        return i + 1;
      case MATCH:
        kept.add(item);
        return match(items, i);
      case IN:
        boolean begins = item.a().equals("come") && i > 0 && items.get(i - 1).is(Type.PLACE);
        if (!begins) {
          // "before verse 1 starts" only says when
          kept.add(item);
        }
        return i + 1;
      default:
        kept.add(item);
        return i + 1;
    }
  }

  /** "If you could turn it up" asks; "if it is too loud" does not. */
  private static boolean hasWish(List<Item> items, int i) {
    for (int k = i + 1; k < items.size(); k++) {
      if (items.get(k).is(Type.AUX)) {
        return true;
      }
    }
    return false;
  }

  private static boolean fixedLater(List<Item> items, int i) {
    for (int k = i + 1; k < items.size(); k++) {
      if (items.get(k).is(Type.PAST) && items.get(k).a().equals("fixed")) {
        return true;
      }
    }
    return false;
  }

  /** Whether what follows points back at a part: "when the strings come in they are too loud". */
  private static boolean pointsBack(List<Item> items, int from) {
    for (int k = from; k < items.size(); k++) {
      if (items.get(k).is(Type.ELEM)) {
        return false;
      }
      if (items.get(k).is(Type.PRON)) {
        return true;
      }
    }
    return false;
  }

  private int event(List<Item> items, int i) {
    int k = i + 1;
    boolean placed = false;
    while (k < items.size()) {
      Item item = items.get(k);
      if (item.is(Type.HER) && !item.a().equals("me")) {
        // "when he whispers, bring it up"
        segment.aside.add("lead vocal");
      }
      if (item.is(Type.ELEM) && pointsBack(items, k + 1)) {
        kept.add(item);
      }
      if (item.is(Type.PLACE)) {
        kept.add(item);
        placed = true;
        k++;
        if (k < items.size() && (items.get(k).is(Type.IN) || items.get(k).is(Type.COPULA))) {
          k++;
        }
        return k;
      }
      if (item.is(Type.IN) && item.a().equals("come") && k > i + 1) {
        // "when the strings come in the piano is buried"
        segment.openEvent |= !placed;
        return k + 1;
      }
      if (item.is(Type.PRON) && k > i + 1) {
        return k;
      }
      k++;
    }
    segment.openEvent |= !placed;
    return k;
  }

  /** Skips what something is compared with; a place behind the compared thing still counts. */
  private int reference(List<Item> items, int i) {
    int k = i + 1;
    if (items.get(i).a().equals("under") && k < items.size() && items.get(k).is(Type.PLACE)) {
      // "a buzz under the intro"
      return k;
    }
    int skipped = 0;
    while (k < items.size()) {
      Type type = items.get(k).type();
      boolean thing =
          type == Type.ELEM
              || type == Type.PLACE
              || type == Type.VERSION
              || type == Type.UNKNOWN
              || type == Type.HER
              || type == Type.PRON
              || type == Type.PROP
              || type == Type.REST
              || type == Type.QUAL
              || type == Type.WH && k == i + 1
              || type == Type.COPULA && (k == i + 1 || items.get(k - 1).is(Type.PRON))
              || ((type == Type.TOO || type == Type.PRED) && k == i + 1)
              || type == Type.CONJ;
      if (skipped > 0 && items.get(k - 1).is(Type.VERSION)) {
        // "compared to mix 2 the low end is muddy"
        break;
      }
      boolean itself = type == Type.PLACE && items.get(k - 1).is(Type.COPULA);
      if (!thing || skipped > 0 && type == Type.PLACE && !itself) {
        // "as loud as they are in the chorus" speaks of that place, "… the guitars in C1" of this
        break;
      }
      skipped++;
      k++;
    }
    return k;
  }

  private int match(List<Item> items, int i) {
    boolean subjectBefore = false;
    boolean placeBefore = false;
    for (Item item : kept) {
      subjectBefore |= item.is(Type.ELEM) || item.is(Type.PRON) || item.is(Type.HER);
      placeBefore |= item.is(Type.PLACE);
    }
    int k = i + 1;
    boolean compared = items.stream().skip(i + 2L).anyMatch(x -> x.is(Type.KEEP) || x.is(Type.REF));
    if (compared && k < items.size() && items.get(k).is(Type.PLACE) && !placeBefore) {
      // "same level in V2 as they are in V1"
      return k;
    }
    if (items.get(i).a().equals("as")) {
      return reference(items, i);
    }
    if (items.get(i).a().equals("here")) {
      return k;
    }
    if (k < items.size() && items.get(k).is(Type.REF)) {
      return reference(items, k);
    }
    if (k < items.size()
        && ((items.get(k).is(Type.ELEM) && subjectBefore)
            || (items.get(k).is(Type.PLACE) && (placeBefore || subjectBefore)))) {
      return k + 1;
    }
    return k;
  }
}
