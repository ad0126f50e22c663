package org.mixaccord.notes;

import java.util.Optional;

/**
 * One thing an engineer is asked to do, drawn from a note.
 *
 * @param element the part, by one canonical name of {@link Vocabulary#ELEMENTS}, or the writer's
 *     own word in lower case; {@code mix} is everything or nothing in particular
 * @param aspect what about it, one of {@link Vocabulary#aspects()}
 * @param direction which way, one of {@link Vocabulary#directions(String)}
 * @param amount how much, where it was said
 * @param where the place; {@link Where#WHOLE_SONG} when unsaid
 * @param question what must be asked before work can begin; usually empty
 * @param text the words it came from, exactly as written
 * @param start index of the first of these words in the note (UTF-16 units)
 * @param end index after the last
 */
public record RequestedChange(
    String element,
    String aspect,
    String direction,
    Optional<Amount> amount,
    Where where,
    Optional<NoteQuestion> question,
    String text,
    int start,
    int end) {
  /**
   * Checks the words against the vocabulary.
   *
   * @throws IllegalArgumentException if the element is blank, or aspect and direction do not go
   *     together
   */
  public RequestedChange {
    if (element == null || element.isBlank()) {
      throw new IllegalArgumentException("a change needs an element");
    }
    if (!Vocabulary.knows(aspect, direction)) {
      throw new IllegalArgumentException("no such change: " + aspect + " " + direction);
    }
    if (start < 0 || end < start) {
      throw new IllegalArgumentException("span " + start + ".." + end);
    }
  }
}
