package org.mixaccord.filenames;

/**
 * A word, a number or a decimal of a name.
 *
 * @param text as given, composed
 * @param norm folded for comparing; see {@link Fold}
 * @param before what stands between the token before and this one; empty when nothing does
 * @param after what follows it, up to the next token
 */
record NameToken(String text, String norm, String before, String after) {
  /** Whether it hangs together with the token before, as the 3 of "mix3". */
  boolean glued() {
    return before.isEmpty();
  }

  boolean digits() {
    return !text.isEmpty() && text.chars().allMatch(NameToken::digit);
  }

  /** Digits with a point between them. */
  boolean decimal() {
    return text.indexOf('.') > 0 && text.chars().allMatch(c -> c == '.' || digit(c));
  }

  boolean letters() {
    return text.codePoints().anyMatch(Character::isLetter);
  }

  /** Two or three capital letters, as people sign with. */
  boolean initials() {
    return text.length() >= 2
        && text.length() <= 3
        && text.codePoints().allMatch(Character::isUpperCase);
  }

  boolean capital() {
    return Character.isUpperCase(text.codePointAt(0)) || Character.isTitleCase(text.codePointAt(0));
  }

  /** The number in digits; only for {@link #digits()} of at most nine places. */
  int value() {
    return Integer.parseInt(text);
  }

  /** A dash with space around it, a bracket or the like: one thing ends and another begins. */
  boolean separated() {
    String dash = before.strip();
    return before.chars().anyMatch(c -> "()[]{},;|".indexOf(c) >= 0)
        || (!before.equals(dash) && dash.chars().anyMatch(c -> "-\u2013\u2014".indexOf(c) >= 0));
  }

  private static boolean digit(int c) {
    return c >= '0' && c <= '9';
  }
}
