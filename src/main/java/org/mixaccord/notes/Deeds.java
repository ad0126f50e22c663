package org.mixaccord.notes;

import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import org.mixaccord.notes.Token.Kind;

/** What an engineer is told to have done: "you took the bass down", "you've squashed it". */
final class Deeds {
  /** What somebody did to a mix, where the form does not end in "ed". */
  private static final Set<String> DONE =
      Set.of("took", "brought", "made", "gave", "did", "lost", "went", "left", "sent", "sat");

  private static final Set<String> DONE_WITH_HAVE = Set.of("put", "cut", "set", "taken", "let");
  private static final Set<String> NOT_DONE =
      Set.of("need", "needed", "wanted", "tried", "liked", "asked", "used", "said", "could");

  /** Behind these "you" begins "the delay you added". */
  private static final EnumSet<Type> OWNED =
      EnumSet.of(
          Type.ELEM, Type.PROP, Type.EFFECT, Type.UNKNOWN, Type.QUAL, Type.COND, Type.VERSION);

  private Deeds() {}

  /** "You took the bass down too much": how many words say that it was done; 0 for none. */
  static int ofYou(List<Token> tokens, List<Item> items, int i) {
    boolean you = is(tokens, i, "you");
    boolean have =
        is(tokens, i, "youve") || you && (is(tokens, i + 1, "have") || is(tokens, i + 1, "had"));
    if (!you && !have || !items.isEmpty() && OWNED.contains(items.get(items.size() - 1).type())) {
      return 0;
    }
    int verb = have && you ? i + 2 : i + 1;
    if (verb >= tokens.size() || !tokens.get(verb).is(Kind.WORD)) {
      return 0;
    }
    String word = tokens.get(verb).norm();
    boolean done =
        DONE.contains(word)
            || (have || is(tokens, verb + 1, "too")) && DONE_WITH_HAVE.contains(word)
            || word.endsWith("ed") && word.length() > 3;
    return done && !NOT_DONE.contains(word) ? verb - i : 0;
  }

  private static boolean is(List<Token> tokens, int i, String word) {
    return i < tokens.size() && tokens.get(i).is(word);
  }
}
