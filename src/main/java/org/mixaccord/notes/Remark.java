package org.mixaccord.notes;

/**
 * Words of a note that ask for nothing the reader could name; they stay with the note as written.
 *
 * @param kind what sort of remark it seems to be
 * @param text the words, exactly as written
 * @param start index of the first of these words in the note
 * @param end index after the last
 */
public record Remark(Kind kind, String text, int start, int end) {
  /** Sorts of remark. A guess for sorting only; nothing is decided by it. */
  public enum Kind {
    /** Praise or thanks. */
    PRAISE,
    /** Words of approval; they never approve anything by themselves. */
    APPROVAL,
    /** A question to the engineer or the others. */
    QUESTION,
    /** Something taken back. */
    RETRACTION,
    /** Anything else, including what could not be read. */
    OTHER
  }
}
