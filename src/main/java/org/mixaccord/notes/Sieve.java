package org.mixaccord.notes;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;

/** Lets small words go, and keeps those whose neighbours give them a meaning. */
final class Sieve {
  /** How many words back a clause is looked through. */
  private static final int LOOK_BACK = 32;

  private static final EnumSet<Type> DROPPED =
      EnumSet.of(
          Type.FILL,
          Type.REPAIR,
          Type.ON,
          Type.OF,
          Type.TO,
          Type.SLICE,
          Type.ONEW,
          Type.MINUTE,
          Type.FROMEND,
          Type.BEFORE,
          Type.AFTER,
          Type.FROM,
          Type.UNTIL,
          Type.BETWEEN,
          Type.ALLW,
          Type.ORD,
          Type.LASTW,
          Type.BARW,
          Type.BEATW,
          Type.ONWARD,
          Type.QUOTED,
          Type.SECTION);

  private static final EnumSet<Type> ENDS =
      EnumSet.of(
          Type.MARK,
          Type.DASH,
          Type.COLON,
          Type.STOP,
          Type.ASK,
          Type.BULLET,
          Type.CONJ,
          Type.AUX,
          Type.PLACE);

  private static final EnumSet<Type> RANGE_OF = EnumSet.of(Type.OF, Type.ON, Type.MARKW, Type.FROM);

  /** What can stand behind the "in" of "bring it in". */
  private static final Set<String> AFTER_IN =
      Set.of("at", "for", "again", "right", "during", "already", "with", "earlier", "later");

  /** Parts that lie on others. */
  private static final Set<String> LAYERS =
      Set.of(
          "double",
          "doubles",
          "vocal double",
          "vocal doubles",
          "backing vocals",
          "ad libs",
          "aahs",
          "oohs",
          "whisper",
          "808");

  private static final EnumSet<Type> MEASURED =
      EnumSet.of(
          Type.MORE,
          Type.LESS,
          Type.TOOMUCH,
          Type.NOTENOUGH,
          Type.DEG,
          Type.CUT,
          Type.OUT,
          Type.ADD);

  private final List<Item> items = new ArrayList<>();

  private Sieve() {}

  static List<Item> of(List<Item> placed) {
    Sieve sieve = new Sieve();
    sieve.pass(placed);
    return sieve.items;
  }

  private void pass(List<Item> placed) {
    int painted = 0;
    for (int i = 0; i < placed.size(); i++) {
      Item item = placed.get(i);
      painted = Math.max(painted, Likeness.end(placed, i));
      boolean says =
          item.is(Type.PLACE) || item.is(Type.DISLIKE) && !Likeness.tellsNothing(placed, i);
      if (i < painted && !says) {
        continue;
      }
      boolean with = item.is(Type.TO) && !items.isEmpty() && matches(items);
      boolean upon =
          item.is(Type.ON)
              && !items.isEmpty()
              && (items.get(items.size() - 1).is(Type.MORE)
                  || items.get(items.size() - 1).is(Type.LESS));
      boolean in =
          item.is(Type.MARKW)
              && item.a().equals("in")
              && i + 1 < placed.size()
              && (placed.get(i + 1).is(Type.FILL) && AFTER_IN.contains(placed.get(i + 1).a())
                  || placed.get(i + 1).is(Type.ON)
                  || placed.get(i + 1).is(Type.FROM));
      if (isOwner(placed, i)) {
        continue;
      }
      if (beginsEvent(placed, i)) {
        items.add(item.as(Type.EVENT));
        continue;
      }
      if (in) {
        items.add(Item.mark(Type.PART, "in", item.start(), item.end()));
      } else if (upon) {
        items.add(item);
      } else if (isRange(placed, i)) {
        items.add(
            new Item(Type.PROP, "lows", "-", item.a(), 0, null, null, 0, item.start(), item.end()));
      } else if (isThing(placed, i)) {
        items.add(Item.mark(Type.DISLIKE, "thing", item.start(), item.end()));
      } else if (with || isMeasure(placed, i) || isCompany(placed, i)) {
        items.add(item.as(Type.REF));
      } else if (standsForPart(placed, i)) {
        items.add(item.as(Type.PRON));
      } else if (!DROPPED.contains(item.type())) {
        items.add(item);
      }
    }
  }

  /** "The verse ones", "the one in drop 2". */
  private static boolean standsForPart(List<Item> placed, int i) {
    Item item = placed.get(i);
    int length = item.end() - item.start();
    if (!item.is(Type.ONEW) && !item.is(Type.NUMWORD) || i == 0) {
      return false;
    }
    boolean many =
        item.is(Type.ONEW) && length == "ones".length() && placed.get(i - 1).is(Type.PLACE);
    boolean the = placed.get(i - 1).is(Type.FILL) && placed.get(i - 1).a().equals("the");
    boolean where =
        i + 1 < placed.size()
            && (placed.get(i + 1).is(Type.MARKW) || placed.get(i + 1).is(Type.PLACE));
    boolean those = length == "one".length() || item.is(Type.ONEW) && length == "ones".length();
    return many || those && the && where;
  }

  /** "Less sub in the kick", "the bass in her voice": a range of it, not a part. */
  private static boolean isRange(List<Item> placed, int i) {
    boolean range =
        placed.get(i).is(Type.ELEM)
            && (placed.get(i).a().equals("sub bass") || placed.get(i).a().equals("bass"));
    int next = i + 1;
    if (range && ofNamedPart(placed, i)) {
      return true;
    }
    if (!range || next >= placed.size() || !RANGE_OF.contains(placed.get(next).type())) {
      return false;
    }
    boolean asked = false;
    for (int k = Math.max(0, i - 3); k < i; k++) {
      asked |= MEASURED.contains(placed.get(k).type());
    }
    while (next < placed.size()
        && (placed.get(next).is(Type.FILL) || RANGE_OF.contains(placed.get(next).type()))) {
      next++;
    }
    return asked
        && next < placed.size()
        && (placed.get(next).is(Type.HER)
            || placed.get(next).is(Type.ELEM) && !placed.get(next).a().equals(Vocabulary.MIX));
  }

  /** "The kick needs more sub", "guitars want less bass". */
  private static boolean ofNamedPart(List<Item> placed, int i) {
    boolean measured = i > 1 && MEASURED.contains(placed.get(i - 1).type());
    boolean closes = i + 1 >= placed.size() || ENDS.contains(placed.get(i + 1).type());
    boolean needs = false;
    for (int k = i - 2; measured && closes && k >= 0 && k >= i - LOOK_BACK; k--) {
      Item item = placed.get(k);
      if (ENDS.contains(item.type())) {
        return false;
      }
      needs |= item.is(Type.ADD) || item.is(Type.COPULA) || placed.get(i - 1).is(Type.NOTENOUGH);
      if (item.is(Type.ELEM) && !item.a().equals(Vocabulary.MIX)) {
        return needs || placed.get(i - 1).is(Type.NOTENOUGH);
      }
    }
    return false;
  }

  /** "The bass glued to the kick": the kick is what it is measured by. */
  private boolean isMeasure(List<Item> placed, int i) {
    Item before = items.isEmpty() ? null : items.get(items.size() - 1);
    boolean told = before != null && (before.is(Type.QUAL) || before.is(Type.PRED));
    boolean exchanged =
        placed.get(i).is(Type.FILL) && placed.get(i).a().equals("for") && swaps(items);
    if (exchanged) {
      return true;
    }
    if (!placed.get(i).is(Type.TO) || !told) {
      return false;
    }
    int next = i + 1;
    while (next < placed.size() && placed.get(next).is(Type.FILL)) {
      next++;
    }
    boolean named = false;
    int first = Math.max(0, items.size() - LOOK_BACK);
    for (int k = items.size() - 1; k >= first && !Segmenter.endsSentence(items.get(k)); k--) {
      if (items.get(k).is(Type.MARK) || items.get(k).is(Type.CONJ)) {
        break;
      }
      named |= items.get(k).is(Type.ELEM);
    }
    return named && next < placed.size() && placed.get(next).is(Type.ELEM);
  }

  /** "The synth thing at 2:10": something about it. */
  private boolean isThing(List<Item> placed, int i) {
    boolean part = i > 0 && placed.get(i - 1).is(Type.ELEM);
    return part
        && placed.get(i).is(Type.FILL)
        && placed.get(i).a().equals("thing")
        && !placed.get(i - 1).a().equals(Vocabulary.MIX)
        && placed.get(i).start() - placed.get(i - 1).end() == 1;
  }

  /** "Tighter with the kick": the kick is what it is measured by. */
  private boolean isCompany(List<Item> placed, int i) {
    boolean with = placed.get(i).is(Type.FILL) && placed.get(i).a().equals("with");
    Item before = items.isEmpty() ? null : items.get(items.size() - 1);
    boolean told =
        before != null
            && (before.is(Type.QUAL) || before.is(Type.PRED))
            && (before.a().equals("timing") || before.a().equals("tuning"));
    return with && (told || before != null && before.is(Type.ELEM) && matches(items));
  }

  /** "A hum until the drums come in": only says when. */
  private static boolean beginsEvent(List<Item> placed, int i) {
    Type type = placed.get(i).type();
    if (type != Type.UNTIL && type != Type.BEFORE && type != Type.AFTER) {
      return false;
    }
    int next = i + 1;
    while (next < placed.size() && placed.get(next).is(Type.FILL)) {
      next++;
    }
    return next + 1 < placed.size()
        && placed.get(next).is(Type.ELEM)
        && placed.get(next + 1).is(Type.IN)
        && placed.get(next + 1).a().equals("come");
  }

  /** "The double on the lead": the lead only says which. */
  private static boolean isOwner(List<Item> placed, int i) {
    if (!placed.get(i).is(Type.ELEM)) {
      return false;
    }
    int k = i - 1;
    boolean on = false;
    while (k >= 0 && (placed.get(k).is(Type.FILL) || placed.get(k).is(Type.ON))) {
      on |= placed.get(k).is(Type.ON);
      k--;
    }
    return on && k >= 0 && placed.get(k).is(Type.ELEM) && LAYERS.contains(placed.get(k).a());
  }

  /** "Swap the organ for the rhodes": the rhodes is no part of it yet. */
  private static boolean swaps(List<Item> items) {
    int first = Math.max(0, items.size() - LOOK_BACK);
    for (int i = items.size() - 1; i >= first && !Segmenter.endsSentence(items.get(i)); i--) {
      if (items.get(i).is(Type.SWAP)) {
        return true;
      }
    }
    return false;
  }

  /** "Match A to B": B is what it is measured by. */
  private static boolean matches(List<Item> items) {
    int first = Math.max(0, items.size() - LOOK_BACK);
    for (int i = items.size() - 1; i >= first && !Segmenter.endsSentence(items.get(i)); i--) {
      boolean timed = items.get(i).is(Type.PRED) && items.get(i).a().equals("timing");
      if (items.get(i).is(Type.MATCH) || timed && items.get(i).b().equals("tighter")) {
        return true;
      }
    }
    return false;
  }
}
