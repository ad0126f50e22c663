package org.mixaccord.acceptance;

import io.quarkus.narayana.jta.QuarkusTransaction;
import jakarta.enterprise.inject.spi.CDI;
import org.mixaccord.accounts.Person;
import org.mixaccord.accounts.SignIn;

/** The server's owner in tests, made once a run. */
final class Owner {
  static final String EMAIL = "owner@example.org";
  static final String PASSWORD = "quiet harbour wall";

  private Owner() {}

  static synchronized Api signedIn() {
    QuarkusTransaction.requiringNew()
        .run(
            () -> {
              if (Person.withEmail(EMAIL).isEmpty()) {
                CDI.current().select(SignIn.class).get().makeOwner("Owner", EMAIL, PASSWORD);
              }
            });
    return Api.signIn(EMAIL, PASSWORD);
  }
}
