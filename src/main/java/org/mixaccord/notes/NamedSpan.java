package org.mixaccord.notes;

/**
 * A named stretch of the song, as the reader of notes knows it.
 *
 * @param name the section's name as the project writes it, for example {@code Chorus 2}
 * @param fromSeconds where it begins on the bounce the note is about
 * @param toSeconds where it ends; not before {@code fromSeconds}
 */
public record NamedSpan(String name, double fromSeconds, double toSeconds) {
  /**
   * Checks the span.
   *
   * @throws IllegalArgumentException if the name is blank or the ends are not finite and in order
   */
  public NamedSpan {
    if (name == null || name.isBlank()) {
      throw new IllegalArgumentException("section without a name");
    }
    if (!Double.isFinite(fromSeconds) || !Double.isFinite(toSeconds) || toSeconds < fromSeconds) {
      throw new IllegalArgumentException(
          "section " + name + " runs from " + fromSeconds + " to " + toSeconds);
    }
  }
}
