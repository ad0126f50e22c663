package org.mixaccord.api.v1.security;

import jakarta.enterprise.context.ApplicationScoped;
import java.net.URI;
import java.util.Locale;
import java.util.Set;
import org.mixaccord.accounts.AccountsConfig;

/** Which web origins are this server's own. */
@ApplicationScoped
public class Origins {
  private static final Set<String> THIS_COMPUTER = Set.of("localhost", "127.0.0.1", "[::1]");

  private final AccountsConfig config;

  Origins(AccountsConfig config) {
    this.config = config;
  }

  /** Ours is the public address, and this computer's own name on the port we listen on. */
  boolean ours(String origin, int port) {
    URI from;
    try {
      from = URI.create(origin);
    } catch (IllegalArgumentException e) {
      return false;
    }
    if (from.getHost() == null) {
      return false;
    }
    boolean published =
        config
            .publicUrl()
            .map(URI::create)
            .filter(
                url ->
                    url.getScheme().equalsIgnoreCase(from.getScheme())
                        && url.getHost().equalsIgnoreCase(from.getHost())
                        && port(url) == port(from))
            .isPresent();
    boolean loopback =
        THIS_COMPUTER.contains(from.getHost().toLowerCase(Locale.ROOT)) && port(from) == port;
    return published || loopback;
  }

  private static int port(URI uri) {
    if (uri.getPort() >= 0) {
      return uri.getPort();
    }
    return "https".equalsIgnoreCase(uri.getScheme()) ? 443 : 80;
  }
}
