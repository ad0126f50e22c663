package org.mixaccord.api.v1.security;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.ws.rs.core.NewCookie;
import org.mixaccord.accounts.AccountsConfig;
import org.mixaccord.accounts.WebSession;

/** The cookie a signed-in browser carries. */
@ApplicationScoped
public class SessionCookie {
  /** Its name. */
  public static final String NAME = "mixaccord_session";

  private final boolean secure;

  SessionCookie(AccountsConfig config) {
    secure = config.publicUrl().filter(url -> url.startsWith("https:")).isPresent();
  }

  /** The cookie for a session's secret. */
  public NewCookie carrying(String secret) {
    return cookie(secret, (int) WebSession.IDLE.toSeconds());
  }

  /** A cookie that takes the place of the one a browser has, and is gone at once. */
  public NewCookie gone() {
    return cookie("", 0);
  }

  private NewCookie cookie(String value, int seconds) {
    return new NewCookie.Builder(NAME)
        .value(value)
        .path("/")
        .maxAge(seconds)
        .httpOnly(true)
        .secure(secure)
        .sameSite(NewCookie.SameSite.LAX)
        .build();
  }
}
