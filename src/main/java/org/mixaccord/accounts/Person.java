package org.mixaccord.accounts;

import io.quarkus.elytron.security.common.BcryptUtil;
import io.quarkus.hibernate.orm.panache.PanacheEntityBase;
import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.Id;
import jakarta.persistence.Version;
import java.time.Instant;
import java.util.Locale;
import java.util.Optional;
import org.mixaccord.problem.Problem;
import org.mixaccord.problem.ProblemException;

/** Somebody who can sign in: by password, by a link, or by the cookie an invitation gave them. */
@Entity
public class Person extends PanacheEntityBase {
  /** Shorter passwords are refused; bcrypt reads no more than 72 bytes. */
  static final int MIN_PASSWORD = 10;

  static final int MAX_PASSWORD_BYTES = 72;

  @Id private String id;
  @Version private int version;
  private String name;
  private String email;

  @Column(name = "email_confirmed")
  private boolean emailConfirmed;

  @Column(name = "password_hash")
  private String passwordHash;

  private boolean owner;

  @Column(name = "created_at")
  private Instant createdAt;

  protected Person() {}

  /** A new person; address and password may come later. */
  public static Person named(String name, String email, boolean owner, Instant now) {
    Person person = new Person();
    person.id = Ids.fresh();
    person.name = Texts.line("name", name, 120);
    person.email = email == null ? null : address(email);
    person.owner = owner;
    person.createdAt = now;
    person.persist();
    return person;
  }

  /** The person with that address, however it is capitalised. */
  public static Optional<Person> withEmail(String email) {
    return find("email", email.strip().toLowerCase(Locale.ROOT)).firstResultOptional();
  }

  /** An address in the form it is kept in, or the problem {@code invalid}. */
  public static String address(String email) {
    String clean = Texts.line("email", email, 254).toLowerCase(Locale.ROOT);
    if (!clean.matches("[^@\\s]+@[^@\\s]+")) {
      throw new ProblemException(Problem.INVALID, "“" + clean + "” is not a mail address.");
    }
    return clean;
  }

  /** Sets a password of at least ten characters. */
  public void choosePassword(String password) {
    if (password.length() < MIN_PASSWORD) {
      throw new ProblemException(
          Problem.INVALID, "A password needs at least " + MIN_PASSWORD + " characters.");
    }
    if (password.getBytes(java.nio.charset.StandardCharsets.UTF_8).length > MAX_PASSWORD_BYTES) {
      throw new ProblemException(
          Problem.INVALID, "A password may be at most " + MAX_PASSWORD_BYTES + " bytes long.");
    }
    passwordHash = BcryptUtil.bcryptHash(password);
  }

  /** Whether the password is this person's; costs the same when they have none. */
  public boolean knowsPassword(String password) {
    return BcryptUtil.matches(password, passwordHash == null ? NO_PASSWORD : passwordHash)
        && passwordHash != null;
  }

  /** A hash nothing is known to match, so that a missing password cannot be told by time. */
  static final String NO_PASSWORD = BcryptUtil.bcryptHash(Ids.secret());

  /** The mail that was sent to the address has been answered. */
  public void confirmEmail() {
    emailConfirmed = true;
  }

  /** Changes the name shown. */
  public void rename(String newName) {
    name = Texts.line("name", newName, 120);
  }

  /** Gives the person an address; refused when another account has it. */
  public void takeEmail(String newEmail) {
    String clean = address(newEmail);
    if (withEmail(clean).filter(other -> !other.id.equals(id)).isPresent()) {
      throw new ProblemException(
          Problem.SIGN_IN_FIRST, "There is an account with that address. Sign in to it first.");
    }
    if (!clean.equals(email)) {
      email = clean;
      emailConfirmed = false;
    }
  }

  public String id() {
    return id;
  }

  public String name() {
    return name;
  }

  public Optional<String> email() {
    return Optional.ofNullable(email);
  }

  public boolean emailConfirmed() {
    return emailConfirmed;
  }

  public boolean hasPassword() {
    return passwordHash != null;
  }

  /** True once the server's owner has been made. */
  static boolean ownerExists() {
    return count("owner") > 0;
  }

  public boolean owner() {
    return owner;
  }
}
