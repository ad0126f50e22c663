package org.mixaccord.notes;

import java.util.EnumSet;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.mixaccord.notes.Token.Kind;

/** Words whose neighbours tell what they are: "the last drop", "the strings kick in", "take 5". */
final class Homographs {
  private static final Set<String> BE =
      Set.of("is", "sounds", "feels", "needs", "should", "could", "has", "was");
  private static final Set<String> COUNTS = Set.of("one", "two", "three", "four");
  private static final Set<String> UNITS =
      Set.of("db", "dbs", "decibel", "decibels", "bar", "bars", "beat", "beats", "or", "of");
  static final Set<String> BEFORE_A_SECTION =
      Set.of(
          "last", "first", "second", "third", "final", "each", "every", "both", "2nd", "1st",
          "3rd");

  /** What can stand before a take of a recording and not before an amount to take away. */
  private static final Set<String> BEFORE_A_TAKE =
      Set.of(
          "use", "using", "used", "from", "with", "the", "of", "prefer", "try", "in", "on", "to");

  private static final Set<String> AFTER_A_TAKE =
      Set.of("has", "is", "was", "had", "for", "sounds", "feels", "instead");

  /** What somebody did to a mix, where the form does not end in "ed". */
  private static final Set<String> DONE =
      Set.of("took", "brought", "made", "gave", "did", "lost", "went", "left", "sent", "sat");

  private static final Set<String> DONE_WITH_HAVE = Set.of("put", "cut", "set", "taken", "let");
  private static final Set<String> NOT_DONE =
      Set.of("need", "needed", "wanted", "tried", "liked", "asked", "used", "said", "could");

  private static final Set<String> WHERE_TO =
      Set.of(
          "left", "right", "up", "down", "back", "wider", "louder", "quieter", "higher", "lower",
          "further", "more", "a", "even", "through", "to", "much", "way", "into");

  private static final Set<String> MORE = Set.of("more", "less", "if", "though", "when");
  private static final Set<String> THIS = Set.of("the", "that", "this", "a", "each", "every");
  private static final Set<String> THEY = Set.of("they", "it", "which");
  private static final Set<String> KEEPING = Set.of("keep", "keeps", "kept");
  private static final Set<String> ONE_WAY =
      Set.of(
          "a", "the", "no", "any", "some", "that", "this", "which", "either", "halfway", "by",
          "best", "good", "bad", "right", "wrong", "other", "nice", "weird", "certain", "long",
          "every", "own");

  private static final Set<String> LEFT_BEHIND =
      Set.of("a", "an", "some", "more", "room", "space", "enough", "half");

  /** "+1 to what Sam said", "forget what she wrote". */
  private static final Set<String> REPEATED = Set.of("to", "with", "forget", "ignore", "disregard");

  private static final Set<String> SAYING =
      Set.of("said", "says", "wrote", "suggested", "asked", "mentioned", "meant");

  private static final EnumSet<Type> MEASURED =
      EnumSet.of(
          Type.MORE, Type.LESS, Type.TOO, Type.TOOMUCH, Type.QUAL, Type.PRED, Type.UP, Type.DOWN);

  /** Behind these "you" begins "the delay you added". */
  private static final EnumSet<Type> OWNED =
      EnumSet.of(
          Type.ELEM, Type.PROP, Type.EFFECT, Type.UNKNOWN, Type.QUAL, Type.COND, Type.VERSION);

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

  /** How many words back a clause is looked through. */
  private static final int LOOK_BACK = 8;

  /** Words between a verb and its second half. */
  private static final int FARTHEST = 5;

  private final Set<Integer> dropped = new HashSet<>();
  private final List<Token> tokens;
  private final List<Item> items;
  private final SectionNames sections;
  private final Lexicon lexicon;

  Homographs(List<Token> tokens, List<Item> items, SectionNames sections, Lexicon lexicon) {
    this.tokens = tokens;
    this.items = items;
    this.sections = sections;
    this.lexicon = lexicon;
  }

  /** "Glue the drums together", "line the claps up": the verb, its second half far behind. */
  private Found parted(int i) {
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
          return new Found(
              Item.of(match.entry(), tokens.get(i).start(), tokens.get(i).end()), i + 1);
        }
        return null;
      }
    }
    return null;
  }

  /** What was meant, and the index of the word after it. */
  record Found(Item item, int next) {}

  /** What the words at this token mean by their neighbours, or null. */
  Found at(int i, Lexicon.Match match) {
    if (isDrop(i)) {
      return found(Type.SECTION, "drop", i, 1);
    }
    boolean starts = is(i, "start") || is(i, "starts");
    boolean alone = match == null || match.length() == 1;
    boolean it = !items.isEmpty() && items.get(items.size() - 1).is(Type.PRON);
    if (starts && alone && (it || followsPart(items, tokens.get(i)) && !wholeBefore())) {
      return found(Type.IN, "come", i, 1);
    }
    if (is(i, "ride") && i + 1 < tokens.size() && BE.contains(tokens.get(i + 1).norm())) {
      return found(Type.ELEM, "ride", i, 1);
    }
    boolean opens = items.isEmpty() || Segmenter.endsSentence(items.get(items.size() - 1));
    boolean sigh = is(i, "ooh") || is(i, "aah") || is(i, "ahh");
    if (sigh && opens && (is(i + 1, "the") || is(i + 1, "that") || is(i + 1, "my"))) {
      // "ooh the glockenspiel"
      return found(Type.FILL, "-", i, 1);
    }
    boolean fresh =
        opens
            || items.get(items.size() - 1).is(Type.MARK)
            || items.get(items.size() - 1).is(Type.CONJ);
    boolean moved = is(i, "ride") && (is(i + 1, "up") || is(i + 1, "down"));
    if (moved && fresh && (i + 2 >= tokens.size() || !tokens.get(i + 2).is(Kind.WORD))) {
      // "ride up, hats down"
      return found(Type.ELEM, "ride", i, 1);
    }
    if (kicksIn(i)) {
      return found(Type.IN, "come", i, 2);
    }
    if (is(i, "bit") && measures(i + 1)) {
      return found(Type.DEG, "bit", i, 1);
    }
    if (isTake(i)) {
      boolean used = i > 0 && tokens.get(i - 1).norm().startsWith("us");
      return found(used ? Type.BACKTO : Type.VERSION, "take", i, 2);
    }
    if (alone
        && KEEPING.contains(tokens.get(i).norm())
        && i + 1 < tokens.size()
        && tokens.get(i + 1).norm().endsWith("ing")) {
      // "I keep hearing a click"
      return found(Type.FILL, "-", i, 1);
    }
    if (is(i, "way") && i > 0 && ONE_WAY.contains(tokens.get(i - 1).norm())) {
      return found(Type.FILL, "-", i, 1);
    }
    if (is(i, "old") && is(i - 1, "the") && names(i + 1)) {
      // "the old snare please"
      return found(Type.BACKTO, "-", i, 1);
    }
    boolean pitch = is(i, "flat") || is(i, "sharp");
    if (pitch && !items.isEmpty() && items.get(items.size() - 1).is(Type.DEG) && !speaksOfEsses()) {
      // "a touch flat" is out of tune by a touch
      Lexicon.Entry entry = new Lexicon.Entry(Type.PRED, "tuning", "fix/seen", "");
      return new Found(Item.of(entry, tokens.get(i).start(), tokens.get(i).end()), i + 1);
    }
    boolean evenMore = is(i, "even") && i + 1 < tokens.size();
    if (evenMore
        && (tokens.get(i + 1).norm().endsWith("er") || MORE.contains(tokens.get(i + 1).norm()))) {
      return found(Type.FILL, "-", i, 1);
    }
    boolean swell = (is(i, "swell") || is(i, "swells")) && i > 0;
    if (swell && THIS.contains(tokens.get(i - 1).norm())) {
      return found(Type.ELEM, "swell", i, 1);
    }
    boolean sides = match != null && match.length() == 3 && is(i, "left") && is(i + 2, "right");
    if (sides && names(i + 3)) {
      // "the left and right guitars"
      return found(Type.FILL, "-", i, 3);
    }
    boolean canGo = match != null && match.entry().type() == Type.OUT && is(i + 1, "go");
    if (canGo && i + 2 < tokens.size() && WHERE_TO.contains(tokens.get(i + 2).norm())) {
      // "the shaker can go left"
      return found(Type.AUX, "-", i, 1);
    }
    if (dropped.contains(i)) {
      return found(Type.FILL, "-", i, 1);
    }
    Found parted = parted(i);
    if (parted != null) {
      return parted;
    }
    if (is(i, "keep") && is(i + 1, "one") && is(i + 2, "of")) {
      return found(Type.DISLIKE, "-", i, 1);
    }
    if (is(i, "leave") && i > 0 && THEY.contains(tokens.get(i - 1).norm())) {
      // "so wide they leave the lead alone"
      return found(Type.FILL, "-", i, 1);
    }
    boolean put = is(i, "put") && (is(i + 1, "it") || is(i + 1, "that")) && is(i + 2, "back");
    if (put && (i + 3 >= tokens.size() || !tokens.get(i + 3).is(Kind.WORD))) {
      return found(Type.BACKTO, "-", i, 3);
    }
    boolean left = is(i, "leave") && i + 1 < tokens.size();
    if (left
        && (LEFT_BEHIND.contains(tokens.get(i + 1).norm())
            || Amounts.at(tokens, i + 1).isPresent())) {
      // "leave a harsher edge on it"
      return found(Type.ADD, "-", i, 1);
    }
    boolean what = is(i, "what") && i + 2 < tokens.size() && !is(i + 1, "i") && !is(i + 1, "we");
    boolean agreed = i > 0 && REPEATED.contains(tokens.get(i - 1).norm());
    if (what && !agreed && SAYING.contains(tokens.get(i + 2).norm())) {
      return found(Type.DISLIKE, "said", i, 3);
    }
    if (exempts(i)) {
      return found(Type.EXCEPT, "-", i, 1);
    }
    int done = youDid(i);
    return done > 0 ? found(Type.PAST, "you", i, done) : null;
  }

  private Found found(Type type, String detail, int i, int length) {
    Lexicon.Entry entry = new Lexicon.Entry(type, detail, type == Type.SECTION ? "" : "-", "");
    int end = tokens.get(i + length - 1).end();
    return new Found(Item.of(entry, tokens.get(i).start(), end), i + length);
  }

  /** "The last drop", "in every drop": the section, not the verb. */
  private boolean isDrop(int i) {
    boolean drop = is(i, "drop") || is(i, "drops");
    boolean possible = sections.isEmpty() || !sections.ofKind("drop").isEmpty();
    return drop
        && possible
        && (counted(i) || i > 0 && BEFORE_A_SECTION.contains(tokens.get(i - 1).norm()));
  }

  /** "Drop one", but not "drop one dB". */
  private boolean counted(int i) {
    if (i + 1 >= tokens.size() || !COUNTS.contains(tokens.get(i + 1).norm())) {
      return false;
    }
    return i + 2 >= tokens.size() || !UNITS.contains(tokens.get(i + 2).norm());
  }

  /** "Bit more verb": how much, not a bit of the song. */
  private boolean measures(int next) {
    Lexicon.Match behind = next < tokens.size() ? lexicon.match(tokens, next) : null;
    return behind != null && MEASURED.contains(behind.entry().type());
  }

  /** "Once the strings kick in": they begin; "kick in the chorus" is the drum. */
  private boolean kicksIn(int i) {
    boolean kick = (is(i, "kick") || is(i, "kicks")) && is(i + 1, "in");
    if (!kick || items.isEmpty()) {
      return false;
    }
    Item before = items.get(items.size() - 1);
    boolean subject =
        before.is(Type.ELEM)
            || before.is(Type.SECTION)
            || before.is(Type.PRON)
            || before.is(Type.UNKNOWN)
            || before.is(Type.NUMBER);
    boolean closes = i + 2 >= tokens.size() || !tokens.get(i + 2).is(Kind.WORD);
    boolean event =
        items.stream().skip(Math.max(0, items.size() - 4)).anyMatch(x -> x.is(Type.EVENT));
    return subject && (closes || event);
  }

  /** "Use take 5", "take 3 has a crack in it". */
  private boolean isTake(int i) {
    boolean number =
        is(i, "take")
            && i + 1 < tokens.size()
            && tokens.get(i + 1).is(Kind.NUMBER)
            && tokens.get(i + 1).signed() == 0;
    if (!number || Amounts.at(tokens, i + 1).isPresent()) {
      return false;
    }
    boolean before = i > 0 && BEFORE_A_TAKE.contains(tokens.get(i - 1).norm());
    return before || i + 2 < tokens.size() && AFTER_A_TAKE.contains(tokens.get(i + 2).norm());
  }

  private boolean names(int i) {
    Lexicon.Match behind = i < tokens.size() ? lexicon.match(tokens, i) : null;
    return behind != null && behind.entry().type() == Type.ELEM;
  }

  /** "Every chorus but the last", "all the verses but V1". */
  private boolean exempts(int i) {
    int size = items.size();
    if (!is(i, "but") || size == 0 || !items.get(size - 1).is(Type.SECTION)) {
      return false;
    }
    boolean all =
        items.stream().skip(Math.max(0, size - 4)).anyMatch(x -> x.is(Type.ALLW))
            || tokens.get(i - 1).norm().endsWith("s");
    int next = is(i + 1, "the") ? i + 2 : i + 1;
    Lexicon.Match named = next < tokens.size() ? lexicon.match(tokens, next) : null;
    boolean which =
        named != null
            && (named.entry().type() == Type.ORD
                || named.entry().type() == Type.LASTW
                || named.entry().type() == Type.SECTION);
    int after = which ? next + named.length() : next;
    boolean closes = after >= tokens.size() || !tokens.get(after).is(Kind.WORD) || is(after, "one");
    return all && which && closes;
  }

  /** "You took the bass down too much": how many words say that it was done; 0 for none. */
  private int youDid(int i) {
    boolean you = is(i, "you");
    boolean have = is(i, "youve") || you && (is(i + 1, "have") || is(i + 1, "had"));
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
            || have && DONE_WITH_HAVE.contains(word)
            || word.endsWith("ed") && word.length() > 3;
    return done && !NOT_DONE.contains(word) ? verb - i : 0;
  }

  /** "Esses a bit sharp" is no pitch. */
  private boolean speaksOfEsses() {
    return items.stream()
        .skip(Math.max(0, items.size() - LOOK_BACK))
        .anyMatch(x -> x.is(Type.PROP) && x.a().equals("sibilance"));
  }

  private boolean wholeBefore() {
    return items.get(items.size() - 1).a().equals(Vocabulary.MIX);
  }

  /** Whether a word stands right behind the name of a part. */
  static boolean followsPart(List<Item> items, Token token) {
    Item before = items.isEmpty() ? null : items.get(items.size() - 1);
    return before != null && before.is(Type.ELEM) && token.start() - before.end() == 1;
  }

  private boolean is(int i, String word) {
    return i >= 0 && i < tokens.size() && tokens.get(i).is(word);
  }
}
