package org.mixaccord.notes;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.mixaccord.notes.Token.Kind;

/**
 * Sentences that are not in English. Some of their words look like English ones, so they are not
 * read at all and go on as they were written.
 */
final class Tongue {
  /** One such word also stands in an English sentence. */
  private static final int LEAST = 2;

  private static final Set<String> FOREIGN = new HashSet<>();
  private static final Set<String> ENGLISH =
      Set.of(
          "the", "a", "an", "is", "are", "it", "its", "to", "in", "and", "of", "on", "at", "for",
          "up", "down", "more", "less", "too", "can", "could", "you", "i", "we", "that", "this",
          "with", "but", "not", "be", "was", "needs", "louder", "bit", "ess", "esser", "essing");

  static {
    Lexicon.lines("tongues.txt", (f, l) -> FOREIGN.addAll(List.of(l.split(" "))));
  }

  /** No table has it. */
  private static final String NO_WORD = "_";

  private Tongue() {}

  /** The same tokens, those of other languages without a meaning. */
  static List<Token> english(List<Token> tokens) {
    List<Token> out = new ArrayList<>(tokens.size());
    int i = 0;
    while (i < tokens.size()) {
      int end = i;
      while (end < tokens.size() && !ends(tokens.get(end))) {
        end++;
      }
      List<Token> sentence = tokens.subList(i, end);
      boolean foreign = isForeign(sentence);
      sentence.forEach(t -> out.add(foreign ? mute(t) : t));
      if (end < tokens.size()) {
        out.add(tokens.get(end));
      }
      i = end + 1;
    }
    return out;
  }

  private static boolean ends(Token token) {
    return token.is(Kind.STOP) || token.is(Kind.ASK) || token.is(Kind.BULLET);
  }

  private static boolean isForeign(List<Token> sentence) {
    Set<String> foreign = new HashSet<>();
    int english = 0;
    for (Token token : sentence) {
      if (FOREIGN.contains(token.norm())) {
        foreign.add(token.norm());
      }
      english += ENGLISH.contains(token.norm()) ? 1 : 0;
    }
    return foreign.size() >= LEAST && foreign.size() > english;
  }

  private static Token mute(Token token) {
    return new Token(Kind.WORD, NO_WORD, 0, 0, token.start(), token.end());
  }
}
