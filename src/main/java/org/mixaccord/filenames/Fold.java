package org.mixaccord.filenames;

import java.text.Normalizer;
import java.util.Locale;

/** How names are compared: whatever the case, the accents and the way they were composed. */
final class Fold {
  private Fold() {}

  /** The composed form, as names are shown and cut into tokens. */
  static String composed(String text) {
    return Normalizer.normalize(text, Normalizer.Form.NFC);
  }

  /**
   * Lower case, without Latin, Greek and Cyrillic accents, with letters and digits only. Marks of
   * other scripts stay: there they tell letters apart.
   */
  static String fold(String text) {
    String apart =
        Normalizer.normalize(
            text.toUpperCase(Locale.ROOT).toLowerCase(Locale.ROOT), Normalizer.Form.NFKD);
    StringBuilder kept = new StringBuilder(apart.length());
    apart
        .codePoints()
        .filter(c -> c < 0x300 || c > 0x36f)
        .filter(c -> Character.isLetterOrDigit(c) || isMark(c))
        .forEach(kept::appendCodePoint);
    return Normalizer.normalize(kept, Normalizer.Form.NFC);
  }

  private static boolean isMark(int c) {
    int type = Character.getType(c);
    return type == Character.NON_SPACING_MARK || type == Character.COMBINING_SPACING_MARK;
  }

  /** Single letters changed, left out, put in or swapped with their neighbour. */
  static int distance(String a, String b) {
    int[][] d = new int[a.length() + 1][b.length() + 1];
    for (int i = 0; i <= a.length(); i++) {
      for (int j = 0; j <= b.length(); j++) {
        if (i == 0 || j == 0) {
          d[i][j] = i + j;
          continue;
        }
        int change = a.charAt(i - 1) == b.charAt(j - 1) ? 0 : 1;
        d[i][j] = Math.min(Math.min(d[i - 1][j], d[i][j - 1]) + 1, d[i - 1][j - 1] + change);
        if (i > 1
            && j > 1
            && a.charAt(i - 1) == b.charAt(j - 2)
            && a.charAt(i - 2) == b.charAt(j - 1)) {
          d[i][j] = Math.min(d[i][j], d[i - 2][j - 2] + 1);
        }
      }
    }
    return d[a.length()][b.length()];
  }
}
