package org.mixaccord.notes;

import java.util.EnumSet;
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

  private static final Set<String> BEFORE_A_BAR =
      Set.of("first", "last", "second", "third", "fourth", "final", "next", "one", "a", "the");

  private static final Set<String> WHERE_TO =
      Set.of(
          "left", "right", "up", "down", "back", "wider", "louder", "quieter", "higher", "lower",
          "further", "more", "a", "even", "through", "to", "much", "way", "into", "over");

  private static final Set<String> MORE = Set.of("more", "less", "if", "though", "when");
  private static final Set<String> THIS = Set.of("the", "that", "this", "a", "each", "every");
  private static final Set<String> ONE_WAY =
      Set.of(
          "a", "the", "no", "any", "some", "that", "this", "which", "either", "halfway", "by",
          "best", "good", "bad", "right", "wrong", "other", "nice", "weird", "certain", "long",
          "every", "own");

  /** "+1 to what Sam said", "forget what she wrote". */
  private static final Set<String> REPEATED = Set.of("to", "with", "forget", "ignore", "disregard");

  private static final Set<String> SAYING =
      Set.of("said", "says", "wrote", "suggested", "asked", "mentioned", "meant");

  private static final Set<String> IN_THE = Set.of("the", "in", "both", "all", "these", "my");
  private static final EnumSet<Type> MEASURED =
      EnumSet.of(
          Type.MORE, Type.LESS, Type.TOO, Type.TOOMUCH, Type.QUAL, Type.PRED, Type.UP, Type.DOWN);

  /** How many words back a clause is looked through. */
  private static final int LOOK_BACK = 8;

  /** What is struck or shaken. */
  static final Set<String> UNPITCHED =
      Set.of(
          "hi-hat",
          "cymbals",
          "ride",
          "crash",
          "overheads",
          "snare",
          "kick",
          "drums",
          "percussion",
          "shaker",
          "tambourine",
          "claps",
          "room mics",
          "mix");

  private final List<Token> tokens;
  private final List<Item> items;
  private final SectionNames sections;
  private final Lexicon lexicon;
  private final PartedVerbs parted;

  Homographs(List<Token> tokens, List<Item> items, SectionNames sections, Lexicon lexicon) {
    this.tokens = tokens;
    this.items = items;
    this.sections = sections;
    this.lexicon = lexicon;
    this.parted = new PartedVerbs(tokens, lexicon);
  }

  /** What was meant, and the index of the word after it. */
  record Found(Item item, int next) {}

  /** What the words at this token mean by their neighbours, or null. */
  Found at(int i, Lexicon.Match match) {
    if (parted.isSecondHalf(i)) {
      return filler(i, 1);
    }
    int opening = Openings.at(tokens, items, lexicon, i);
    if (opening > 0) {
      return filler(i, opening);
    }
    Found meant = byWord(i, match);
    if (meant != null) {
      return meant;
    }
    Item letters = match == null || match.length() == 1 ? Letters.at(tokens, i, sections) : null;
    if (letters != null) {
      return new Found(letters, i + 1);
    }
    Item verb = parted.at(i);
    if (verb != null) {
      return new Found(verb, i + 1);
    }
    Item told = Heard.at(tokens, items, i);
    told = told == null ? Leaving.at(tokens, i) : told;
    if (told != null) {
      return new Found(told, i + 1);
    }
    int done = Deeds.ofYou(tokens, items, i);
    return done > 0 ? found(Type.PAST, "you", i, done) : null;
  }

  private Found byWord(int i, Lexicon.Match match) {
    boolean alone = match == null || match.length() == 1;
    switch (tokens.get(i).norm()) {
      case "drop", "drops":
        return isDrop(i) ? found(Type.SECTION, "drop", i, 1) : null;
      case "start", "starts":
        return alone && begins(i) ? found(Type.IN, "come", i, 1) : null;
      case "kick", "kicks":
        if (is(i, "kick") && is(i + 1, "harder") && heads(i)) {
          return found(Type.ELEM, "kick", i, 1);
        }
        return kicksIn(i) ? found(Type.IN, "come", i, 2) : null;
      case "ride":
        return isRide(i) ? found(Type.ELEM, "ride", i, 1) : null;
      case "swell", "swells":
        // "the swell", "the strings swell is too much", but not "should swell"
        if (followsPart(items, tokens.get(i)) && BE.contains(word(i + 1))) {
          return filler(i, 1);
        }
        return i > 0 && THIS.contains(word(i - 1)) ? found(Type.ELEM, "swell", i, 1) : null;
      case "ooh", "aah", "ahh":
        // "ooh the glockenspiel"
        return opens() && THIS.contains(word(i + 1)) ? filler(i, 1) : null;
      case "bit":
        return measures(i + 1) ? found(Type.DEG, "bit", i, 1) : null;
      case "take":
        return take(i);
      case "keep", "keeps", "kept":
        return keep(i, alone);
      case "there":
        // "the guitars there are right"
        boolean here = followsPart(items, tokens.get(i)) && BE.contains(word(i + 1));
        return here ? found(Type.THERE, "-", i, 1) : null;
      case "way":
        // "a way to", but not "way too loud"
        return i > 0 && ONE_WAY.contains(word(i - 1)) ? filler(i, 1) : null;
      case "yet":
        // "shouldn't be there yet in chorus 1"
        return i > 0 && tokens.get(i - 1).is(Kind.WORD) ? filler(i, 1) : null;
      case "good", "well":
        // "I can not hear the harmonies good there"
        return hears() ? filler(i, 1) : null;
      case "bar":
        // "in the first bar the snare …", but not "everything bar the snare"
        boolean counts = match != null && match.length() == 2 && BEFORE_A_BAR.contains(word(i - 1));
        return counts ? found(Type.BARW, "-", i, 1) : null;
      case "vs":
        // "too loud vs C1", but not "in the vs"
        return i > 0 && !IN_THE.contains(word(i - 1)) && i + 1 < tokens.size() && !closes(i + 1)
            ? found(Type.REF, "-", i, 1)
            : null;
      case "lost":
        // "the drums lost punch"
        Lexicon.Match what = i + 1 < tokens.size() ? lexicon.match(tokens, i + 1) : null;
        boolean property = match == null && what != null && what.entry().type() == Type.PROP;
        return property ? found(Type.LOST, "its", i, 1) : null;
      case "old":
        // "the old snare please"
        return is(i - 1, "the") && parted.names(i + 1) ? found(Type.BACKTO, "-", i, 1) : null;
      case "flat", "sharp":
        return offPitch(i);
      case "even":
        // "even bigger"
        return word(i + 1).endsWith("er") || MORE.contains(word(i + 1)) ? filler(i, 1) : null;
      case "left":
        // "the left and right guitars"
        boolean sides = match != null && match.length() == 3 && is(i + 2, "right");
        return sides && parted.names(i + 3) ? filler(i, 3) : null;
      case "can", "could", "should":
        // "the shaker can go left"
        boolean go = match != null && match.entry().type() == Type.OUT && is(i + 1, "go");
        return go && WHERE_TO.contains(word(i + 2)) ? found(Type.AUX, "-", i, 1) : null;
      case "effects", "fx":
        // "less effects on the lead"
        return is(i + 1, "on") ? found(Type.EFFECT, "fx", i, 1) : null;
      case "put":
        boolean it = is(i + 1, "it") || is(i + 1, "that");
        return it && is(i + 2, "back") && closes(i + 3) ? found(Type.BACKTO, "-", i, 3) : null;
      case "what":
        return whatOthersSaid(i) ? found(Type.DISLIKE, "said", i, 3) : null;
      case "but":
        return exempts(i) ? found(Type.EXCEPT, "-", i, 1) : null;
      default:
        return null;
    }
  }

  /** "Let it start in verse 2", "can the strings start", "should only start in the chorus". */
  private boolean begins(int i) {
    boolean it = !items.isEmpty() && items.get(items.size() - 1).is(Type.PRON);
    boolean late = is(i - 1, "only") && is(i + 1, "in");
    return late || it || followsPart(items, tokens.get(i)) && !wholeBefore();
  }

  /** "Ride is too loud"; "ride up, hats down" is no order to ride it up. */
  private boolean isRide(int i) {
    Item before = items.isEmpty() ? null : items.get(items.size() - 1);
    boolean fresh = opens() || before.is(Type.MARK) || before.is(Type.CONJ);
    boolean moved = (is(i + 1, "up") || is(i + 1, "down")) && fresh && closes(i + 2);
    boolean heads = fresh && i + 1 < tokens.size() && tokens.get(i + 1).is(Kind.COLON);
    return BE.contains(word(i + 1)) || moved || heads;
  }

  private Found take(int i) {
    if (Takes.isNew(tokens, items, i)) {
      return filler(i, 1);
    }
    if (!Takes.isNumbered(tokens, i)) {
      return null;
    }
    boolean used = i > 0 && word(i - 1).startsWith("us");
    return found(used ? Type.BACKTO : Type.VERSION, "take", i, 2);
  }

  /** "I keep hearing a click", "keep one of them". */
  private Found keep(int i, boolean alone) {
    if (alone && word(i + 1).endsWith("ing")) {
      return filler(i, 1);
    }
    boolean one = is(i, "keep") && is(i + 1, "one") && is(i + 2, "of");
    return one ? found(Type.DISLIKE, "-", i, 1) : null;
  }

  /** "A touch flat" is out of tune by a touch. */
  private Found offPitch(int i) {
    boolean measured = !items.isEmpty() && items.get(items.size() - 1).is(Type.DEG);
    if (!measured || speaksOfEsses()) {
      return null;
    }
    boolean hurts = is(i, "sharp") && speaksOfNoPitch();
    Lexicon.Entry entry =
        hurts
            ? new Lexicon.Entry(Type.QUAL, "harshness", "down", "bad")
            : new Lexicon.Entry(Type.PRED, "tuning", "fix/seen", "");
    return new Found(Item.of(entry, tokens.get(i).start(), tokens.get(i).end()), i + 1);
  }

  /** "What Ana said", but not "+1 to what Ana said" and not "what I said". */
  private boolean whatOthersSaid(int i) {
    boolean others = !is(i + 1, "i") && !is(i + 1, "we");
    boolean agreed = i > 0 && REPEATED.contains(word(i - 1));
    return others && !agreed && SAYING.contains(word(i + 2));
  }

  private boolean heads(int i) {
    return i == 0 || tokens.get(i - 1).is(Kind.COLON) || tokens.get(i - 1).is(Kind.STOP);
  }

  private boolean opens() {
    return items.isEmpty() || Segmenter.endsSentence(items.get(items.size() - 1));
  }

  private boolean closes(int i) {
    return Courtesies.close(tokens, i);
  }

  /** The word at an index; an empty string outside of the note. */
  private String word(int i) {
    return i >= 0 && i < tokens.size() ? tokens.get(i).norm() : "";
  }

  private Found filler(int i, int length) {
    return found(Type.FILL, "-", i, length);
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
        && (counted(i)
            || BEFORE_A_SECTION.contains(word(i - 1))
            || is(i - 1, "our")
            || is(i - 1, "your"));
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
    boolean closes = closes(i + 2);
    boolean event =
        items.stream().skip(Math.max(0, items.size() - 4)).anyMatch(x -> x.is(Type.EVENT));
    return subject && (closes || event);
  }

  /** "Use take 5", "take 3 has a crack in it". */
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
    boolean closes = closes(after) || is(after, "one");
    return all && which && closes;
  }

  private boolean hears() {
    return items.stream()
        .skip(Math.max(0, items.size() - LOOK_BACK))
        .anyMatch(x -> x.is(Type.LOST) && x.a().equals("-"));
  }

  /** "The hats are a bit sharp" hurts the ear. */
  private boolean speaksOfNoPitch() {
    return items.stream()
        .skip(Math.max(0, items.size() - LOOK_BACK))
        .anyMatch(x -> x.is(Type.ELEM) && UNPITCHED.contains(x.a()));
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
