package org.mixaccord.filenames;

import java.util.EnumMap;
import java.util.HashMap;
import java.util.Map;
import java.util.Optional;

/** Words that say something about a file rather than name its song. */
final class Markers {
  /** What a word is about. */
  enum About {
    KIND,
    MAIN,
    CUT,
    NUMBER,
    GLUED,
    FINAL,
    COPY,
    NOISE,
    STEMS,
    FOLDER,
    MONTH,
    COUNT,
    VOCAL,
    UP,
    DOWN,
    SIDE
  }

  /**
   * A word's meaning.
   *
   * @param everyday whether it may as well belong to a title
   */
  record Marker(About about, String value, boolean everyday) {}

  private static final Map<About, Map<String, Marker>> ALL = load();

  private Markers() {}

  /** The meaning of a word, or of several joined, of one sort. */
  static Optional<Marker> find(String joined, About... sorts) {
    for (About about : sorts) {
      Marker marker = ALL.get(about).get(joined);
      if (marker != null) {
        return Optional.of(marker);
      }
    }
    return Optional.empty();
  }

  static boolean is(String joined, About about) {
    return ALL.get(about).containsKey(joined);
  }

  private static Map<About, Map<String, Marker>> load() {
    Map<About, Map<String, Marker>> all = new EnumMap<>(About.class);
    for (About about : About.values()) {
      all.put(about, new HashMap<>());
    }
    Table.lines(
        "markers.tsv",
        f -> {
          About about = About.valueOf(f[0].toUpperCase(java.util.Locale.ROOT));
          for (String word : f[2].split(", ")) {
            boolean everyday = word.endsWith("*");
            String joined =
                (everyday ? word.substring(0, word.length() - 1) : word).replace(" ", "");
            all.get(about).putIfAbsent(joined, new Marker(about, f[1], everyday));
          }
        });
    return all;
  }
}
