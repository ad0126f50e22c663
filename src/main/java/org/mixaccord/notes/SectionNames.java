package org.mixaccord.notes;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** A song's sections by kind and number, so that "the second chorus" finds "Chorus 2". */
final class SectionNames {
  /** What a section's name says it is; number 0 when it says none. */
  record Named(String kind, int number) {}

  private final List<NamedSpan> sections;
  private final Map<String, List<Integer>> byKind = new LinkedHashMap<>();
  private final Map<Integer, Integer> numbers = new LinkedHashMap<>();

  SectionNames(List<NamedSpan> sections) {
    this.sections = sections;
    for (int i = 0; i < sections.size(); i++) {
      Optional<Named> named = kindOf(sections.get(i).name());
      if (named.isPresent()) {
        List<Integer> same = byKind.computeIfAbsent(named.get().kind(), k -> new ArrayList<>());
        same.add(i);
        numbers.put(i, named.get().number() > 0 ? named.get().number() : same.size());
      }
    }
  }

  boolean isEmpty() {
    return sections.isEmpty();
  }

  NamedSpan get(int index) {
    return sections.get(index);
  }

  int size() {
    return sections.size();
  }

  /** Whether a section says it is of this kind. */
  boolean has(String kind) {
    return byKind.containsKey(kind);
  }

  /** All sections of a kind, in song order; the first and the last may go by other names. */
  List<Integer> ofKind(String kind) {
    List<Integer> found = byKind.get(kind);
    if (found != null) {
      return found;
    }
    switch (kind) {
      case "outro":
        return sections.isEmpty() ? List.of() : List.of(sections.size() - 1);
      case "intro":
        return sections.isEmpty() ? List.of() : List.of(0);
      default:
        return List.of();
    }
  }

  int numberOf(int index) {
    return numbers.getOrDefault(index, 0);
  }

  /** The section a moment lies in, or −1. */
  int at(double seconds) {
    for (int i = 0; i < sections.size(); i++) {
      if (seconds >= sections.get(i).fromSeconds() && seconds < sections.get(i).toSeconds()) {
        return i;
      }
    }
    return -1;
  }

  /** Reads a section's name, such as "Pre-Chorus 2"; empty for a name of the project's own. */
  static Optional<Named> kindOf(String name) {
    List<Token> tokens = Tokenizer.tokenize(name.strip());
    int number = 0;
    int words = tokens.size();
    if (words > 0 && tokens.get(words - 1).is(Token.Kind.NUMBER)) {
      number = (int) tokens.get(words - 1).value();
      words--;
    }
    for (String lead : List.of("", "the ")) {
      String phrase = lead + words(tokens.subList(0, words));
      List<Token> asked = Tokenizer.tokenize(phrase);
      Lexicon.Match match = Lexicon.common().match(asked, 0);
      if (match != null
          && match.entry().type() == Type.SECTION
          && match.length() == asked.size()
          && !asked.isEmpty()) {
        return Optional.of(new Named(match.entry().a(), number));
      }
    }
    return Optional.empty();
  }

  private static String words(List<Token> tokens) {
    StringBuilder joined = new StringBuilder();
    for (Token token : tokens) {
      joined.append(joined.length() > 0 ? " " : "").append(token.norm());
    }
    return joined.toString();
  }
}
