package org.mixaccord.notes;

import java.util.HashMap;
import java.util.Map;
import java.util.function.Predicate;

/**
 * Finds the word a misspelt one was meant to be, if exactly one letter is missing, doubled, wrong
 * or swapped with its neighbour. Works on a table of words with one letter left out, so that a
 * look-up costs the word's length and not the size of the table.
 */
final class Spelling {
  /** Shorter words have too many neighbours to be guessed. */
  private static final int SHORTEST = 5;

  private final Map<String, String> byMissingLetter = new HashMap<>();

  void learn(String word) {
    if (word.length() < SHORTEST || !word.chars().allMatch(Character::isLetter)) {
      return;
    }
    byMissingLetter.put(word, word);
    for (int i = 1; i < word.length(); i++) {
      byMissingLetter.putIfAbsent(without(word, i), word);
    }
  }

  /** The nearest learnt word with the same first letter, or the word itself. */
  String nearest(String word) {
    if (word.length() < SHORTEST || word.length() > 24) {
      return word;
    }
    String found = byMissingLetter.get(word);
    if (found != null && found.charAt(0) == word.charAt(0)) {
      return found;
    }
    for (int i = 1; i < word.length(); i++) {
      found = byMissingLetter.get(without(word, i));
      if (found != null && close(found, word)) {
        return found;
      }
    }
    return word;
  }

  /** Loouuud to loud: letters written three times or more count once, or else twice. */
  static String withoutStretching(String word, Predicate<String> known) {
    StringBuilder once = new StringBuilder();
    StringBuilder twice = new StringBuilder();
    boolean stretched = false;
    for (int i = 0; i < word.length(); i++) {
      char c = word.charAt(i);
      boolean second = i > 0 && word.charAt(i - 1) == c;
      boolean third = second && i > 1 && word.charAt(i - 2) == c;
      stretched |= third;
      if (!second) {
        once.append(c);
      }
      if (!third) {
        twice.append(c);
      }
    }
    if (!stretched) {
      return word;
    }
    if (known.test(twice.toString())) {
      return twice.toString();
    }
    return known.test(once.toString()) ? once.toString() : word;
  }

  private static boolean close(String a, String b) {
    if (a.charAt(0) != b.charAt(0) || Math.abs(a.length() - b.length()) > 1) {
      return false;
    }
    int head = 0;
    while (head < Math.min(a.length(), b.length()) && a.charAt(head) == b.charAt(head)) {
      head++;
    }
    int tail = 0;
    while (tail < Math.min(a.length(), b.length()) - head
        && a.charAt(a.length() - 1 - tail) == b.charAt(b.length() - 1 - tail)) {
      tail++;
    }
    int restA = a.length() - head - tail;
    int restB = b.length() - head - tail;
    boolean swapped =
        restA == 2
            && restB == 2
            && a.charAt(head) == b.charAt(head + 1)
            && a.charAt(head + 1) == b.charAt(head);
    // plurals and other endings are different words, not slips
    boolean doubled = head > 1 && restB == 1 && b.charAt(head) == b.charAt(head - 1);
    boolean ending = tail == 0 && restA + restB == 1 && !doubled;
    return !ending && (restA <= 1 && restB <= 1 || swapped);
  }

  private static String without(String word, int i) {
    return word.substring(0, i) + word.substring(i + 1);
  }
}
