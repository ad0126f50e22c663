package org.mixaccord.notes;

import java.util.List;
import java.util.Set;
import org.mixaccord.notes.Token.Kind;

/** "Take" as a noun: "use take 3", "a new guitar take", but not "take 3 dB off". */
final class Takes {
  /** What can stand before a take of a recording and not before an amount to take away. */
  private static final Set<String> BEFORE =
      Set.of(
          "use", "using", "used", "from", "with", "the", "of", "prefer", "try", "in", "on", "to");

  private static final Set<String> WHICH =
      Set.of("new", "first", "second", "third", "other", "another", "old", "best", "better");

  private static final Set<String> AFTER =
      Set.of("has", "is", "was", "had", "for", "sounds", "feels", "instead");

  private Takes() {}

  /** "A new guitar take", "the second take". */
  static boolean isNew(List<Token> tokens, List<Item> items, int i) {
    boolean part = Homographs.followsPart(items, tokens.get(i));
    return i > 0 && WHICH.contains(tokens.get(i - 1).norm())
        || part && i > 1 && WHICH.contains(tokens.get(i - 2).norm());
  }

  /** "Use take 3", "take 2 sounds better". */
  static boolean isNumbered(List<Token> tokens, int i) {
    boolean number =
        tokens.get(i).is("take")
            && i + 1 < tokens.size()
            && tokens.get(i + 1).is(Kind.NUMBER)
            && tokens.get(i + 1).signed() == 0;
    if (!number || Amounts.at(tokens, i + 1).isPresent()) {
      return false;
    }
    boolean before = i > 0 && BEFORE.contains(tokens.get(i - 1).norm());
    return before || i + 2 < tokens.size() && AFTER.contains(tokens.get(i + 2).norm());
  }
}
