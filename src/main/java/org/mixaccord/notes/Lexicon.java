package org.mixaccord.notes;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.function.BiConsumer;

/** The word tables of this package as one tree of phrases; longest match wins. */
final class Lexicon {
  /** What a phrase means: its type and up to three details. */
  record Entry(Type type, String a, String b, String c) {}

  /** A phrase found at some token. */
  record Match(Entry entry, int length) {}

  private static final class Node {
    final Map<String, Node> next = new HashMap<>();
    Entry entry;
  }

  private static final Set<String> PARTICLES = Set.of("up", "out", "off", "down");

  private static final Lexicon COMMON = load();

  private final Node root = new Node();
  private final Lexicon below;
  private final Set<String> words = new HashSet<>();
  private final Set<String> fillers = new HashSet<>();

  private static final Set<String> OURS = Set.of("our", "your");

  /** English words that only look like a slip for one of the tables. */
  private final Set<String> real = new HashSet<>();

  private final Spelling spelling;

  private Lexicon(Lexicon below) {
    this.below = below;
    this.spelling = below == null ? new Spelling() : below.spelling;
  }

  /** The tables alone. */
  static Lexicon common() {
    return COMMON;
  }

  /** The tables with a project's own parts and section names on top. */
  static Lexicon of(NoteContext context) {
    if (context.elements().isEmpty() && context.sections().isEmpty()) {
      return COMMON;
    }
    Lexicon own = new Lexicon(COMMON);
    for (int i = 0; i < context.sections().size(); i++) {
      String name = context.sections().get(i).name();
      if (SectionNames.kindOf(name).isEmpty()) {
        own.put(name, new Entry(Type.SECTIONLIT, String.valueOf(i), "", ""), true);
      }
    }
    for (String element : context.elements()) {
      String name = element.toLowerCase(Locale.ROOT).strip();
      Match known = COMMON.match(Tokenizer.tokenize(name), 0);
      boolean common =
          known != null
              && known.entry.type() == Type.ELEM
              && known.length == Tokenizer.tokenize(name).size();
      if (!common && !name.isEmpty()) {
        own.put(name, new Entry(Type.ELEM, name, "", ""), true);
      }
    }
    return own;
  }

  /** The longest phrase that begins at a token, or null. */
  Match match(List<Token> tokens, int at) {
    Match best = below == null ? null : below.match(tokens, at);
    Node node = root;
    for (int i = at; i < tokens.size(); i++) {
      Token token = tokens.get(i);
      if (!token.is(Token.Kind.WORD) && !token.is(Token.Kind.NUMBER) || token.signed() != 0) {
        break;
      }
      Node next = node.next.get(token.norm());
      // "one of our guitars" is one of the guitars
      node = next == null && OURS.contains(token.norm()) ? node.next.get("the") : next;
      if (node == null) {
        break;
      }
      if (node.entry != null && (best == null || i + 1 - at >= best.length)) {
        best = new Match(node.entry, i + 1 - at);
      }
    }
    return best;
  }

  boolean isFiller(String word) {
    return fillers.contains(word) || (below != null && below.isFiller(word));
  }

  private boolean isWord(String word) {
    return words.contains(word)
        || fillers.contains(word)
        || real.contains(word)
        || (below != null && below.isWord(word));
  }

  private boolean inTables(String word) {
    return words.contains(word) || below != null && below.inTables(word);
  }

  /** The word itself, or the one it was probably meant to be. */
  String spelled(String word) {
    if (isWord(word)) {
      return word;
    }
    String shorter = Spelling.withoutStretching(word, this::isWord);
    if (!shorter.equals(word)) {
      return shorter;
    }
    return spelling.nearest(word);
  }

  /** The word without an "s" that is no part of it: "everything's", "mandolins"; or itself. */
  String singular(String word, boolean apostrophe) {
    String one = word.endsWith("s") ? word.substring(0, word.length() - 1) : word;
    if (one.length() < (apostrophe ? 2 : 4)) {
      return word;
    }
    Match match = inTables(one) ? match(Tokenizer.tokenize(one), 0) : null;
    boolean part = match != null && match.entry.type() == Type.ELEM;
    if (inTables(word)) {
      // "the arp's too dry" is about one of them
      return apostrophe && part ? one : word;
    }
    if (!inTables(one)) {
      // "the kalimba's too loud"
      return apostrophe && !isFiller(word) ? one : word;
    }
    return apostrophe || part ? one : word;
  }

  private void put(String phrase, Entry entry, boolean over) {
    Node node = root;
    List<Token> tokens = Tokenizer.tokenize(phrase);
    for (Token token : tokens) {
      words.add(token.norm());
      node = node.next.computeIfAbsent(token.norm(), w -> new Node());
    }
    if (!tokens.isEmpty() && (over || node.entry == null)) {
      node.entry = entry;
    }
  }

  private void phrases(String list, Entry entry) {
    for (String phrase : list.split(", ")) {
      put(phrase.strip(), entry, false);
    }
  }

  /** "Warm it up" beside "warm up". */
  private void parted(String list, Entry entry) {
    for (String phrase : list.split(", ")) {
      String[] words = phrase.strip().split(" ");
      if (words.length == 2 && PARTICLES.contains(words[1])) {
        for (String object : List.of("it", "them", "that")) {
          put(words[0] + " " + object + " " + words[1], entry, false);
        }
      }
    }
  }

  private static Lexicon load() {
    Lexicon lexicon = new Lexicon(null);
    lines("places.tsv", (f, l) -> lexicon.phrases(f[2], entry(Type.valueOf(f[0]), f[1])));
    lines("elements.tsv", (f, l) -> lexicon.phrases(f[1], entry(Type.ELEM, f[0])));
    lines("sections.tsv", (f, l) -> lexicon.phrases(f[1], entry(Type.SECTION, f[0])));
    lines(
        "operators.tsv",
        (f, l) -> {
          Entry entry = new Entry(Type.valueOf(f[0]), f[1], f[2], "");
          lexicon.phrases(f[3], entry);
          if (entry.type() == Type.PRED) {
            lexicon.parted(f[3], entry);
          }
        });
    lines(
        "properties.tsv",
        (f, l) -> {
          for (String noun : f[2].split(", ")) {
            lexicon.put(noun, new Entry(Type.PROP, f[0], f[1], noun), false);
          }
        });
    lines("qualities.tsv", (f, l) -> lexicon.qualities(f));
    lines("effects.tsv", (f, l) -> lexicon.effects(l));
    lines("delivery.tsv", (f, l) -> lexicon.phrases(f[1], entry(deliveryType(f[0]), "")));
    lines("amounts.tsv", (f, l) -> lexicon.phrases(f[0], entry(Type.DEG, f[0])));
    lines(
        "common.txt",
        (f, l) -> {
          for (String word : l.split(" ")) {
            lexicon.fillers.add(word.replace("'", ""));
          }
        });
    for (String word : lexicon.words) {
      lexicon.spelling.learn(word);
    }
    lines("words.txt", (f, l) -> lexicon.real.addAll(List.of(l.split(" "))));
    return lexicon;
  }

  private static Type deliveryType(String name) {
    return name.equals("VERB") ? Type.DVERB : Type.valueOf(name);
  }

  private static Entry entry(Type type, String a) {
    return new Entry(type, a, "", "");
  }

  private void effects(String line) {
    for (String phrase : line.split(", ")) {
      put(phrase.strip(), entry(Type.EFFECT, phrase.strip()), false);
    }
  }

  private void qualities(String[] fields) {
    for (String adjective : fields[3].split(", ")) {
      put(adjective.strip(), new Entry(Type.QUAL, fields[0], fields[1], fields[2]), false);
      if (!adjective.contains(" ")) {
        for (String comparative : comparatives(adjective.strip())) {
          put(comparative, new Entry(Type.QUAL, fields[0], fields[1], fields[2] + "+"), false);
        }
      }
    }
  }

  /** The comparative of an English adjective as people spell it. */
  static List<String> comparatives(String adjective) {
    List<String> forms = new ArrayList<>();
    int last = adjective.length() - 1;
    char end = adjective.charAt(last);
    if (end == 'e') {
      forms.add(adjective + "r");
    } else if (end == 'y') {
      forms.add(adjective.substring(0, last) + "ier");
      forms.add(adjective + "er");
    } else {
      forms.add(adjective + "er");
      if ("gtdnmp".indexOf(end) >= 0 && "aeiou".indexOf(adjective.charAt(last - 1)) >= 0) {
        forms.add(adjective + end + "er");
      }
    }
    return forms;
  }

  static void lines(String table, BiConsumer<String[], String> each) {
    try (InputStream in = Lexicon.class.getResourceAsStream(table);
        BufferedReader reader =
            new BufferedReader(new InputStreamReader(in, StandardCharsets.UTF_8))) {
      for (String line = reader.readLine(); line != null; line = reader.readLine()) {
        if (!line.isBlank() && !line.startsWith("#")) {
          each.accept(line.split("\t"), line);
        }
      }
    } catch (IOException e) {
      throw new UncheckedIOException("word table " + table, e);
    }
  }
}
