package org.mixaccord.accounts;

import io.quarkus.hibernate.orm.panache.PanacheEntityBase;
import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.FetchType;
import jakarta.persistence.Id;
import jakarta.persistence.JoinColumn;
import jakarta.persistence.ManyToOne;
import jakarta.persistence.Table;
import java.time.Instant;
import java.util.List;
import java.util.Optional;

/** A person's key for scripts, shown once and sent as a bearer token. */
@Entity
@Table(name = "access_token")
public class AccessToken extends PanacheEntityBase {
  @Id private String id;

  @Column(name = "token_hash")
  private String tokenHash;

  @ManyToOne(fetch = FetchType.LAZY)
  @JoinColumn(name = "person")
  private Person person;

  private String name;

  @Column(name = "created_at")
  private Instant createdAt;

  protected AccessToken() {}

  /** Makes a token; the secret is not kept. */
  public static AccessToken make(Person person, String name, String secret, Instant now) {
    AccessToken token = new AccessToken();
    token.id = Ids.fresh();
    token.tokenHash = Hashes.sha256(secret);
    token.person = person;
    token.name = Texts.line("name", name, 120);
    token.createdAt = now;
    token.persist();
    return token;
  }

  static Optional<AccessToken> withSecret(String secret) {
    return find("tokenHash", Hashes.sha256(secret)).firstResultOptional();
  }

  /** A person's tokens, oldest first. */
  public static List<AccessToken> of(Person person) {
    return list("person = ?1 order by createdAt, id", person);
  }

  public String id() {
    return id;
  }

  public Person person() {
    return person;
  }

  public String name() {
    return name;
  }

  public Instant createdAt() {
    return createdAt;
  }
}
