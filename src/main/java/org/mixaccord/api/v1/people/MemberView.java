package org.mixaccord.api.v1.people;

import org.mixaccord.accounts.Member;
import org.mixaccord.accounts.ProjectPeople;
import org.mixaccord.accounts.Role;

/** A member as the others of the project see them. */
public record MemberView(
    String id,
    String person,
    String name,
    String role,
    boolean lastWord,
    boolean approver,
    boolean mayWrite,
    String identity) {

  /** {@code lastWord} says who has it; {@code approver} who was named. */
  static MemberView of(Member member, ProjectPeople people) {
    return new MemberView(
        member.id(),
        member.person().id(),
        member.person().name(),
        member.role().wire(),
        people.lastWord().filter(m -> m.id().equals(member.id())).isPresent(),
        member.namedApprover() && member.role() != Role.LISTENER,
        member.mayWrite(),
        member.identity());
  }
}
