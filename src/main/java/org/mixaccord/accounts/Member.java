package org.mixaccord.accounts;

import io.quarkus.hibernate.orm.panache.PanacheEntityBase;
import jakarta.persistence.Column;
import jakarta.persistence.Convert;
import jakarta.persistence.Entity;
import jakarta.persistence.FetchType;
import jakarta.persistence.Id;
import jakarta.persistence.JoinColumn;
import jakarta.persistence.ManyToOne;
import jakarta.persistence.Version;
import java.time.Instant;
import java.util.List;
import java.util.Optional;

/** A person in a project. Who has left stays on the record, without rights. */
@Entity
public class Member extends PanacheEntityBase {
  @Id private String id;
  @Version private int version;

  @ManyToOne(fetch = FetchType.LAZY)
  @JoinColumn(name = "project")
  private Project project;

  @ManyToOne(fetch = FetchType.LAZY)
  @JoinColumn(name = "person")
  private Person person;

  @Convert(converter = RoleConverter.class)
  private Role role;

  @Column(name = "last_word")
  private boolean lastWord;

  private boolean approver;

  @Column(name = "may_write")
  private boolean mayWrite;

  private String identity;

  @Column(name = "joined_at")
  private Instant joinedAt;

  @Column(name = "left_at")
  private Instant leftAt;

  protected Member() {}

  /**
   * Puts a person into a project.
   *
   * @param identity how they are known: {@code mail-confirmed} or {@code link-from:<person>}
   */
  static Member join(Project project, Person person, Role role, String identity, Instant now) {
    Member member = new Member();
    member.id = Ids.fresh();
    member.project = project;
    member.person = person;
    member.role = role;
    member.mayWrite = role != Role.LISTENER;
    member.identity = identity;
    member.joinedAt = now;
    member.persist();
    return member;
  }

  /** The active members, in the order they joined. */
  public static List<Member> of(Project project) {
    return list(
        "from Member m join fetch m.person where m.project = ?1 and m.leftAt is null"
            + " order by m.joinedAt, m.id",
        project);
  }

  /** The person's active membership of a project. */
  public static Optional<Member> of(String project, String person) {
    return find("project.id = ?1 and person.id = ?2 and leftAt is null", project, person)
        .firstResultOptional();
  }

  /** A person's active memberships. */
  public static List<Member> of(Person person) {
    return list(
        "from Member m join fetch m.project where m.person = ?1 and m.leftAt is null"
            + " order by m.project.createdAt, m.id",
        person);
  }

  void takeRole(Role newRole) {
    role = newRole;
    mayWrite = newRole != Role.LISTENER || mayWrite;
  }

  void giveLastWord(boolean given) {
    lastWord = given;
  }

  void nameApprover(boolean named) {
    approver = named;
  }

  void letWrite(boolean allowed) {
    mayWrite = allowed;
  }

  void leave(Instant now) {
    leftAt = now;
    lastWord = false;
    approver = false;
  }

  public String id() {
    return id;
  }

  public Project project() {
    return project;
  }

  public Person person() {
    return person;
  }

  public Role role() {
    return role;
  }

  /** Named to have the last word; {@link ProjectPeople#lastWord} says who has it. */
  public boolean namedLastWord() {
    return lastWord;
  }

  /** Named as an approver; {@link ProjectPeople#approversOf} says who is asked. */
  public boolean namedApprover() {
    return approver;
  }

  public boolean mayWrite() {
    return mayWrite || role != Role.LISTENER;
  }

  public String identity() {
    return identity;
  }
}
