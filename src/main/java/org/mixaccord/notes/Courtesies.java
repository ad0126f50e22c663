package org.mixaccord.notes;

import java.util.List;
import java.util.Set;
import org.mixaccord.notes.Token.Kind;

/** Words that round a sentence off and say nothing of the music: "… in the bridge please haha". */
final class Courtesies {
  private static final Set<String> WORDS =
      Set.of(
          "please", "pls", "plz", "plss", "thanks", "thank", "thx", "thanx", "ta", "cheers", "ty",
          "tysm", "you", "haha", "hahaha", "hehe", "lol", "imo", "imho", "tbh", "tho", "though",
          "ok", "okay", "x", "xx", "xxx", "btw", "mate", "guys");

  /** Nobody closes with more of them. */
  private static final int MOST = 8;

  private Courtesies() {}

  /** Whether nothing but such words stands from here to the end of the clause. */
  static boolean close(List<Token> tokens, int i) {
    int next = i;
    while (next < tokens.size()
        && next - i < MOST
        && tokens.get(next).is(Kind.WORD)
        && WORDS.contains(tokens.get(next).norm())) {
      next++;
    }
    return next >= tokens.size() || !tokens.get(next).is(Kind.WORD);
  }

  static boolean is(String word) {
    return WORDS.contains(word);
  }
}
