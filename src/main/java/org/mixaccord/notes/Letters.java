package org.mixaccord.notes;

import java.util.List;
import java.util.Map;
import java.util.Set;

/** Letters that stand for a thing of the trade: "OH: narrower", "her s is gone", "B: keys out". */
final class Letters {
  private static final Set<String> MOVED =
      Set.of("up", "down", "wider", "narrower", "louder", "quieter", "brighter", "darker");
  private static final Set<String> WHOSE =
      Set.of("her", "his", "my", "some", "any", "no", "more", "less", "every", "each");

  private static final Map<String, String> SECTIONS =
      Map.of("b", "bridge", "o", "outro", "i", "intro", "bd", "breakdown");

  private Letters() {}

  /** What the letters at this token stand for, or null. */
  static Item at(List<Token> tokens, int i, SectionNames sections) {
    Token letters = tokens.get(i);
    Token next = i + 1 < tokens.size() ? tokens.get(i + 1) : null;
    String kind = letters.is(Token.Kind.WORD) ? SECTIONS.get(letters.norm()) : null;
    boolean opens =
        i == 0 || tokens.get(i - 1).is(Token.Kind.STOP) || tokens.get(i - 1).is(Token.Kind.BULLET);
    boolean heads = opens && next != null && next.is(Token.Kind.COLON);
    if (kind != null && sections.has(kind) && (heads || letters.is("bd"))) {
      return Item.of(new Lexicon.Entry(Type.SECTION, kind, "", ""), letters.start(), letters.end());
    }
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
