package org.mixaccord.api.v1.security;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Duration;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.mixaccord.accounts.AccountsConfig;

/** What hangs on the address a server is published at. */
class PublicAddressTest {
  private static final int PORT = 8080;

  private record At(Optional<String> publicUrl) implements AccountsConfig {
    @Override
    public Optional<String> ownerEmail() {
      return Optional.empty();
    }

    @Override
    public Optional<String> ownerPassword() {
      return Optional.empty();
    }

    @Override
    public int signInTries() {
      return 8;
    }

    @Override
    public Duration signInWindow() {
      return Duration.ofMinutes(15);
    }
  }

  private static AccountsConfig at(String url) {
    return new At(Optional.ofNullable(url));
  }

  @Test
  void theCookieIsSecureWherePeopleComeByHttps() {
    assertTrue(new SessionCookie(at("https://mix.example")).carrying("s").isSecure());
    assertTrue(new SessionCookie(at("https://mix.example")).gone().isSecure());
    assertFalse(new SessionCookie(at("http://mix.example")).carrying("s").isSecure());
    assertFalse(new SessionCookie(at(null)).carrying("s").isSecure());
    assertEquals(0, new SessionCookie(at(null)).gone().getMaxAge());
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "https://mix.example",
        "https://MIX.example:443",
        "http://localhost:8080",
        "http://127.0.0.1:8080",
        "http://[::1]:8080"
      })
  void theseAreOurs(String origin) {
    assertTrue(new Origins(at("https://mix.example/")).ours(origin, PORT));
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "http://mix.example",
        "https://mix.example:8443",
        "https://mix.example.elsewhere.example",
        "https://other.example",
        "https://mix.example@elsewhere.example",
        "http://localhost:8081",
        "http://localhost.elsewhere.example:8080",
        "null",
        "",
        "file:///etc",
        "not an address"
      })
  void theseAreNot(String origin) {
    assertFalse(new Origins(at("https://mix.example/")).ours(origin, PORT));
  }
}
