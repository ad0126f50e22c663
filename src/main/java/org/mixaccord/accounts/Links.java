package org.mixaccord.accounts;

import jakarta.enterprise.context.ApplicationScoped;
import org.eclipse.microprofile.config.inject.ConfigProperty;

/** Builds the links people are given. */
@ApplicationScoped
public class Links {
  private final AccountsConfig config;
  private final int port;

  Links(
      AccountsConfig config,
      @ConfigProperty(name = "quarkus.http.port", defaultValue = "8080") int port) {
    this.config = config;
    this.port = port;
  }

  /** The address of the server without a slash at its end. */
  public String base() {
    return config
        .publicUrl()
        .map(url -> url.endsWith("/") ? url.substring(0, url.length() - 1) : url)
        .orElse("http://localhost:" + port);
  }

  /** Whether links work from other computers. */
  public boolean reachable() {
    return config.publicUrl().isPresent();
  }

  public String invitation(String secret) {
    return base() + "/join/" + secret;
  }

  public String signIn(String secret) {
    return base() + "/in/" + secret;
  }

  public String setUp(String secret) {
    return base() + "/setup/" + secret;
  }

  public String song(String songId) {
    return base() + "/songs/" + songId;
  }
}
