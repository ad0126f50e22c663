package org.mixaccord.notes;

import java.util.List;
import java.util.Set;
import org.mixaccord.notes.Token.Kind;

/** Phrases of the tables that mean something else where they stand: "Tom wants more guitar". */
final class Misnomers {
  private static final Set<String> OF_PEOPLE =
      Set.of(
          "wants", "says", "said", "thinks", "asked", "asks", "likes", "loves", "hates", "feels");
  private static final Set<String> IN =
      Set.of("in", "at", "of", "during", "from", "until", "after", "for", "on");
  private static final Set<String> PEOPLE = Set.of("band", "singer", "choir", "crowd");
  private static final Set<String> BUILT =
      Set.of(
          "a", "proper", "bigger", "longer", "slower", "more", "no", "some", "real", "to",
          "should");
  private final String text;
  private final List<Token> tokens;
  private final List<Item> items;
  private final SectionNames sections;
  private final Lexicon lexicon;

  Misnomers(
      String text, List<Token> tokens, List<Item> items, SectionNames sections, Lexicon lexicon) {
    this.text = text;
    this.tokens = tokens;
    this.items = items;
    this.sections = sections;
    this.lexicon = lexicon;
  }

  /** Letters that stand for a section only beside a number, and "drop 2" beside a verb's "drop". */
  boolean misread(int i, Lexicon.Match match) {
    Lexicon.Entry entry = match.entry();
    if (entry.type() == Type.ELEM && match.length() == 1 && tokens.get(i).is("tom")) {
      // "Tom wants more guitar"
      boolean capital = Character.isUpperCase(text.charAt(tokens.get(i).start()));
      return capital && i + 1 < tokens.size() && OF_PEOPLE.contains(tokens.get(i + 1).norm());
    }
    boolean build =
        entry.type() == Type.SECTION && match.length() == 1 && tokens.get(i).is("build");
    if (build && i > 0 && BUILT.contains(tokens.get(i - 1).norm())) {
      // "needs a proper build"
      return true;
    }
    boolean noun =
        entry.type() == Type.SECTION
            && (entry.a().equals("build") || entry.a().equals("drop"))
            && !sections.isEmpty()
            && sections.ofKind(entry.a()).isEmpty();
    boolean article = tokens.get(i).is("the") && i > 0;
    boolean within =
        article && IN.contains(tokens.get(i - 1).norm())
            || i > 1 && tokens.get(i - 1).is("the") && IN.contains(tokens.get(i - 2).norm());
    if (noun
        && !within
        && (i == 0 || !Homographs.BEFORE_A_SECTION.contains(tokens.get(i - 1).norm()))) {
      // "the build into the bridge" of a song that has no section of that name
      return i + 1 >= tokens.size() || !tokens.get(i + 1).is(Kind.NUMBER);
    }
    boolean people =
        match.length() <= 2 && PEOPLE.contains(tokens.get(i + match.length() - 1).norm());
    if (people && i + match.length() < tokens.size()) {
      // "the band says vocals up"
      return OF_PEOPLE.contains(tokens.get(i + match.length()).norm());
    }
    boolean versus = match.length() == 1 && tokens.get(i).is("vs") && i > 0;
    if (versus && lexicon.match(tokens, i - 1) != null && i + 1 < tokens.size()) {
      // "trumpet vs sax"
      Lexicon.Match behind = lexicon.match(tokens, i + 1);
      Lexicon.Match before = lexicon.match(tokens, i - 1);
      return behind != null
          && behind.entry().type() == Type.ELEM
          && before.entry().type() == Type.ELEM;
    }
    if (entry.type() == Type.SECTION && match.length() == 1) {
      String word = tokens.get(i).norm();
      boolean numbered = i + 1 < tokens.size() && tokens.get(i + 1).is(Kind.NUMBER);
      return (word.equals("v") || word.equals("c")) && !numbered;
    }
    return false;
  }

  /** "The lead" in "the lead vox": an article must not hide the longer name behind it. */
  boolean cutsShort(int i, Lexicon.Match match) {
    int last = i + match.length() - 1;
    if (match.entry().type() == Type.HALF && Amounts.at(tokens, last).isPresent()) {
      // "about half a dB"
      return true;
    }
    boolean track = tokens.get(i).is("track") || tokens.get(i).is("tracks");
    if (track && match.length() == 1 && Homographs.followsPart(items, tokens.get(i))) {
      // "the shaker track"
      return true;
    }
    if (!tokens.get(i).is("the") || match.length() < 2) {
      return false;
    }
    Lexicon.Match behind = lexicon.match(tokens, i + 1);
    return behind != null && behind.length() >= match.length();
  }
}
