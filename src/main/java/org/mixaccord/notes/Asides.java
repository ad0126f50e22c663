package org.mixaccord.notes;

/** Signs that say nothing of the music: faces, and the names of those who are to read a note. */
final class Asides {
  private static final int SHORTEST_NAME = 3;
  private static final int LONGEST_TAG = 80;

  private Asides() {}

  /** How long the face is that begins at the index, ":)" or ";-D"; 0 for none. */
  static int face(String text, int at) {
    int mouth = charAt(text, at + 1) == '-' ? at + 2 : at + 1;
    boolean face = ")(DPp|/".indexOf(charAt(text, mouth)) >= 0;
    boolean ends = !Character.isLetterOrDigit(charAt(text, mouth + 1));
    boolean time = Character.isDigit(charAt(text, at - 1));
    return face && ends && !time ? mouth + 1 - at : 0;
  }

  /** How long the name behind an "@" is, "Maren" of "@Maren"; 0 for "@bridge" and "@C2". */
  static int mention(String text, int at) {
    int end = at;
    while (end < text.length() && Character.isLetter(text.charAt(end))) {
      end++;
    }
    String name = text.substring(Math.min(at, text.length()), end);
    boolean named = name.length() >= SHORTEST_NAME && Character.isUpperCase(name.charAt(0));
    boolean glued = Character.isDigit(charAt(text, end));
    return named && !glued && SectionNames.kindOf(name).isEmpty() ? name.length() : 0;
  }

  /** How long the tag is that begins here, "<b>" out of a mail; 1 for a bare sign. */
  static int tag(String text, int at) {
    int close = at + 1;
    while (close < text.length() && close - at < LONGEST_TAG && text.charAt(close) != '>') {
      close++;
    }
    char first = charAt(text, at + 1);
    boolean opens =
        Character.isLetter(first) || first == '/' && Character.isLetter(charAt(text, at + 2));
    return opens && charAt(text, close) == '>' ? close + 1 - at : 1;
  }

  private static char charAt(String text, int at) {
    return at >= 0 && at < text.length() ? text.charAt(at) : '\n';
  }
}
