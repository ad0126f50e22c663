package org.mixaccord.notes;

import java.util.List;
import java.util.Set;
import org.mixaccord.notes.Token.Kind;

/** Words that open a note and ask for nothing: "So the vocal …", "Feedback on mix 2:". */
final class Openings {
  private static final Set<String> MINE =
      Set.of("my", "our", "your", "his", "her", "their", "quick", "more", "further", "general");

  private static final Set<String> MIXES = Set.of("mix", "version", "bounce", "this", "v");

  private Openings() {}

  /** How many words from this one on only open the note; 0 for none. */
  static int at(List<Token> tokens, List<Item> items, Lexicon lexicon, int i) {
    boolean opens = items.isEmpty() || Segmenter.endsSentence(items.get(items.size() - 1));
    switch (tokens.get(i).norm()) {
      case "so":
        // "so the vocal is too loud" gives no reason, "so darker hats" is no "too dark"
        Lexicon.Match reason = lexicon.match(tokens, i);
        boolean why = reason != null && reason.entry().type() == Type.PURPOSE;
        return opens && (why || word(tokens, i + 1).endsWith("er")) ? 1 : 0;
      case "feedback":
        return tellsOfNotes(tokens, lexicon, i, opens) ? 1 : 0;
      case "from":
        // "From the band: …"
        Lexicon.Match who = opens && i + 1 < tokens.size() ? lexicon.match(tokens, i + 1) : null;
        int colon = who != null && who.entry().type() == Type.ELEM ? i + 1 + who.length() : -1;
        return colon > 0 && isColon(tokens, colon) ? colon - i : 0;
      default:
        return 0;
    }
  }

  /** "Feedback on mix 2:", "my feedback", but not "feedback on the guitar". */
  private static boolean tellsOfNotes(List<Token> tokens, Lexicon lexicon, int i, boolean opens) {
    boolean on = word(tokens, i + 1).equals("on");
    int what = i + 2;
    what += word(tokens, what).equals("the") || word(tokens, what).equals("your") ? 1 : 0;
    Lexicon.Match named = what < tokens.size() ? lexicon.match(tokens, what) : null;
    boolean mix =
        MIXES.contains(word(tokens, what)) || named != null && named.entry().type() == Type.VERSION;
    return MINE.contains(word(tokens, i - 1))
        || opens && isColon(tokens, i + 1)
        || on && mix
        || word(tokens, i + 1).equals("from");
  }

  private static boolean isColon(List<Token> tokens, int i) {
    return i < tokens.size() && tokens.get(i).is(Kind.COLON);
  }

  private static String word(List<Token> tokens, int i) {
    return i >= 0 && i < tokens.size() ? tokens.get(i).norm() : "";
  }
}
