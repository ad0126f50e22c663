package org.mixaccord.accounts;

import java.util.EnumSet;
import java.util.Set;

/**
 * Who may do what in a project: the one place where it is decided. What belongs to one thing (own
 * note, own upload) is added by the thing itself; nothing here is widened elsewhere.
 */
public final class Rights {
  private static final Set<Act> ENGINEER =
      EnumSet.complementOf(EnumSet.of(Act.SETTLE, Act.SEND_GATHERED, Act.APPROVE));
  private static final Set<Act> ARTIST =
      EnumSet.of(Act.SEE_LIST, Act.WRITE_NOTE, Act.UPLOAD_ROUGH, Act.UPLOAD_STEMS, Act.SAY_FINE);
  private static final Set<Act> MANAGER =
      EnumSet.of(
          Act.SEE_LIST,
          Act.WRITE_NOTE,
          Act.DOWNLOAD,
          Act.UPLOAD_ROUGH,
          Act.SAY_FINE,
          Act.MANAGE_PEOPLE,
          Act.EDIT_SPEC);

  private Rights() {}

  /**
   * Everything a member may do.
   *
   * @param role what the member is in the project
   * @param mayWrite whether a listener may read and write notes
   * @param lastWord whether the member has the project's last word
   * @param approver whether the member's approval is needed
   * @param managesForNow the creator of a project that nobody with the right has joined yet
   * @param switches the project's switches
   */
  public static Set<Act> of(
      Role role,
      boolean mayWrite,
      boolean lastWord,
      boolean approver,
      boolean managesForNow,
      Switches switches) {
    Set<Act> acts = EnumSet.noneOf(Act.class);
    switch (role) {
      case ENGINEER -> acts.addAll(ENGINEER);
      case ARTIST -> acts.addAll(ARTIST);
      case MANAGER -> acts.addAll(MANAGER);
      case LISTENER -> {
        if (mayWrite) {
          acts.addAll(EnumSet.of(Act.SEE_LIST, Act.WRITE_NOTE));
        }
      }
    }
    if (switches.metersOpen() && (role == Role.ARTIST || role == Role.MANAGER)) {
      acts.add(Act.SEE_FIGURES);
    }
    if (switches.downloads() && role == Role.ARTIST) {
      acts.add(Act.DOWNLOAD);
    }
    if (lastWord) {
      acts.add(Act.SEE_LIST);
      acts.add(Act.SETTLE);
      acts.add(Act.SEND_GATHERED);
    }
    if (approver) {
      acts.add(Act.APPROVE);
    }
    if (managesForNow) {
      acts.add(Act.MANAGE_PEOPLE);
    }
    return acts;
  }

  /** The switches of a project that widen or narrow rights. */
  public record Switches(boolean downloads, boolean metersOpen) {}
}
