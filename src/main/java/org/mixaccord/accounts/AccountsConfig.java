package org.mixaccord.accounts;

import io.smallrye.config.ConfigMapping;
import io.smallrye.config.WithDefault;
import java.time.Duration;
import java.util.Optional;

/** Settings of accounts and links. */
@ConfigMapping(prefix = "mixaccord")
public interface AccountsConfig {
  /** Address people reach this server at; every link is built from it, never from a request. */
  Optional<String> publicUrl();

  /** Mail address of the owner, made at first start when there is no account yet. */
  Optional<String> ownerEmail();

  /** Password of that owner. */
  Optional<String> ownerPassword();

  /** Failed sign-ins of one address before it has to wait. */
  @WithDefault("8")
  int signInTries();

  /** How long failed sign-ins count. */
  @WithDefault("PT15M")
  Duration signInWindow();
}
