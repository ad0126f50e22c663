package org.mixaccord;

import io.quarkus.test.common.QuarkusTestResourceLifecycleManager;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import org.mixaccord.server.LocalPostgres;
import org.mixaccord.server.LocalPostgres.Durability;

/**
 * A real PostgreSQL for {@code @QuarkusTest}: the server is kept below target/ between runs, the
 * database and the data folder are fresh in each.
 */
public class PostgresForTests implements QuarkusTestResourceLifecycleManager {
  private static final String PREFIX = "test_";
  private LocalPostgres postgres;

  @Override
  public Map<String, String> start() {
    postgres = LocalPostgres.start(Path.of("target", "test-db"), Durability.NONE);
    String name = PREFIX + Long.toString(System.nanoTime(), 36);
    Path data = Path.of("target", "test-data", name).toAbsolutePath();
    try (var connection =
            DriverManager.getConnection(postgres.jdbcUrl(), postgres.user(), postgres.password());
        var statement = connection.createStatement()) {
      if (postgres.isOwner()) {
        deleteTree(data.getParent());
        List<String> old = new ArrayList<>();
        try (var rows =
            statement.executeQuery(
                "select datname from pg_database where datname like '" + PREFIX + "%'")) {
          while (rows.next()) {
            old.add(rows.getString(1));
          }
        }
        for (String database : old) {
          statement.execute("drop database " + database + " with (force)");
        }
      }
      statement.execute("create database " + name);
      Files.createDirectories(data);
    } catch (SQLException e) {
      throw new IllegalStateException(e);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return Map.of(
        "quarkus.datasource.jdbc.url", postgres.jdbcUrl(name),
        "quarkus.datasource.username", postgres.user(),
        "quarkus.datasource.password", postgres.password(),
        "mixaccord.data-dir", data.toString());
  }

  @Override
  public void stop() {
    if (postgres != null) {
      postgres.close();
    }
  }

  private static void deleteTree(Path root) throws IOException {
    if (!Files.exists(root)) {
      return;
    }
    try (var all = Files.walk(root)) {
      for (Path path : all.sorted(Comparator.reverseOrder()).toList()) {
        Files.delete(path);
      }
    }
  }
}
