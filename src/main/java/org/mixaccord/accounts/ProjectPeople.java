package org.mixaccord.accounts;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/** The active people of one project, and what follows from who is there. */
public final class ProjectPeople {
  private final Project project;
  private final List<Member> members;

  private ProjectPeople(Project project, List<Member> members) {
    this.project = project;
    this.members = members;
  }

  public static ProjectPeople of(Project project) {
    return new ProjectPeople(project, Member.of(project));
  }

  /** The active members, in the order they joined. */
  public List<Member> members() {
    return members;
  }

  /** The member with that id, if active. */
  public Optional<Member> member(String memberId) {
    return members.stream().filter(m -> m.id().equals(memberId)).findFirst();
  }

  /** The active membership of a person. */
  public Optional<Member> ofPerson(String personId) {
    return members.stream().filter(m -> m.person().id().equals(personId)).findFirst();
  }

  /**
   * Who settles contradictions: the person named, else the first artist, else the manager, else the
   * engineer. Empty only when the project has no such member.
   */
  public Optional<Member> lastWord() {
    return members.stream()
        .filter(Member::namedLastWord)
        .findFirst()
        .or(() -> first(Role.ARTIST))
        .or(() -> first(Role.MANAGER))
        .or(() -> first(Role.ENGINEER));
  }

  /**
   * Whose approval a bounce needs: those named; else the only other person who is no listener; else
   * the managers; else the last word. Never the person who uploaded it.
   *
   * @param uploaderId the person who uploaded the bounce
   */
  public List<Member> approversOf(String uploaderId) {
    List<Member> asked = new ArrayList<>(members.stream().filter(Member::namedApprover).toList());
    if (asked.isEmpty()) {
      List<Member> others =
          members.stream()
              .filter(m -> m.role() != Role.LISTENER && !m.person().id().equals(uploaderId))
              .toList();
      if (others.size() == 1) {
        asked.addAll(others);
      }
    }
    if (asked.isEmpty()) {
      asked.addAll(members.stream().filter(m -> m.role() == Role.MANAGER).toList());
    }
    if (asked.isEmpty()) {
      lastWord().ifPresent(asked::add);
    }
    asked.removeIf(m -> m.person().id().equals(uploaderId));
    return asked;
  }

  /** Everything a member may do here, see {@link Rights}. */
  public Set<Act> mayOf(Member member) {
    boolean hasLastWord = lastWord().filter(m -> m.id().equals(member.id())).isPresent();
    boolean managed =
        members.stream().anyMatch(m -> m.role() == Role.ENGINEER || m.role() == Role.MANAGER);
    boolean managesForNow = !managed && member.person().id().equals(project.createdBy().id());
    boolean asked =
        member.namedApprover()
            || members.stream()
                .map(m -> m.person().id())
                .filter(id -> !id.equals(member.person().id()))
                .anyMatch(
                    uploader ->
                        approversOf(uploader).stream().anyMatch(a -> a.id().equals(member.id())));
    return Rights.of(
        member.role(),
        member.mayWrite(),
        hasLastWord,
        asked,
        managesForNow,
        new Rights.Switches(project.downloads(), project.metersOpen()));
  }

  private Optional<Member> first(Role role) {
    return members.stream().filter(m -> m.role() == role).findFirst();
  }
}
