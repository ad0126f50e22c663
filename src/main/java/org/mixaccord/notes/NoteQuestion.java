package org.mixaccord.notes;

import java.util.List;

/**
 * What must be asked back before an engineer can act.
 *
 * @param text one short question in plain words
 * @param choices two to four likely answers; each can be handed to {@code NoteReader.readAgain}
 * @param about what the question is about
 */
public record NoteQuestion(String text, List<String> choices, About about) {
  /** What is missing. */
  public enum About {
    /** Which place in the song. */
    PLACE,
    /** Which part. */
    PART,
    /** What should happen, or which way. */
    WISH,
    /** Two requests of one note exclude each other. */
    CONTRADICTION
  }

  /**
   * Copies the choices in.
   *
   * @throws IllegalArgumentException if there is no text or fewer than two choices
   */
  public NoteQuestion {
    choices = List.copyOf(choices);
    if (text == null || text.isBlank() || choices.size() < 2) {
      throw new IllegalArgumentException("a question needs its text and two choices");
    }
  }
}
