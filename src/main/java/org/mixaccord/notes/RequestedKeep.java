package org.mixaccord.notes;

/**
 * Something asked to be left as it is.
 *
 * @param element the part, named as in {@link RequestedChange}
 * @param where the place; {@link Where#WHOLE_SONG} when unsaid
 * @param text the words it came from, exactly as written
 * @param start index of the first of these words in the note
 * @param end index after the last
 */
public record RequestedKeep(String element, Where where, String text, int start, int end) {
  /**
   * Checks the element and the span.
   *
   * @throws IllegalArgumentException if the element is blank or the span is out of order
   */
  public RequestedKeep {
    if (element == null || element.isBlank()) {
      throw new IllegalArgumentException("a keep needs an element");
    }
    if (start < 0 || end < start) {
      throw new IllegalArgumentException("span " + start + ".." + end);
    }
  }
}
