package org.mixaccord.notes;

import java.util.ArrayList;
import java.util.List;

/**
 * Which sections of a kind a phrase asks for: "the last two", "2 and 3", "both", "the first half".
 */
final class WantedSections {
  final List<Integer> ordinals = new ArrayList<>();
  final List<Integer> numbers = new ArrayList<>();
  int fromLast;

  /** Speaks of a line or a word of it, so of who sings. */
  boolean sung;

  int count;
  boolean all;

  /** Which side of the section: 1, 2, or 0 for all of it. */
  int half;

  /** How much of that side; null for half of the section. */
  Amount edge;

  boolean plain() {
    return numbers.isEmpty() && ordinals.isEmpty() && fromLast == 0 && !all && half == 0;
  }

  int edgeNamed() {
    return fromLast == 1 ? 2 : ordinals.contains(1) ? 1 : 0;
  }

  int halfNamed() {
    return fromLast == 1 || ordinals.contains(2) ? 2 : ordinals.contains(1) ? 1 : 0;
  }

  /** Indexes of the sections of one kind that are meant, in song order. */
  List<Integer> among(SectionNames names, String kind) {
    List<Integer> same = names.ofKind(kind);
    List<Integer> found = new ArrayList<>();
    if (fromLast > 0) {
      int last = same.size() - (count > 0 ? 0 : fromLast - 1);
      int first = Math.max(0, last - Math.max(1, count));
      found.addAll(same.subList(Math.min(first, last), Math.max(0, last)));
    } else if (count > 0 && ordinals.contains(1)) {
      found.addAll(same.subList(0, Math.min(count, same.size())));
    } else if (!numbers.isEmpty() || !ordinals.isEmpty()) {
      for (int index : same) {
        int number = names.numberOf(index);
        if (numbers.contains(number) || ordinals.contains(number)) {
          found.add(index);
        }
      }
      boolean onlyOne = same.size() == 1 && (kind.equals("outro") || kind.equals("intro"));
      if (found.isEmpty() && onlyOne) {
        found.addAll(same);
      }
    } else {
      found.addAll(same);
    }
    return found;
  }
}
