package org.mixaccord.server;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.File;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.sql.DriverManager;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.mixaccord.server.LocalPostgres.Durability;

class LocalPostgresTest {
  private final Path home = Path.of("target", "local-postgres-test").toAbsolutePath();

  @BeforeEach
  @AfterEach
  void cleanFolder() throws Exception {
    PostgresPrograms.deleteTree(home);
  }

  /** Started by the test in a JVM of its own, which then dies without a word. */
  public static void main(String[] args) throws Exception {
    LocalPostgres postgres = LocalPostgres.start(Path.of(args[0]), Durability.REAL);
    sql(postgres, "create table kept(x int)");
    sql(postgres, "insert into kept values (1)");
    Runtime.getRuntime().halt(137);
  }

  @Test
  void outlivesTheJvmThatStartedItAndRecoversAfterItsOwnDeath() throws Exception {
    Process child =
        new ProcessBuilder(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-cp",
                System.getProperty("java.class.path"),
                LocalPostgresTest.class.getName(),
                home.toString())
            .redirectErrorStream(true)
            .redirectOutput(new File("target/local-postgres-child.log"))
            .start();
    assertTrue(child.waitFor(180, TimeUnit.SECONDS));
    assertEquals(137, child.exitValue());

    long pid;
    try (LocalPostgres taken = LocalPostgres.start(home, Durability.REAL)) {
      assertTrue(taken.isOwner());
      assertEquals("1", value(taken, "select count(*) from kept"));
      assertEquals("on", value(taken, "show fsync"));
      assertEquals("on", value(taken, "show synchronous_commit"));
      assertEquals("on", value(taken, "show full_page_writes"));
      assertEquals("on", value(taken, "show data_checksums"));
      assertEquals("127.0.0.1", value(taken, "show listen_addresses"));
      assertEquals("", value(taken, "show unix_socket_directories"));
      try (LocalPostgres second = LocalPostgres.start(home, Durability.REAL)) {
        assertFalse(second.isOwner());
        assertEquals(taken.jdbcUrl(), second.jdbcUrl());
      }
      assertEquals("1", value(taken, "select count(*) from kept"));
      sql(taken, "insert into kept values (2)");
      pid = taken.serverPid().orElseThrow();
      ProcessHandle server = ProcessHandle.of(pid).orElseThrow();
      server.destroyForcibly();
      server.onExit().get(20, TimeUnit.SECONDS);
    }

    LocalPostgres again = LocalPostgres.start(home, Durability.REAL);
    assertEquals("2", value(again, "select count(*) from kept"));
    assertFalse(again.serverPid().orElseThrow() == pid);
    again.close();
    assertTrue(again.serverPid().isEmpty());
  }

  @Test
  void aStaleProcessNumberIsNotTakenForTheServer() throws Exception {
    LocalPostgres.start(home, Durability.NONE).close();
    // After a reboot the number in the file may belong to anybody: here to this very test.
    Files.writeString(
        home.resolve("cluster/postmaster.pid"),
        ProcessHandle.current().pid()
            + "\n"
            + home.resolve("cluster")
            + "\n0\n5432\n\n127.0.0.1\n");
    try (LocalPostgres postgres = LocalPostgres.start(home, Durability.NONE)) {
      assertEquals("1", value(postgres, "select 1"));
    }
  }

  @Test
  void theDatabaseIsNotOpenWithoutItsPasswordAndTheFileIsPrivate() throws Exception {
    try (LocalPostgres postgres = LocalPostgres.start(home, Durability.NONE)) {
      var refused =
          assertThrows(
              java.sql.SQLException.class,
              () -> DriverManager.getConnection(postgres.jdbcUrl(), postgres.user(), "guess"));
      assertEquals("28P01", refused.getSQLState());
      assertEquals(
          "rw-------",
          PosixFilePermissions.toString(Files.getPosixFilePermissions(home.resolve("secret"))));
    }
  }

  @Test
  void filesOfAnotherPostgresAreRefusedInWords() throws Exception {
    LocalPostgres.start(home, Durability.NONE).close();
    Files.writeString(home.resolve("cluster/PG_VERSION"), "12\n");
    var refused =
        assertThrows(DatabaseUnavailable.class, () -> LocalPostgres.start(home, Durability.NONE));
    assertTrue(refused.getMessage().contains("written by PostgreSQL 12"), refused.getMessage());
  }

  private static void sql(LocalPostgres postgres, String text) throws Exception {
    try (var connection =
            DriverManager.getConnection(postgres.jdbcUrl(), postgres.user(), postgres.password());
        var statement = connection.createStatement()) {
      statement.execute(text);
    }
  }

  private static String value(LocalPostgres postgres, String query) throws Exception {
    try (var connection =
            DriverManager.getConnection(postgres.jdbcUrl(), postgres.user(), postgres.password());
        var statement = connection.createStatement();
        var rows = statement.executeQuery(query)) {
      rows.next();
      return rows.getString(1);
    }
  }
}
