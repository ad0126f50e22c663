package org.mixaccord.compare;

/**
 * A named stretch of a song.
 *
 * @param name its name, unique in the song
 * @param from start in seconds
 * @param to end in seconds, after {@code from}
 */
public record NamedSection(String name, double from, double to) {
  public NamedSection {
    if (name == null || !(from >= 0) || !(to > from)) {
      throw new IllegalArgumentException("not a section: " + name + " " + from + ".." + to);
    }
  }
}
