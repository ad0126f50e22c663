package org.mixaccord.notes;

import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.mixaccord.notes.Token.Kind;

/** Verbs whose second half stands behind the part: "glue the drums together". */
final class PartedVerbs {
  private static final Set<String> PARTICLES = Set.of("up", "out", "down", "in", "off", "together");
  private static final Set<String> PARTED =
      Set.of(
          "tighten",
          "line",
          "lock",
          "glue",
          "thicken",
          "fatten",
          "beef",
          "brighten",
          "smooth",
          "clean",
          "dirty",
          "rough",
          "dry",
          "thin",
          "spread",
          "calm",
          "liven",
          "tune",
          "sync",
          "hold",
          "gel",
          "warm",
          "chop",
          "narrow");

  /** Words between a verb and its second half. */
  private static final int FARTHEST = 5;

  private final Set<Integer> dropped = new HashSet<>();
  private final List<Token> tokens;
  private final Lexicon lexicon;

  PartedVerbs(List<Token> tokens, Lexicon lexicon) {
    this.tokens = tokens;
    this.lexicon = lexicon;
  }

  /** Whether the word was read as the second half of a verb before it. */
  boolean isSecondHalf(int i) {
    return dropped.contains(i);
  }

  /** The verb at this word with what its second half makes of it, or null. */
  Item at(int i) {
    if (!PARTED.contains(tokens.get(i).norm())) {
      return null;
    }
    for (int k = i + 2; k < tokens.size() && k <= i + FARTHEST; k++) {
      if (!tokens.get(k).is(Kind.WORD)) {
        return null;
      }
      if (PARTICLES.contains(tokens.get(k).norm())) {
        List<Token> verb = List.of(tokens.get(i), tokens.get(k));
        Lexicon.Match match = lexicon.match(verb, 0);
        boolean known = match != null && match.length() == 2 && match.entry().type() == Type.PRED;
        boolean object = known && (names(k - 1) || k > i + 2 && names(k - 2));
        if (object) {
          dropped.add(k);
          return Item.of(match.entry(), tokens.get(i).start(), tokens.get(i).end());
        }
        return null;
      }
    }
    return null;
  }

  /** Whether a part is named at this word. */
  boolean names(int i) {
    Lexicon.Match behind = i < tokens.size() ? lexicon.match(tokens, i) : null;
    return behind != null && behind.entry().type() == Type.ELEM;
  }
}
