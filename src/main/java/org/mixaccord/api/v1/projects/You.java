package org.mixaccord.api.v1.projects;

import java.util.List;
import org.mixaccord.accounts.Access;
import org.mixaccord.accounts.Act;

/** Who the caller is in a project. */
public record You(
    String member,
    String person,
    String role,
    boolean lastWord,
    boolean approver,
    boolean mayWrite) {

  public static You of(Access access) {
    return new You(
        access.member().id(),
        access.person().id(),
        access.member().role().wire(),
        access.hasLastWord(),
        access.may(Act.APPROVE),
        access.may(Act.WRITE_NOTE));
  }

  /** Everything the caller may do, by name. */
  public static List<String> may(Access access) {
    return access.may().stream().map(Act::wire).toList();
  }
}
