package org.mixaccord.changes;

/**
 * What the rules have to know of one change.
 *
 * @param state where it stands
 * @param doneInSent whether the bounce it was done in has been sent; false unless done
 * @param settled whether it was left because a contradiction was settled against it
 */
public record ChangeFacts(ChangeState state, boolean doneInSent, boolean settled) {
  /** Facts of a change that is neither done nor settled. */
  public static ChangeFacts of(ChangeState state) {
    return new ChangeFacts(state, false, false);
  }

  /**
   * The state somebody is shown: until the bounce is sent, only engineers know that it is done.
   *
   * @param engineer whether the person works the list
   */
  public ChangeState shownTo(boolean engineer) {
    return !engineer && state == ChangeState.DONE && !doneInSent ? ChangeState.ASKED : state;
  }

  /** Whether it still counts as a wish: open, or done where only the engineer knows. */
  public boolean stillWanted() {
    return shownTo(false).open();
  }
}
