package org.mixaccord.accounts;

import org.mixaccord.problem.Problem;
import org.mixaccord.problem.ProblemException;

/** Checks on text people send: what can be stored, and how long a line may be. */
public final class Texts {
  private Texts() {}

  /**
   * One line of text, stripped.
   *
   * @param field name of the field, for the answer
   * @param text what was sent; null counts as empty
   * @param maxChars the longest that is kept
   * @throws ProblemException {@code invalid} when empty, too long or broken over lines; {@code
   *     bad-text} for a NUL or half a character
   */
  public static String line(String field, String text, int maxChars) {
    String clean = text == null ? "" : text.strip();
    if (clean.isEmpty()) {
      throw new ProblemException(Problem.INVALID, "“" + field + "” is missing.")
          .with("field", field);
    }
    if (clean.length() > maxChars) {
      throw new ProblemException(
              Problem.INVALID, "“" + field + "” may have at most " + maxChars + " characters.")
          .with("field", field);
    }
    checkStorable(clean);
    if (clean.codePoints().anyMatch(Character::isISOControl)) {
      throw new ProblemException(Problem.INVALID, "“" + field + "” must be one line of text.")
          .with("field", field);
    }
    return clean;
  }

  /** A line that may be missing: null when it is. */
  public static String lineOrNull(String field, String text, int maxChars) {
    return text == null || text.isBlank() ? null : line(field, text, maxChars);
  }

  /**
   * A sentence of the server's that quotes somebody, without the controls that would turn its own
   * words and quotation marks round: overrides, embeddings and isolates. Only to be shown.
   */
  public static String upright(String sentence) {
    return sentence.replaceAll("[\\u202A-\\u202E\\u2066-\\u2069]", "");
  }

  /** Refuses text that holds a NUL or half a surrogate pair: it cannot be stored or shown. */
  public static void checkStorable(String text) {
    for (int i = 0; i < text.length(); i++) {
      char c = text.charAt(i);
      boolean half =
          Character.isHighSurrogate(c)
              ? i + 1 == text.length() || !Character.isLowSurrogate(text.charAt(++i))
              : Character.isLowSurrogate(c);
      if (c == 0 || half) {
        throw new ProblemException(
            Problem.BAD_TEXT,
            "The text holds a character that is broken or invisible (code zero or half a sign)."
                + " Type that place again.");
      }
    }
  }
}
