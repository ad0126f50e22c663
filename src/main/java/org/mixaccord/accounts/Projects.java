package org.mixaccord.accounts;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Event;
import jakarta.transaction.Transactional;
import java.time.Clock;
import java.util.Optional;
import org.mixaccord.problem.Problem;
import org.mixaccord.problem.ProblemException;

/** Projects and who belongs to them: beginning, inviting, joining, changing, leaving. */
@ApplicationScoped
public class Projects {
  /** An invitation just made, with the secret that is not kept. */
  public record Invited(Invitation invitation, String secret) {}

  /** Somebody who has just joined. */
  public record Joined(Member member, boolean newPerson) {}

  private final Clock clock;
  private final Event<PeopleChanged> changed;
  private final Event<AccessEnded> ended;

  Projects(Clock clock, Event<PeopleChanged> changed, Event<AccessEnded> ended) {
    this.clock = clock;
    this.changed = changed;
    this.ended = ended;
  }

  /** A new project, its creator a member in the role they say. */
  @Transactional
  public Project begin(Person creator, String title, String artist, Role role) {
    Project project = Project.begin(title, artist, creator, clock.instant());
    String identity = creator.emailConfirmed() ? "mail-confirmed" : "link-from:" + creator.id();
    Member.join(project, creator, role, identity, clock.instant());
    return project;
  }

  /** Invites one person, or a whole band by one link. */
  @Transactional
  public Invited invite(Access by, String email, Role role, int people) {
    by.require(Act.MANAGE_PEOPLE);
    if (people > 1 && email != null && !email.isBlank()) {
      throw new ProblemException(
          Problem.INVALID, "A link for several people goes to no single address: leave it out.");
    }
    String secret = Ids.secret();
    Invitation invitation =
        Invitation.make(by.project(), email, role, people, by.person(), secret, clock.instant());
    return new Invited(invitation, secret);
  }

  /** Notes that the link went out by mail. */
  @Transactional
  public void mailed(String invitationId) {
    Invitation.<Invitation>findByIdOptional(invitationId).ifPresent(Invitation::sentByMail);
  }

  /**
   * Accepts an invitation and uses it up.
   *
   * @param caller the person signed in, if any: they join as who they are
   * @throws ProblemException {@code sign-in-first} when the address invited has an account that is
   *     not the caller's
   */
  @Transactional
  public Joined accept(String secret, Optional<Person> caller, String name, String password) {
    Invitation invitation = Invitation.usable(secret, clock.instant());
    Optional<Person> account = invitation.email().flatMap(Person::withEmail);
    if (account.isPresent() && caller.filter(c -> c.id().equals(account.get().id())).isEmpty()) {
      throw new ProblemException(
          Problem.SIGN_IN_FIRST,
          "The address invited has an account here. Sign in to it, then open this link again.");
    }
    Person person =
        caller.orElseGet(
            () -> {
              Person made =
                  Person.named(name, invitation.email().orElse(null), false, clock.instant());
              if (password != null && !password.isEmpty()) {
                made.choosePassword(password);
              }
              return made;
            });
    Optional<Member> already = Member.of(invitation.project().id(), person.id());
    if (already.isPresent()) {
      return new Joined(already.get(), false);
    }
    boolean byMail = invitation.mailed() && invitation.email().equals(person.email());
    if (byMail) {
      person.confirmEmail();
    }
    String identity = byMail ? "mail-confirmed" : "link-from:" + invitation.invitedBy().id();
    Member member =
        Member.join(invitation.project(), person, invitation.role(), identity, clock.instant());
    invitation.useOnce();
    tell(member, person, "joined", person.name() + " joined as " + member.role().wire() + ".");
    return new Joined(member, caller.isEmpty());
  }

  /** What may be changed of a member; null leaves a field as it is. */
  public record Settings(Role role, Boolean lastWord, Boolean approver, Boolean mayWrite) {}

  /** Changes a member's role or duties. Nobody changes their own role. */
  @Transactional
  public Member change(Access by, String memberId, Settings settings) {
    by.require(Act.MANAGE_PEOPLE);
    Member member = required(by, memberId);
    if (settings.role() != null && settings.role() != member.role()) {
      if (member.id().equals(by.member().id())) {
        throw new ProblemException(
            Problem.NOT_ALLOWED, "Nobody changes their own role. Ask another engineer or manager.");
      }
      refuseLastManager(by, member, settings.role());
      member.takeRole(settings.role());
    }
    if (settings.lastWord() != null) {
      if (settings.lastWord()) {
        by.people().members().forEach(m -> m.giveLastWord(false));
      }
      member.giveLastWord(settings.lastWord());
    }
    if (settings.approver() != null) {
      if (settings.approver() && member.role() == Role.LISTENER) {
        throw new ProblemException(
            Problem.INVALID,
            "Who only listens cannot be asked to approve. Give them a role first.");
      }
      member.nameApprover(settings.approver());
    }
    if (settings.mayWrite() != null) {
      member.letWrite(settings.mayWrite());
    }
    tell(member, by.person(), "member-changed", member.person().name() + "’s place was changed.");
    return member;
  }

  /** Takes a member out of the project, at once; their words and approvals stay. */
  @Transactional
  public void remove(Access by, String memberId) {
    Member member = required(by, memberId);
    if (!member.id().equals(by.member().id())) {
      by.require(Act.MANAGE_PEOPLE);
    }
    refuseLastManager(by, member, null);
    member.leave(clock.instant());
    tell(member, by.person(), "left", member.person().name() + " is no longer in the project.");
    ended.fire(new AccessEnded(member.person().id(), null, by.project().id()));
  }

  private static Member required(Access by, String memberId) {
    return by.people().member(memberId).orElseThrow(Doorkeeper::notFound);
  }

  /** Somebody must be left who can manage people. */
  private static void refuseLastManager(Access by, Member leaving, Role newRole) {
    boolean managesNow = manages(leaving.role());
    boolean managesThen = newRole != null && manages(newRole);
    boolean others =
        by.people().members().stream()
            .anyMatch(m -> !m.id().equals(leaving.id()) && manages(m.role()));
    boolean creatorOnly = !managesNow && by.people().mayOf(leaving).contains(Act.MANAGE_PEOPLE);
    if ((managesNow && !managesThen && !others) || (creatorOnly && newRole == null)) {
      throw new ProblemException(
          Problem.WRONG_STATE,
          "Somebody has to be able to look after the people. Name another engineer or manager first.");
    }
  }

  private static boolean manages(Role role) {
    return role == Role.ENGINEER || role == Role.MANAGER;
  }

  private void tell(Member member, Person by, String act, String detail) {
    changed.fire(new PeopleChanged(member.project().id(), by.id(), act, member.id(), detail));
  }
}
