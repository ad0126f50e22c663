package org.mixaccord.notes;

import java.util.HashMap;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;

/** The names of parts by the ways people write them, for whoever reads parts outside of notes. */
public final class PartNames {
  private static final Map<String, String> NAMES = load();

  private PartNames() {}

  /**
   * The part a phrase names.
   *
   * @param phrase words with single spaces between, such as "lead vox"
   * @return the name notes use for it; empty when the phrase names no part
   */
  public static Optional<String> named(String phrase) {
    return Optional.ofNullable(NAMES.get(phrase.toLowerCase(Locale.ROOT)));
  }

  private static Map<String, String> load() {
    Map<String, String> names = new HashMap<>();
    Lexicon.lines(
        "elements.tsv",
        (fields, line) -> {
          for (String phrase : fields[1].split(", ")) {
            names.putIfAbsent(phrase.strip(), fields[0]);
          }
        });
    return Map.copyOf(names);
  }
}
