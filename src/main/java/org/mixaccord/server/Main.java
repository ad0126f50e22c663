package org.mixaccord.server;

import io.quarkus.runtime.Quarkus;
import io.quarkus.runtime.annotations.QuarkusMain;
import java.nio.file.Path;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;

/** Starts Mixaccord, with a database of its own unless an outside one is named. */
@QuarkusMain
public final class Main {
  private static final String JDBC_URL = "quarkus.datasource.jdbc.url";

  private Main() {}

  public static void main(String... args) {
    CountDownLatch applicationStopped = new CountDownLatch(1);
    if (setting(JDBC_URL, "").isEmpty()) {
      try {
        startDatabase(applicationStopped);
      } catch (DatabaseUnavailable e) {
        System.err.println("Mixaccord cannot start. " + e.getMessage() + ".");
        System.exit(1);
      }
    }
    Quarkus.run(
        null,
        (code, error) -> {
          applicationStopped.countDown();
          if (error != null) {
            System.err.println("Mixaccord has stopped: " + error);
            error.printStackTrace();
          }
          // Without this the hook below would wait its 30 s after a failed start.
          System.exit(code);
        },
        args);
  }

  private static void startDatabase(CountDownLatch applicationStopped) {
    Path home = Path.of(setting("mixaccord.data-dir", "data")).resolve("database");
    LocalPostgres postgres = LocalPostgres.start(home, LocalPostgres.Durability.REAL);
    if (!postgres.isOwner()) {
      throw new DatabaseUnavailable(
          "Another Mixaccord is already running with the data folder "
              + home.toAbsolutePath().normalize().getParent());
    }
    System.setProperty(JDBC_URL, postgres.jdbcUrl());
    System.setProperty("quarkus.datasource.username", postgres.user());
    System.setProperty("quarkus.datasource.password", postgres.password());
    // Shutdown hooks run side by side: this one lets the application finish with the database
    // first.
    Thread hook =
        new Thread(
            () -> {
              try {
                applicationStopped.await(30, TimeUnit.SECONDS);
              } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
              }
              postgres.close();
            },
            "stop-database");
    Runtime.getRuntime().addShutdownHook(hook);
  }

  /** A setting needed before the configuration exists: system property, then environment. */
  private static String setting(String key, String otherwise) {
    String property = System.getProperty(key);
    if (property != null) {
      return property;
    }
    String variable =
        System.getenv(key.replace('.', '_').replace('-', '_').toUpperCase(java.util.Locale.ROOT));
    return variable == null || variable.isBlank() ? otherwise : variable;
  }
}
