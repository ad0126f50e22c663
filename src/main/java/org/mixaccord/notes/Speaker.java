package org.mixaccord.notes;

import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Who writes, where the note says so: "drummer here", "me again (bass)", "Dee (violin)". */
final class Speaker {
  private static final Map<String, String> ROLES =
      Map.ofEntries(
          Map.entry("drummer", "drums"),
          Map.entry("bassist", "bass"),
          Map.entry("guitarist", "guitars"),
          Map.entry("pianist", "piano"),
          Map.entry("keyboardist", "keys"),
          Map.entry("organist", "organ"),
          Map.entry("violinist", "violin"),
          Map.entry("cellist", "cello"),
          Map.entry("trumpeter", "trumpet"),
          Map.entry("saxophonist", "sax"),
          Map.entry("flautist", "flute"),
          Map.entry("percussionist", "percussion"),
          Map.entry("harpist", "harp"),
          Map.entry("singer", "lead vocal"),
          Map.entry("vocalist", "lead vocal"));

  private static final String PART = "([a-z]+(?: [a-z]+)??)";

  private static final List<Pattern> SAID =
      List.of(
          Pattern.compile("\\b(?:the )?" + PART + "(?: player)? here\\b"),
          Pattern.compile("\\b(?:its|it's|this is|im|i'm|as) the " + PART + "(?: player)?\\b"),
          Pattern.compile("\\bfrom the " + PART + " here\\b"),
          Pattern.compile(
              "^\\W*(?:the )?" + PART + "(?: player| section)? (?:reporting|speaking)\\b"),
          Pattern.compile("\\bme(?: again)? \\(" + PART + "\\)"),
          Pattern.compile(
              "^\\W*(?:notes |note |hi |hello |hey )?(?:from )?[a-z]+ \\("
                  + PART
                  + "\\)\\s*[:,.-]"));

  private Speaker() {}

  /** The part the writer plays or sings; an empty string where the note does not say. */
  static String of(String text, Lexicon lexicon) {
    String said = text.replace('\u2019', '\'').toLowerCase(Locale.ROOT);
    for (Pattern pattern : SAID) {
      Matcher matcher = pattern.matcher(said);
      if (matcher.find()) {
        String part = part(matcher.group(1), lexicon);
        if (!part.isEmpty()) {
          return part;
        }
      }
    }
    return "";
  }

  private static String part(String words, Lexicon lexicon) {
    String last = words.substring(words.lastIndexOf(' ') + 1);
    for (String name : List.of(words, last)) {
      if (ROLES.containsKey(name)) {
        return ROLES.get(name);
      }
      List<Token> tokens = Tokenizer.tokenize(name);
      Lexicon.Match match = tokens.isEmpty() ? null : lexicon.match(tokens, 0);
      boolean known = match != null && match.length() == tokens.size();
      boolean isPart = known && match.entry().type() == Type.ELEM;
      if (isPart && !match.entry().a().equals(Vocabulary.MIX)) {
        return match.entry().a();
      }
    }
    return "";
  }
}
