package org.mixaccord.changes;

/**
 * What somebody is to one change. Several may hold at once, or none.
 *
 * @param engineer works the list of the project
 * @param author asked for the change, or answers for someone who left
 * @param lastWord has the last word of the project
 */
public record Actor(boolean engineer, boolean author, boolean lastWord) {
  /** Whether the person may speak for the wish itself. */
  public boolean speaksForIt() {
    return author || lastWord;
  }
}
