package org.mixaccord.review;

/**
 * Rounds of notes: round n opens when the n-th main is sent, "I'm on it" closes its list, and notes
 * that come later belong to the next.
 */
public final class Rounds {
  private Rounds() {}

  /**
   * Whether the engineer has begun to work on the list a change is in.
   *
   * @param ofChange the change's round, from 1
   * @param openForNotes the round new notes belong to
   */
  public static boolean listClosed(int ofChange, int openForNotes) {
    return ofChange < openForNotes;
  }

  /**
   * Whether the engineer may put a change into a round: any that has been opened, the next
   * included.
   *
   * @param target the round wanted
   * @param openForNotes the round new notes belong to
   */
  public static boolean mayTakeInto(int target, int openForNotes) {
    return target >= 1 && target <= openForNotes;
  }
}
