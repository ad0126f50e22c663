package org.mixaccord.notes;

import java.util.EnumSet;
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
          "narrow",
          "speed",
          "slow");

  private static final EnumSet<Type> SAID = EnumSet.of(Type.PRED, Type.SWAP);

  /** Words between a verb and its second half. */
  private static final int FARTHEST = 5;

  /** Behind these "out" says that a part is not to play: "leave the snare out in C2". */
  private static final Set<String> LEFT_OUT = Set.of("leave", "keep");

  private static final Set<String> NOT_OF =
      Set.of(
          "tune", "time", "phase", "sync", "it", "this", "place", "way", "sides", "side", "middle",
          "centre", "center");
  private static final Set<String> BEHIND_OUT =
      Set.of(
          "of",
          "in",
          "at",
          "from",
          "for",
          "until",
          "till",
          "til",
          "during",
          "on",
          "before",
          "after",
          "there",
          "here",
          "then",
          "please",
          "pls",
          "completely",
          "entirely",
          "altogether",
          "and",
          "but",
          "again",
          "by",
          "through",
          "thru",
          "throughout",
          "except",
          "to",
          "as",
          "when");
  private static final Set<String> BESIDE =
      Set.of("the", "my", "our", "that", "those", "and", "or");
  private static final Set<String> OBJECTS = Set.of("it", "them", "that", "those", "him", "her");

  /** Words between "leave" and "out" where parts are listed. */
  private static final int FARTHEST_OUT = 10;

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
    if (LEFT_OUT.contains(tokens.get(i).norm())) {
      return leftOut(i);
    }
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
        boolean known = match != null && match.length() == 2 && SAID.contains(match.entry().type());
        boolean object = known && (names(k - 1) || k > i + 2 && names(k - 2) || namesTill(i, k));
        if (object) {
          dropped.add(k);
          return Item.of(match.entry(), tokens.get(i).start(), tokens.get(i).end());
        }
        return null;
      }
    }
    return null;
  }

  private Item leftOut(int i) {
    int k = i + 1;
    while (k < tokens.size() && k <= i + FARTHEST_OUT && !tokens.get(k).is("out")) {
      Lexicon.Match match = lexicon.match(tokens, k);
      boolean part = match != null && match.entry().type() == Type.ELEM;
      boolean between = tokens.get(k).is(Kind.MARK) || BESIDE.contains(tokens.get(k).norm());
      boolean object = k == i + 1 && OBJECTS.contains(tokens.get(k).norm());
      if (!part && !between && !object) {
        return null;
      }
      k += part ? match.length() : 1;
    }
    if (k == i + 1 || k >= tokens.size() || !tokens.get(k).is("out") || !endsAt(k)) {
      return null;
    }
    dropped.add(k);
    Lexicon.Entry out = new Lexicon.Entry(Type.OUT, "-", "-", "");
    return Item.of(out, tokens.get(i).start(), tokens.get(i).end());
  }

  /** "Out", "out in C2", "out of the bridge", but not "out of tune" and not "out front". */
  private boolean endsAt(int out) {
    if (out + 1 >= tokens.size() || !tokens.get(out + 1).is(Kind.WORD)) {
      return true;
    }
    boolean of = tokens.get(out + 1).is("of");
    int what = out + 2 < tokens.size() && tokens.get(out + 2).is("the") ? out + 3 : out + 2;
    boolean sense = of && what < tokens.size() && NOT_OF.contains(tokens.get(what).norm());
    return BEHIND_OUT.contains(tokens.get(out + 1).norm()) && !sense;
  }

  /** "Speed the whole thing up": a part of several words between. */
  private boolean namesTill(int verb, int particle) {
    Lexicon.Match between = lexicon.match(tokens, verb + 1);
    return between != null
        && between.entry().type() == Type.ELEM
        && verb + 1 + between.length() == particle;
  }

  /** Whether a part is named at this word. */
  boolean names(int i) {
    Lexicon.Match behind = i < tokens.size() ? lexicon.match(tokens, i) : null;
    return behind != null && behind.entry().type() == Type.ELEM;
  }
}
