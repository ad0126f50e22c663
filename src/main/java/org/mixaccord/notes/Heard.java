package org.mixaccord.notes;

import java.util.List;
import java.util.Set;
import org.mixaccord.notes.Token.Kind;

/** Words for what is heard and what is not: "we lose the vocal", "hear the words better". */
final class Heard {
  private static final Set<String> LOSERS = Set.of("we", "you", "they");
  private static final Set<String> LOSING = Set.of("im", "were", "youre", "am", "are", "was");
  private static final Set<String> WHERE = Set.of("where", "when", "because", "but", "that");
  private static final Set<String> ARE = Set.of("are", "arent", "get", "got", "were", "need");

  private static final Set<String> DROWNED =
      Set.of("buried", "lost", "drowned", "swallowed", "covered", "masked", "swamped", "smothered");

  private static final Set<String> GETS =
      Set.of("get", "gets", "got", "am", "is", "was", "keep", "keeps");

  private static final Set<String> HOW_MUCH =
      Set.of("much", "less", "more", "some", "any", "the", "that", "no", "little", "bit");

  /** How many words back a clause is looked through. */
  private static final int LOOK_BACK = 8;

  private Heard() {}

  /** What the word says of hearing, or null. */
  static Item at(List<Token> tokens, List<Item> items, int i) {
    switch (tokens.get(i).norm()) {
      case "lose", "losing":
        return loses(tokens, i) ? item(tokens, i, Type.LOST, "-") : null;
      case "better":
        return isHeard(tokens, i) ? item(tokens, i, Type.MORE, "-") : null;
      case "ring":
        // "too much ring on the snare", but not "let it ring on"
        return word(tokens, i + 1).equals("on") && HOW_MUCH.contains(word(tokens, i - 1))
            ? item(tokens, i, Type.PROP, "length")
            : null;
      case "i", "im", "she", "shes", "he", "hes":
        // "I get buried by the guitars"
        int drowned = GETS.contains(word(tokens, i + 1)) ? i + 2 : i + 1;
        drowned += word(tokens, drowned).equals("getting") ? 1 : 0;
        return DROWNED.contains(word(tokens, drowned))
            ? item(tokens, i, Type.HER, "drowned")
            : null;
      case "words":
        // "words get lost", but not "her words were kind"
        boolean opens = items.isEmpty() || Segmenter.endsSentence(items.get(items.size() - 1));
        return opens && ARE.contains(word(tokens, i + 1))
            ? item(tokens, i, Type.ELEM, "vocals")
            : null;
      default:
        return null;
    }
  }

  /** "We lose the vocal in the chorus" says what happens; "can we lose it" asks for it. */
  private static boolean loses(List<Token> tokens, int i) {
    if (tokens.get(i).is("losing")) {
      return LOSING.contains(word(tokens, i - 1));
    }
    boolean told =
        i == 1
            || i > 1 && (!tokens.get(i - 2).is(Kind.WORD) || WHERE.contains(word(tokens, i - 2)));
    return told && LOSERS.contains(word(tokens, i - 1));
  }

  private static boolean isHeard(List<Token> tokens, int i) {
    int k = i - 1;
    while (k >= 0 && k > i - LOOK_BACK && tokens.get(k).is(Kind.WORD)) {
      if (tokens.get(k).is("hear")) {
        return true;
      }
      k--;
    }
    return false;
  }

  private static Item item(List<Token> tokens, int i, Type type, String what) {
    Lexicon.Entry entry = new Lexicon.Entry(type, what, "-", "");
    return Item.of(entry, tokens.get(i).start(), tokens.get(i).end());
  }

  private static String word(List<Token> tokens, int i) {
    return i >= 0 && i < tokens.size() ? tokens.get(i).norm() : "";
  }
}
