package org.mixaccord.notes;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.regex.Pattern;

/** What of a note's words went into none of the changes and keeps drawn from it. */
public final class Leftover {
  /** Words that alone say nothing: greetings, and what joins wishes. */
  private static final Set<String> GREETING =
      Set.of(
          "hi",
          "hey",
          "hello",
          "dear",
          "all",
          "everyone",
          "everybody",
          "and",
          "so",
          "ok",
          "best",
          "the",
          "my",
          "our",
          "but",
          "or",
          "also",
          "plus",
          "then",
          "in",
          "on");

  private static final Pattern EDGE = Pattern.compile("^[\\s\\p{Punct}…–—]+|[\\s,;:–—(\\[-]+$");
  private static final Pattern JOINT =
      Pattern.compile("^(and|but|or|plus|then)\\b[\\s,]*", Pattern.CASE_INSENSITIVE);

  private static final Pattern WORD = Pattern.compile("\\p{L}{2,}");

  private Leftover() {}

  /**
   * The pieces that are left, in the order of the note; greetings and thanks alone are none.
   *
   * @param text the note as written
   * @param read the words of each change and keep, as they stand in the note
   */
  public static List<String> of(String text, List<String> read) {
    boolean[] taken = new boolean[text.length()];
    read.stream()
        .distinct()
        .sorted(Comparator.comparingInt(String::length).reversed())
        .forEach(words -> take(text, words, taken));
    List<String> pieces = new ArrayList<>();
    int i = 0;
    while (i < text.length()) {
      int end = i;
      while (end < text.length() && taken[end] == taken[i]) {
        end++;
      }
      String piece = taken[i] ? "" : trimmed(text.substring(i, end));
      if (says(piece)) {
        pieces.add(piece);
      }
      i = end;
    }
    return pieces;
  }

  private static void take(String text, String words, boolean[] taken) {
    int at = words.isEmpty() ? -1 : text.indexOf(words);
    while (at >= 0) {
      boolean fresh = false;
      for (int i = at; i < at + words.length(); i++) {
        fresh |= !taken[i];
        taken[i] = true;
      }
      at = fresh ? -1 : text.indexOf(words, at + 1);
    }
  }

  private static String trimmed(String piece) {
    String bare = EDGE.matcher(piece).replaceAll("");
    return EDGE.matcher(JOINT.matcher(bare).replaceFirst("")).replaceAll("");
  }

  private static boolean says(String piece) {
    return WORD.matcher(piece.toLowerCase(Locale.ROOT))
        .results()
        .anyMatch(word -> !GREETING.contains(word.group()) && !Courtesies.is(word.group()));
  }
}
