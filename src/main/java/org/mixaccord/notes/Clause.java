package org.mixaccord.notes;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;

/** The words of one segment and how they stand to each other, while its predicates are found. */
abstract class Clause {
  static final EnumSet<Type> RAISING =
      EnumSet.of(Type.UP, Type.IN, Type.ADD, Type.MORE, Type.NOTENOUGH);
  static final EnumSet<Type> LOWERING =
      EnumSet.of(Type.DOWN, Type.LESS, Type.OUT, Type.CUT, Type.TOOMUCH);

  final Segment segment;
  final List<Item> items;
  final boolean[] used;
  final Degrees degrees;
  final List<Pred> found = new ArrayList<>();

  Clause(Segment segment, List<Item> items) {
    this.segment = segment;
    this.items = withTooMuch(items);
    this.used = new boolean[items.size()];
    this.degrees = new Degrees(this.items);
  }

  /** "A bit much" is too much by a bit. */
  private static List<Item> withTooMuch(List<Item> items) {
    List<Item> read = new ArrayList<>(items);
    for (int i = 1; i < read.size(); i++) {
      boolean much = read.get(i).is(Type.DEG) && read.get(i).a().equals("much");
      if (much && read.get(i - 1).is(Type.DEG)) {
        read.set(i, read.get(i).as(Type.TOOMUCH));
      }
    }
    return read;
  }

  static boolean isComparative(Item item) {
    return item.c().endsWith("+");
  }

  /** Too loud, or plainly loud. */
  boolean excess(int quality) {
    return !isComparative(items.get(quality))
        && modifier(quality, Type.MORE) < 0
        && !causative(quality)
        && !(negatedBefore(quality) && near(quality, Type.ENOUGH));
  }

  boolean modified(int i) {
    return modifier(i, Type.TOO) >= 0
        || modifier(i, Type.MORE) >= 0
        || modifier(i, Type.NOTENOUGH) >= 0
        || modifier(i, Type.LESS) >= 0;
  }

  /** A modifier directly before, words of degree aside. */
  int modifier(int i, Type wanted) {
    for (int k = i - 1; k >= 0 && k >= i - 3; k--) {
      Type type = type(k);
      if (type == wanted) {
        return k;
      }
      if (type != Type.DEG && type != Type.TOO && type != Type.MORE && type != Type.LESS) {
        return -1;
      }
    }
    return -1;
  }

  boolean negatedBefore(int i) {
    for (int k = i - 1; k >= 0 && k >= i - 4; k--) {
      Type type = type(k);
      if (type == Type.NEG) {
        return true;
      }
      boolean between =
          type == Type.PRON && k > 0 && type(k - 1) == Type.NEG
              || type == Type.TOO
              || type == Type.DEG
              || type == Type.MORE
              || type == Type.COPULA
              || type == Type.ADD
              || type == Type.AUX
              || type == Type.QUAL
              || type == Type.UNKNOWN;
      if (!between) {
        return false;
      }
    }
    return false;
  }

  boolean order(int i) {
    for (int k = 0; k < i; k++) {
      if (items.get(k).is(Type.NEG) && !items.get(k).a().equals("is")) {
        return true;
      }
    }
    return false;
  }

  boolean copulaBefore(int i) {
    for (int k = 0; k < i; k++) {
      Item item = items.get(k);
      if (item.is(Type.COPULA) || item.is(Type.PRON) && item.a().equals("is")) {
        return true;
      }
    }
    return false;
  }

  boolean asking() {
    if (segment.pleads) {
      return true;
    }
    for (Item item : items) {
      if (item.is(Type.AUX) || item.is(Type.ADD) || item.is(Type.MORE) || item.is(Type.NOTENOUGH)) {
        return true;
      }
    }
    return false;
  }

  boolean near(int i, Type wanted) {
    for (int k = Math.max(0, i - 3); k < items.size() && k <= i + 2; k++) {
      if (items.get(k).is(wanted)) {
        return true;
      }
    }
    return false;
  }

  boolean nearVerb(String verb) {
    return items.stream().anyMatch(i -> i.is(Type.VERB) && i.a().equals(verb));
  }

  Type type(int i) {
    return items.get(i).type();
  }

  void use(int i) {
    if (i >= 0) {
      used[i] = true;
    }
  }

  void useAll(Type type) {
    for (int i = 0; i < items.size(); i++) {
      if (items.get(i).is(type)) {
        used[i] = true;
      }
    }
  }

  void add(int i, Pred pred) {
    used[i] = true;
    boolean moved = pred.direction().equals("up") || pred.direction().equals("down");
    double hertz = pred.aspect().equals("level") && moved ? degrees.frequency() : 0;
    Pred read = hertz > 0 ? pred.turned(band(hertz), pred.direction()) : pred;
    found.add(read.with(degrees.amountFor(read.aspect(), i)));
  }

  /** The range people name by a frequency. */
  private static String band(double hertz) {
    if (hertz <= 150) {
      return "lows";
    }
    if (hertz <= 500) {
      return "low mids";
    }
    return hertz < 5000 ? "mids" : "highs";
  }

  /** "Make it bright", "should be wide": wished for, not complained about. */
  boolean causative(int i) {
    if (segment.wished && modifier(i, Type.TOO) < 0 && !copulaBefore(i)) {
      return true;
    }
    for (int k = i - 1; k >= 0; k--) {
      boolean go = k == 0 && items.get(0).is(Type.COPULA) && items.get(0).a().equals("go");
      boolean preferred = items.get(k).is(Type.PREFER);
      if (items.get(k).is(Type.AUX) || items.get(k).is(Type.ADD) || go || preferred) {
        return modifier(i, Type.TOO) < 0 || items.get(k).is(Type.ADD);
      }
    }
    return false;
  }
}
