package org.mixaccord.notes;

import java.util.List;
import java.util.Set;

/** The amounts said in one segment and which of them belongs to what. */
final class Degrees {
  private static final Set<String> TONAL =
      Set.of("lows", "low mids", "mids", "highs", "harshness", "sibilance");

  /** All the way to a side, in percent. */
  private static final double HARD = 100;

  private final List<Item> items;

  Degrees(List<Item> items) {
    this.items = items;
  }

  boolean has() {
    return number() != null || word(0) != null;
  }

  boolean hasNumber() {
    return number() != null;
  }

  /** The first amount in numbers; a bare number counts as decibels. */
  Amount number() {
    Amount bare = null;
    for (Item item : items) {
      if (item.is(Type.AMOUNT)) {
        return item.amount();
      }
      if (item.is(Type.NUMBER) && bare == null && item.value() <= 24) {
        bare = Amount.of(item.value(), "dB");
      }
    }
    return bare != null ? bare : spelledOut();
  }

  /** "Down two", "up one". */
  private Amount spelledOut() {
    for (int i = 1; i < items.size(); i++) {
      Type before = items.get(i - 1).type();
      boolean moved = before == Type.UP || before == Type.DOWN;
      if (items.get(i).is(Type.NUMWORD) && moved) {
        return Amount.of(Integer.parseInt(items.get(i).a()), "dB");
      }
    }
    return null;
  }

  /** A frequency in Hz: "at 3k", "some 300"; 0 for none. */
  double frequency() {
    for (Item item : items) {
      if (item.is(Type.AMOUNT) && item.amount().unit().orElse("").equals("Hz")) {
        return item.amount().value().orElse(0);
      }
      if (item.is(Type.NUMBER) && item.signed() == 0 && item.value() >= 60) {
        return item.value();
      }
    }
    return 0;
  }

  /** The sign written before a number: −1, +1, or 0 for none. */
  int sign() {
    for (Item item : items) {
      if (item.signed() != 0 && (item.is(Type.NUMBER) || item.is(Type.AMOUNT))) {
        return item.signed();
      }
    }
    return 0;
  }

  int signedNear(int i) {
    for (int k = Math.max(0, i - 2); k < items.size() && k <= i + 2; k++) {
      if (items.get(k).signed() != 0) {
        return items.get(k).signed();
      }
    }
    return 0;
  }

  /** A word of degree directly before, modifiers aside. */
  String wordBefore(int i) {
    for (int k = i - 1; k >= 0 && k >= i - 2; k--) {
      if (items.get(k).is(Type.DEG)) {
        return items.get(k).a();
      }
      if (!items.get(k).is(Type.TOO)) {
        return null;
      }
    }
    return null;
  }

  private String word(int near) {
    String best = null;
    int distance = Integer.MAX_VALUE;
    for (int i = 0; i < items.size(); i++) {
      if (items.get(i).is(Type.DEG) && Math.abs(i - near) < distance) {
        distance = Math.abs(i - near);
        best = items.get(i).a();
      }
    }
    return best;
  }

  /** What belongs to an aspect: a number of a fitting unit, or the nearest word of degree. */
  Amount amountFor(String aspect, int near) {
    if (aspect.equals("other") || aspect.equals("delivery")) {
      return null;
    }
    for (Item item : items) {
      boolean step = item.is(Type.AMOUNT) && item.amount().unit().orElse("").equals("dB");
      if (step && TONAL.contains(aspect)) {
        return item.amount();
      }
    }
    if (TONAL.contains(aspect)) {
      for (Item item : items) {
        if (item.is(Type.NUMBER) && item.signed() != 0) {
          // "-2 at 10k"
          return Amount.of(item.value(), "dB");
        }
      }
    }
    for (Item item : items) {
      if (item.is(Type.AMOUNT) && fits(aspect, item.amount().unit().orElse(""))) {
        return item.amount();
      }
    }
    for (Item item : items) {
      if (item.is(Type.HALF)) {
        return Amount.of(50, "%");
      }
    }
    boolean bareFits =
        aspect.equals("level")
            || TONAL.contains(aspect)
            || aspect.equals("reverb")
            || aspect.equals("delay");
    Amount number = number();
    if (bareFits && number != null && number.unit().orElse("").equals("dB")) {
      return number;
    }
    if (TONAL.contains(aspect)) {
      for (Item item : items) {
        if (item.is(Type.NUMBER) && item.value() >= 60) {
          return Amount.of(item.value(), "Hz");
        }
      }
    }
    if (aspect.equals("pan") && turn(near) > 0) {
      return Amount.of(turn(near), "%");
    }
    String word = word(near);
    if (aspect.equals("pan") && "far".equals(word)) {
      // "to the far left" is a place
      return null;
    }
    return word == null ? null : Amount.vague(word);
  }

  /** The 30 of "right 30": how far a part is turned to a side, in percent; 0 for none. */
  private double turn(int near) {
    for (int k = Math.max(0, near - 1); k <= near + 1 && k < items.size(); k++) {
      Item item = items.get(k);
      boolean share = item.is(Type.NUMBER) && item.signed() == 0 && item.value() <= HARD;
      if (share) {
        return item.value();
      }
    }
    return 0;
  }

  private static boolean fits(String aspect, String unit) {
    switch (unit) {
      case "dB":
        return !Set.of("length", "fade", "timing", "tuning", "mute", "pan", "noise")
            .contains(aspect);
      case "Hz":
        return TONAL.contains(aspect);
      case "ms":
        return Set.of("timing", "delay", "reverb", "length").contains(aspect);
      case "s":
        return Set.of("length", "fade", "reverb", "delay", "timing").contains(aspect);
      case "bars":
        return Set.of("length", "fade", "timing").contains(aspect);
      default:
        return !Set.of("mute", "noise", "tuning").contains(aspect);
    }
  }
}
