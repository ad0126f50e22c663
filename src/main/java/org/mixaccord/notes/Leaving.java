package org.mixaccord.notes;

import java.util.List;
import java.util.Set;

/** "Leave" and "alone" where they do not say that something stays as it is. */
final class Leaving {
  private static final Set<String> THEY = Set.of("they", "it", "which");
  private static final Set<String> LEFT_BEHIND =
      Set.of("a", "an", "some", "more", "room", "space", "enough", "half");

  private static final Set<String> LET =
      Set.of("leave", "leaving", "left", "let", "keep", "be", "stay", "stays", "well");

  /** How many words back a clause is looked through. */
  private static final int LOOK_BACK = 8;

  private Leaving() {}

  /** What the word means here, or null where it is what it seems. */
  static Item at(List<Token> tokens, int i) {
    switch (tokens.get(i).norm()) {
      case "leave":
        // "so wide they leave the lead alone", "leave a harsher edge on it"
        if (i > 0 && THEY.contains(tokens.get(i - 1).norm())) {
          return item(tokens, i, Type.FILL);
        }
        boolean some =
            i + 1 < tokens.size() && LEFT_BEHIND.contains(tokens.get(i + 1).norm())
                || Amounts.at(tokens, i + 1).isPresent();
        return some ? item(tokens, i, Type.ADD) : null;
      case "alone":
        // "leave the drums alone", but "end on the piano alone"
        return isLet(tokens, i) ? null : item(tokens, i, Type.FILL);
      default:
        return null;
    }
  }

  private static boolean isLet(List<Token> tokens, int alone) {
    for (int k = alone - 1; k >= 0 && k > alone - LOOK_BACK; k--) {
      if (LET.contains(tokens.get(k).norm())) {
        return true;
      }
    }
    return alone == 0;
  }

  private static Item item(List<Token> tokens, int i, Type type) {
    Lexicon.Entry entry = new Lexicon.Entry(type, "-", "-", "");
    return Item.of(entry, tokens.get(i).start(), tokens.get(i).end());
  }
}
