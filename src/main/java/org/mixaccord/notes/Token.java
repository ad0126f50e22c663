package org.mixaccord.notes;

/**
 * One word, number or mark of a note.
 *
 * @param kind what it is
 * @param norm lower case, without apostrophes; for a mark the plain character
 * @param value the number, or seconds of a clock time; 0 for others
 * @param signed −1 or +1 for a number written with a sign, otherwise 0
 * @param start index of its first character in the note
 * @param end index after its last
 */
record Token(Kind kind, String norm, double value, int signed, int start, int end) {
  enum Kind {
    WORD,
    NUMBER,
    /** A clock time such as 1:12. */
    CLOCK,
    /** A comma, bracket, slash or the like: parts of one sentence. */
    MARK,
    /** A dash between two things. */
    DASH,
    /** A colon. */
    COLON,
    /** The end of a sentence or line. */
    STOP,
    /** A question mark, also the end of a sentence. */
    ASK,
    /** The sign before a point of a list. */
    BULLET,
    /** Words in quotation marks: somebody's lyrics or a file name, never read. */
    QUOTED
  }

  boolean is(Kind other) {
    return kind == other;
  }

  boolean is(String word) {
    return kind == Kind.WORD && norm.equals(word);
  }
}
