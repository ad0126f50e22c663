package org.mixaccord.audio;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.Set;

/** Makes sections out of places that were marked somewhere else. */
public final class MarkedSections {
  /** Two marks closer than this are one place; so short a stretch is no section. */
  static final double SAME_SECONDS = 0.05;

  /**
   * A marked place.
   *
   * @param seconds where it lies
   * @param endSeconds where a marked region ends; empty where the next mark ends it
   * @param label its name; empty for none
   */
  public record Mark(double seconds, OptionalDouble endSeconds, String label) {}

  /** A named stretch, in seconds. */
  public record Stretch(String name, double from, double to) {}

  private MarkedSections() {}

  /**
   * From each mark to the next; a region keeps its own end unless another mark lies before it.
   * Marks behind the end, and those that leave no stretch worth the name, fall away. Names are made
   * unlike each other by numbers; a mark without one becomes "Section n".
   *
   * @param marks in any order
   * @param length seconds of the song
   * @param mostChars the longest a name may be, 8 or more
   * @return in order of time, without overlaps
   */
  public static List<Stretch> of(List<Mark> marks, double length, int mostChars) {
    List<Mark> kept = new ArrayList<>();
    marks.stream()
        .filter(m -> m.seconds >= 0 && m.seconds < length - SAME_SECONDS)
        .sorted(Comparator.comparingDouble(Mark::seconds))
        .forEach(m -> add(kept, m));
    List<String> names = names(kept, mostChars);
    List<Stretch> stretches = new ArrayList<>();
    for (int i = 0; i < kept.size(); i++) {
      double next = i + 1 < kept.size() ? kept.get(i + 1).seconds : length;
      double end = Math.min(next, kept.get(i).endSeconds.orElse(next));
      stretches.add(new Stretch(names.get(i), kept.get(i).seconds, end));
    }
    return stretches;
  }

  /** Of marks at one place the first that has a name counts, and the longest region. */
  private static void add(List<Mark> kept, Mark mark) {
    OptionalDouble end =
        mark.endSeconds.isPresent() && mark.endSeconds.getAsDouble() < mark.seconds + SAME_SECONDS
            ? OptionalDouble.empty()
            : mark.endSeconds;
    Mark last = kept.isEmpty() ? null : kept.get(kept.size() - 1);
    if (last == null || mark.seconds - last.seconds >= SAME_SECONDS) {
      kept.add(new Mark(mark.seconds, end, mark.label));
      return;
    }
    OptionalDouble longer = end.orElse(0) > last.endSeconds.orElse(0) ? end : last.endSeconds;
    kept.set(
        kept.size() - 1,
        new Mark(last.seconds, longer, last.label.isEmpty() ? mark.label : last.label));
  }

  private static List<String> names(List<Mark> marks, int mostChars) {
    Map<String, Integer> counts = new HashMap<>();
    Set<String> taken = new HashSet<>();
    List<String> wanted = new ArrayList<>();
    for (Mark mark : marks) {
      String name = cut(mark.label, mostChars);
      wanted.add(name);
      counts.merge(key(name), 1, Integer::sum);
    }
    wanted.stream()
        .filter(n -> !n.isEmpty() && counts.get(key(n)) == 1)
        .forEach(n -> taken.add(key(n)));
    Map<String, Integer> numbers = new HashMap<>();
    List<String> names = new ArrayList<>();
    for (String name : wanted) {
      if (!name.isEmpty() && counts.get(key(name)) == 1) {
        names.add(name);
        continue;
      }
      String word = name.isEmpty() ? "Section" : name;
      String numbered;
      do {
        String number = " " + numbers.merge(key(word), 1, Integer::sum);
        numbered = cut(word, mostChars - number.length()) + number;
      } while (!taken.add(key(numbered)));
      names.add(numbered);
    }
    return names;
  }

  private static String key(String name) {
    return name.toLowerCase(Locale.ROOT);
  }

  private static String cut(String text, int mostChars) {
    String stripped = text.strip();
    if (stripped.length() <= mostChars) {
      return stripped;
    }
    int end = Character.isHighSurrogate(stripped.charAt(mostChars - 1)) ? mostChars - 1 : mostChars;
    return stripped.substring(0, end).strip();
  }
}
