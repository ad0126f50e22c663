package org.mixaccord.notes;

import java.util.EnumSet;
import java.util.List;

/** Pictures people paint: "like a plane taking off", "as if she sang through a scarf". */
final class Likeness {
  private static final EnumSet<Type> JOINTS =
      EnumSet.of(
          Type.MARK, Type.DASH, Type.COLON, Type.STOP, Type.ASK, Type.BULLET, Type.CONJ, Type.AUX);

  /** Words that say something of the music itself: "sounds like it is too loud". */
  private static final EnumSet<Type> LITERAL =
      EnumSet.of(
          Type.TOO,
          Type.TOOMUCH,
          Type.NOTENOUGH,
          Type.ENOUGH,
          Type.QUAL,
          Type.PRED,
          Type.PROP,
          Type.LOST,
          Type.COVERS,
          Type.DOMINATES,
          Type.AMOUNT,
          Type.VERSION,
          Type.DEG,
          Type.MORE,
          Type.LESS);

  private static final EnumSet<Type> SUBJECTS =
      EnumSet.of(Type.PRON, Type.HER, Type.COPULA, Type.SOMEONE);

  private Likeness() {}

  /** Index after a picture that begins at {@code i}, or {@code i} where none does. */
  static int end(List<Item> placed, int i) {
    Item item = placed.get(i);
    boolean like = item.is(Type.REF) && item.a().equals("as") && item.end() - item.start() == 4;
    boolean sounds =
        item.is(Type.DISLIKE) && item.b().equals("like")
            || item.is(Type.FILL) && item.a().equals("like");
    if (!like && !sounds) {
      return i;
    }
    int next = i + 1;
    while (next < placed.size() && placed.get(next).is(Type.FILL)) {
      next++;
    }
    boolean article = next > i + 1;
    if (next >= placed.size()) {
      return i;
    }
    boolean counted =
        sounds && (placed.get(next).is(Type.NUMBER) || placed.get(next).is(Type.NUMWORD));
    boolean effect = article && placed.get(next).is(Type.EFFECT);
    boolean thing = counted || effect || placed.get(next).is(Type.UNKNOWN) && (article || sounds);
    boolean described =
        article
            && placed.get(next).is(Type.QUAL)
            && next + 1 < placed.size()
            && placed.get(next + 1).is(Type.UNKNOWN);
    Item behind = placed.get(next - 1);
    boolean one = article && (behind.a().equals("a") || behind.a().equals("an"));
    boolean mine =
        item.is(Type.DISLIKE) && isOwn(placed.get(next - 1)) && placed.get(next).is(Type.ELEM);
    boolean other =
        article
            && placed.get(next).is(Type.VAGUEAIM)
            && next + 1 < placed.size()
            && placed.get(next + 1).is(Type.UNKNOWN);
    boolean part = mine || other || one && placed.get(next).is(Type.ELEM);
    boolean someone = SUBJECTS.contains(placed.get(next).type()) && figurative(placed, next);
    return thing || described || part || someone ? close(placed, next) : i;
  }

  /** "It finally sounds like my snare", "like a different person": says nothing to be done. */
  static boolean tellsNothing(List<Item> placed, int i) {
    int next = i + 1;
    while (next < placed.size() && placed.get(next).is(Type.FILL)) {
      next++;
    }
    boolean named = next > i + 1 && next < placed.size();
    return placed.get(i).is(Type.DISLIKE)
        && placed.get(i).b().equals("like")
        && named
        && (placed.get(next).is(Type.ELEM) && isOwn(placed.get(next - 1))
            || placed.get(next).is(Type.VAGUEAIM));
  }

  private static boolean isOwn(Item item) {
    return item.is(Type.FILL) && (item.a().equals("my") || item.a().equals("our"));
  }

  private static boolean figurative(List<Item> placed, int from) {
    boolean strange = false;
    for (int k = from; k < placed.size() && !JOINTS.contains(placed.get(k).type()); k++) {
      if (LITERAL.contains(placed.get(k).type())) {
        return false;
      }
      strange |= placed.get(k).is(Type.UNKNOWN);
    }
    return strange;
  }

  private static int close(List<Item> placed, int from) {
    int k = from;
    while (k < placed.size() && !JOINTS.contains(placed.get(k).type())) {
      k++;
    }
    return k;
  }
}
