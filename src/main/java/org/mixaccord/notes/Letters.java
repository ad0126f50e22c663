package org.mixaccord.notes;

import java.util.List;
import java.util.Set;

/** Letters that stand for a thing of the trade: "OH: narrower", "her s is gone". */
final class Letters {
  private static final Set<String> MOVED =
      Set.of("up", "down", "wider", "narrower", "louder", "quieter", "brighter", "darker");
  private static final Set<String> WHOSE =
      Set.of("her", "his", "my", "some", "any", "no", "more", "less", "every", "each");

  private Letters() {}

  /** What the letters at this token stand for, or null. */
  static Item at(List<Token> tokens, int i) {
    Token letters = tokens.get(i);
    Token next = i + 1 < tokens.size() ? tokens.get(i + 1) : null;
    boolean moved = next != null && (next.is(Token.Kind.COLON) || MOVED.contains(next.norm()));
    if (letters.is("oh") && moved) {
      return item(letters, Type.ELEM, "overheads", "-");
    }
    boolean whose = i > 0 && WHOSE.contains(tokens.get(i - 1).norm());
    return letters.is("s") && whose ? item(letters, Type.PROP, "sibilance", "down") : null;
  }

  private static Item item(Token letters, Type type, String what, String way) {
    return Item.of(
        new Lexicon.Entry(type, what, way, letters.norm()), letters.start(), letters.end());
  }
}
