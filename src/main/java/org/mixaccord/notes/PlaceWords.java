package org.mixaccord.notes;

import java.util.EnumSet;
import java.util.List;
import java.util.Locale;

/** The words of a note and how they stand to each other, while places are looked for. */
abstract class PlaceWords {
  static final EnumSet<Type> JOINTS =
      EnumSet.of(Type.STOP, Type.ASK, Type.BULLET, Type.MARK, Type.CONJ, Type.DASH, Type.ALSOTHIS);

  /** No phrase of a place has more words. */
  static final int LONGEST = 16;

  final String text;
  final List<Item> items;

  PlaceWords(String text, List<Item> items) {
    this.text = text;
    this.items = items;
  }

  /** "In the second", after a section of that kind was named. */
  boolean inBefore(int begin) {
    int before = begin - 1;
    while (before >= 0 && is(before, Type.FILL)) {
      before--;
    }
    return is(before, Type.MARKW);
  }

  boolean closes(int i) {
    return i >= items.size() || JOINTS.contains(type(i));
  }

  /** "Every chorus except the first". */
  boolean exceptBefore(int begin) {
    int before = begin - 1;
    while (isArticle(before) && before >= 0) {
      before--;
    }
    return is(before, Type.EXCEPT);
  }

  int skip(int i) {
    int next = i;
    while (next < items.size() && next - i < LONGEST && isArticle(next)) {
      next++;
    }
    return next;
  }

  boolean isArticle(int i) {
    return is(i, Type.FILL) || is(i, Type.OF);
  }

  boolean is(int i, Type type) {
    return i >= 0 && i < items.size() && items.get(i).type() == type;
  }

  Type type(int i) {
    return items.get(i).type();
  }

  String words(int from, int to) {
    return text.substring(items.get(from).start(), items.get(to - 1).end())
        .toLowerCase(Locale.ROOT)
        .replaceAll("\\s+", " ");
  }
}
