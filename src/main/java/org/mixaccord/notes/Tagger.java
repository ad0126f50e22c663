package org.mixaccord.notes;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import org.mixaccord.notes.Token.Kind;

/** Gives every stretch of a note its meaning by the longest phrase of the word tables. */
final class Tagger {
  /** "On my stereo", "in our car": where it was heard. */
  private static final Set<String> HEARD = Set.of("on", "in", "through", "at", "from", "over");

  private static final EnumSet<Type> SAID_IN_MARKS =
      EnumSet.of(Type.ELEM, Type.PROP, Type.QUAL, Type.PRED, Type.EFFECT, Type.VAGUEAIM);

  /** What follows the number of a part, and not an amount. */
  private static final Set<String> NUMBERED =
      Set.of(
          "is", "are", "should", "could", "needs", "left", "right", "in", "has", "sounds", "too");

  private static final Set<String> ABOUT =
      Set.of("about", "around", "like", "maybe", "roughly", "approx", "exactly", "say");

  private static final java.util.Map<String, String> FEW_LETTERS =
      java.util.Map.of("b", "build", "p", "pre-chorus");
  private static final java.util.regex.Pattern SECTION_SIGN =
      java.util.regex.Pattern.compile(
          "(vs|v|verse|ch|chorus|c|pc|pre|br|drop|d|build|hook|solo)(\\d{1,2})");

  /** Shortest word in "ly" that is not taken for one that says how. */
  private static final int ADVERB = 5;

  /** Ends of words that say what something is like: "more fragile", "more ominous". */
  private static final java.util.regex.Pattern MOOD =
      java.util.regex.Pattern.compile("(ile|ous|ive|ful|less|able|ible|ish|ical|istic|esque)$");

  private static final java.util.regex.Pattern BAR_SIGN =
      java.util.regex.Pattern.compile("[bm](\\d{1,3})");
  private static final java.util.regex.Pattern VERSION_SIGN =
      java.util.regex.Pattern.compile("(mix|v|version|ver|mx)(\\d{1,3})([a-d]?)");

  private static final java.util.Set<String> DETERMINERS =
      java.util.Set.of(
          "the", "my", "our", "your", "that", "those", "these", "this", "his", "their", "more",
          "less", "up", "down", "lose", "mute", "kill", "add", "extra");

  private final String text;
  private final List<Token> tokens;
  private final Lexicon lexicon;
  private final SectionNames sections;
  private final List<Item> items = new ArrayList<>();
  private final Homographs homographs;
  private final Misnomers misnomers;

  private Tagger(String text, NoteContext context, Lexicon lexicon) {
    this.text = text;
    this.lexicon = lexicon;
    this.sections = new SectionNames(context.sections());
    this.tokens = new ArrayList<>();
    for (Token token : Times.of(Tongue.english(Tokenizer.tokenize(text)))) {
      String norm = token.is(Kind.WORD) ? meant(token) : token.norm();
      tokens.add(
          new Token(token.kind(), norm, token.value(), token.signed(), token.start(), token.end()));
    }
    this.misnomers = new Misnomers(text, tokens, items, sections, lexicon);
    this.homographs = new Homographs(tokens, items, sections, lexicon);
  }

  private String meant(Token token) {
    String said = text.substring(token.start(), token.end());
    boolean apostrophe = said.length() > 2 && !Character.isLetter(said.charAt(said.length() - 2));
    return lexicon.spelled(lexicon.singular(token.norm(), apostrophe));
  }

  static List<Item> tag(String text, NoteContext context, Lexicon lexicon) {
    Tagger tagger = new Tagger(text, context, lexicon);
    int i = 0;
    while (i < tagger.tokens.size()) {
      i = tagger.next(i);
    }
    return tagger.items;
  }

  private int next(int i) {
    Token token = tokens.get(i);
    switch (token.kind()) {
      case CLOCK:
        items.add(Item.number(Type.CLOCK, token.value(), 0, token.start(), token.end()));
        return i + 1;
      case QUOTED:
        items.add(quoted(token));
        return i + 1;
      case MARK, DASH, COLON, STOP, ASK, BULLET:
        items.add(
            Item.mark(Type.valueOf(token.kind().name()), token.norm(), token.start(), token.end()));
        return i + 1;
      default:
        return word(i);
    }
  }

  /** Words in quotation marks are sung ones, unless they mean something here: more "air". */
  private Item quoted(Token token) {
    String inside = text.substring(token.start() + 1, Math.max(token.start() + 1, token.end() - 1));
    List<Token> words = Tokenizer.tokenize(inside);
    Lexicon.Match match = words.isEmpty() ? null : lexicon.match(words, 0);
    boolean known = match != null && match.length() == words.size();
    if (known && SAID_IN_MARKS.contains(match.entry().type())) {
      return Item.of(match.entry(), token.start(), token.end());
    }
    if (inside.matches("[sS]+")) {
      return new Item(
          Type.PROP, "sibilance", "down", "s", 0, null, null, 0, token.start(), token.end());
    }
    boolean sung = words.stream().allMatch(w -> w.is(Kind.WORD)) && !known;
    return Item.mark(sung ? Type.QUOTE : Type.QUOTED, "", token.start(), token.end());
  }

  private int word(int i) {
    // "bar 33 beat 3" is a place, not 33 beats
    boolean barNumber = i > 0 && (tokens.get(i - 1).is("bar") || tokens.get(i - 1).is("bars"));
    Optional<Amounts.Found> amount = barNumber ? Optional.empty() : Amounts.at(tokens, i);
    Lexicon.Match match = lexicon.match(tokens, i);
    if (amount.isPresent() && (match == null || amount.get().length() >= match.length())) {
      return addAmount(i, amount.get());
    }
    Homographs.Found meant = homographs.at(i, match);
    if (meant != null) {
      items.add(meant.item());
      return meant.next();
    }
    int version = version(i);
    if (version > i) {
      return version;
    }
    if (isCourtesy(i, match)) {
      Token said = tokens.get(i);
      items.add(Item.mark(Type.MARK, ",", said.start(), said.end()));
      return i + 1;
    }
    boolean minus = tokens.get(i).is("minus") && aimedAt(i) && i + 1 < tokens.size();
    if (minus && tokens.get(i + 1).is(Kind.NUMBER)) {
      // "set it at minus 12"
      aim(i);
      return i + 1;
    }
    if (match != null && !misnomers.misread(i, match) && !misnomers.cutsShort(i, match)) {
      Token last = tokens.get(i + match.length() - 1);
      items.add(Item.of(match.entry(), tokens.get(i).start(), last.end()));
      return i + match.length();
    }
    Token token = tokens.get(i);
    if (numbersPart(i)) {
      items.add(Item.mark(Type.FILL, token.norm(), token.start(), token.end()));
      return i + 1;
    }
    boolean hour =
        token.is(Kind.NUMBER)
            && i + 1 < tokens.size()
            && (tokens.get(i + 1).is("am") || tokens.get(i + 1).is("pm"));
    if (hour) {
      // "at 2am"
      items.add(Item.mark(Type.FILL, "", token.start(), tokens.get(i + 1).end()));
      return i + 2;
    }
    if (token.is(Kind.NUMBER)) {
      boolean opens = items.isEmpty() || items.get(items.size() - 1).is(Type.STOP);
      boolean agrees = opens && token.signed() > 0 && i + 1 < tokens.size();
      if (agrees && (tokens.get(i + 1).is("to") || tokens.get(i + 1).is("on"))) {
        // "+1 to that"
        items.add(Item.mark(Type.FILL, token.norm(), token.start(), token.end()));
        return i + 1;
      }
      if (token.signed() < 0 && aimedAt(i)) {
        aim(i);
      }
      items.add(
          Item.number(Type.NUMBER, token.value(), token.signed(), token.start(), token.end()));
      return i + 1;
    }
    return sign(i);
  }

  private boolean isCourtesy(int i, Lexicon.Match match) {
    boolean within = !items.isEmpty() && !Segmenter.endsSentence(items.get(items.size() - 1));
    boolean says = match != null && match.entry().type() != Type.PRAISE;
    return within
        && !says
        && Courtesies.is(tokens.get(i).norm())
        && Courtesies.close(tokens, i)
        && (match == null || items.get(items.size() - 1).is(Type.MARK));
  }

  private int addAmount(int i, Amounts.Found found) {
    Token last = tokens.get(i + found.length() - 1);
    String unit = found.amount().unit().orElse("");
    boolean level = unit.equals("dB") && tokens.get(i).signed() <= 0 || unit.equals("%");
    if (level && aimedAt(i)) {
      aim(i);
    }
    items.add(
        Item.amount(found.amount(), tokens.get(i).signed(), tokens.get(i).start(), last.end()));
    for (int k = i + 1; k < i + found.length(); k++) {
      if (tokens.get(k).is("more") || tokens.get(k).is("extra")) {
        // "two more seconds"
        items.add(Item.mark(Type.MORE, "", tokens.get(k).start(), tokens.get(k).end()));
      }
    }
    return i + found.length();
  }

  /** "At −10", "to −18 dB": a level to reach, not a step. */
  private boolean aimedAt(int i) {
    int before = i - 1;
    while (before >= 0 && ABOUT.contains(tokens.get(before).norm())) {
      before--;
    }
    return before >= 0 && (tokens.get(before).is("at") || tokens.get(before).is("to"));
  }

  private void aim(int i) {
    items.add(Item.mark(Type.SETTO, "", tokens.get(i).start(), tokens.get(i).start()));
  }

  private int sign(int i) {
    Token token = tokens.get(i);
    String word = token.norm();
    java.util.regex.Matcher section = SECTION_SIGN.matcher(word);
    if (section.matches()) {
      String kind = SectionNames.kindOf(letters(section.group(1))).orElseThrow().kind();
      int number = Integer.parseInt(section.group(2));
      boolean isSection =
          !word.startsWith("v")
              || sections.isEmpty()
              || sections.ofKind(kind).stream().anyMatch(s -> sections.numberOf(s) == number);
      if (isSection || !section.group(1).equals("v")) {
        items.add(
            new Item(
                Type.SECTION,
                kind,
                section.group(2),
                section.group(1).equals("v") ? "version?" : "",
                number,
                null,
                null,
                0,
                token.start(),
                token.end()));
        return i + 1;
      }
    }
    java.util.regex.Matcher bar = BAR_SIGN.matcher(word);
    String sign = FEW_LETTERS.getOrDefault(word.substring(0, 1), "");
    if (!sign.isEmpty() && word.matches("[bp][1-9]") && has(sign, word.charAt(1) - '0')) {
      // "B2" of a song with two builds
      items.add(
          new Item(
              Type.SECTION,
              sign,
              word.substring(1),
              "",
              word.charAt(1) - '0',
              null,
              null,
              0,
              token.start(),
              token.end()));
      return i + 1;
    }
    if (bar.matches()) {
      items.add(Item.mark(Type.BARW, "", token.start(), token.start() + 1));
      items.add(
          Item.number(
              Type.NUMBER, Integer.parseInt(bar.group(1)), 0, token.start() + 1, token.end()));
      return i + 1;
    }
    if (VERSION_SIGN.matcher(word).matches()) {
      items.add(Item.mark(Type.VERSION, word, token.start(), token.end()));
      return i + 1;
    }
    Item before = items.isEmpty() ? null : items.get(items.size() - 1);
    boolean last = Courtesies.close(tokens, i + 1);
    if ((word.equals("l") || word.equals("r")) && last && sided(before)) {
      String side = word.equals("l") ? "left" : "right";
      items.add(Item.mark(Type.SIDE, side, token.start(), token.end()));
      return i + 1;
    }
    boolean adverb = word.length() > ADVERB && word.endsWith("ly");
    boolean filler = lexicon.isFiller(word) || word.length() < 3 || adverb;
    boolean asked = before != null && (before.is(Type.MORE) || before.is(Type.LESS));
    boolean be =
        asked
            && items.stream().skip(Math.max(0, items.size() - 4)).anyMatch(x -> x.is(Type.COPULA));
    int size = items.size();
    be |=
        asked
            && size > 2
            && items.get(size - 2).is(Type.CONJ)
            && (items.get(size - 3).is(Type.QUAL) || items.get(size - 3).is(Type.PRED));
    be |=
        asked
            && size > 1
            && (items.get(size - 2).is(Type.ELEM) || items.get(size - 2).is(Type.PRON))
            && items.stream()
                .skip(Math.max(0, items.size() - 6))
                .anyMatch(x -> x.is(Type.AUX) && x.a().equals("must"));
    boolean mood = asked && !filler && (be && last || MOOD.matcher(word).find());
    Type type = filler ? Type.FILL : mood ? Type.VAGUEAIM : Type.UNKNOWN;
    String said =
        text.substring(token.start(), token.end())
            .toLowerCase(Locale.ROOT)
            .replaceAll("['’]s$", "");
    boolean mine = i > 1 && (is(i - 1, "my") || is(i - 1, "our"));
    boolean heardOn = mine && HEARD.contains(tokens.get(i - 2).norm());
    boolean named = i > 0 && DETERMINERS.contains(tokens.get(i - 1).norm()) && !heardOn;
    items.add(
        new Item(type, said, "", named ? "det" : "", 0, null, null, 0, token.start(), token.end()));
    return i + 1;
  }

  /** "Guitar 2 is too loud": which of them. */
  private boolean numbersPart(int i) {
    Token token = tokens.get(i);
    String part = i > 0 ? tokens.get(i - 1).norm() : "";
    if (part.endsWith("s") && !part.endsWith("ss") && is(i + 1, "in")) {
      // "drop the guitars 1 in verse 2"
      return false;
    }
    boolean small = token.is(Kind.NUMBER) && token.signed() == 0 && token.value() <= 4;
    return small
        && token.value() == Math.rint(token.value())
        && !token.norm().contains(".")
        && i + 1 < tokens.size()
        && NUMBERED.contains(tokens.get(i + 1).norm())
        && Homographs.followsPart(items, token);
  }

  private boolean has(String kind, int number) {
    return sections.ofKind(kind).stream().anyMatch(s -> sections.numberOf(s) == number);
  }

  private boolean is(int i, String word) {
    return i < tokens.size() && tokens.get(i).is(word);
  }

  private static boolean sided(Item before) {
    return before != null && (before.is(Type.ELEM) || before.is(Type.VERB));
  }

  private static String letters(String sign) {
    switch (sign) {
      case "d", "drop":
        return "drop";
      case "v":
        return "verse";
      case "c":
        return "chorus";
      default:
        return sign;
    }
  }

  /** "Mix 3", "version 2", and "drop 2" where it is a section. Returns the index after it. */
  private int version(int i) {
    if (i + 1 >= tokens.size() || !tokens.get(i + 1).is(Kind.NUMBER)) {
      return i;
    }
    Token word = tokens.get(i);
    Token number = tokens.get(i + 1);
    if (Amounts.at(tokens, i + 1).isPresent()) {
      // "drop 2 dB"
      return i;
    }
    if (number.signed() != 0 || number.norm().contains(".") || number.value() > 99) {
      return i;
    }
    if (word.is("mix") || word.is("version") || word.is("bounce") || word.is("rev")) {
      items.add(
          Item.mark(Type.VERSION, word.norm() + " " + number.norm(), word.start(), number.end()));
      return i + 2;
    }
    boolean drop = word.is("drop") && !sections.ofKind("drop").isEmpty();
    if (drop || (word.is("drop") && sections.isEmpty() && number.value() < 4)) {
      items.add(Item.of(new Lexicon.Entry(Type.SECTION, "drop", "", ""), word.start(), word.end()));
      return i + 1;
    }
    return i;
  }
}
