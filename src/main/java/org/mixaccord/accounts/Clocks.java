package org.mixaccord.accounts;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.inject.Produces;
import java.time.Clock;

/** The clock everything asks, so that tests can set it. */
@ApplicationScoped
public class Clocks {
  @Produces
  @ApplicationScoped
  Clock clock() {
    return Clock.systemUTC();
  }
}
