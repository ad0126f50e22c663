package org.mixaccord.server;

import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.nio.channels.FileChannel;
import java.nio.channels.OverlappingFileLockException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.PosixFilePermissions;
import java.security.SecureRandom;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.util.HexFormat;
import java.util.List;
import java.util.Optional;

/**
 * The PostgreSQL that comes with Mixaccord: its files live in one folder, it listens on loopback
 * only, and it survives the end of the JVM that started it, however that came about.
 *
 * <p>A lock file names the JVM that may stop the database. The next start after a {@code kill -9}
 * either takes over the server that is still running or starts it again and lets it recover.
 */
public final class LocalPostgres implements AutoCloseable {
  private static final String USER = "mixaccord";
  private static final int ATTEMPTS = 4;

  /** What a commit is worth. */
  public enum Durability {
    /** A commit is on the disk before it is answered, and pages are checked when read. */
    REAL(
        List.of("-c fsync=on", "-c synchronous_commit=on", "-c full_page_writes=on"),
        "--data-checksums"),
    /** For tests: faster, and a power cut may cost the whole database. */
    NONE(List.of("-c fsync=off", "-c synchronous_commit=off"), "--no-sync");

    private final List<String> settings;
    private final String initOption;

    Durability(List<String> settings, String initOption) {
      this.settings = settings;
      this.initOption = initOption;
    }
  }

  private final Path home;
  private final PostgresPrograms programs;
  private final Unprivileged user;
  private final Durability durability;
  private final Optional<FileChannel> lock;
  private int port;
  private String password = "";

  private LocalPostgres(
      Path home,
      PostgresPrograms programs,
      Unprivileged user,
      Durability durability,
      Optional<FileChannel> lock) {
    this.home = home;
    this.programs = programs;
    this.user = user;
    this.durability = durability;
    this.lock = lock;
  }

  /**
   * Starts the database in this folder, making it if need be, or takes over the one that runs.
   *
   * @throws DatabaseUnavailable in words for the operator, if it cannot run here
   */
  public static LocalPostgres start(Path folder, Durability durability) {
    Path home = folder.toAbsolutePath().normalize();
    Optional<FileChannel> lock = Optional.empty();
    try {
      Files.createDirectories(home);
      lock = lock(home.resolve("lock"));
      Unprivileged user = Unprivileged.here();
      user.mustReach(home);
      LocalPostgres postgres =
          new LocalPostgres(home, PostgresPrograms.unpack(home), user, durability, lock);
      postgres.start();
      return postgres;
    } catch (IOException e) {
      release(lock);
      throw new DatabaseUnavailable(
          "The database in " + home + " could not be started: " + e.getMessage(), e);
    } catch (RuntimeException e) {
      release(lock);
      throw e;
    }
  }

  /** Address of the database all of Mixaccord lives in. */
  public String jdbcUrl() {
    return jdbcUrl("postgres");
  }

  /** Address of one database of this server. */
  public String jdbcUrl(String database) {
    return "jdbc:postgresql://127.0.0.1:" + port + "/" + database;
  }

  public String user() {
    return USER;
  }

  public String password() {
    return password;
  }

  /** False if another JVM started this server and will stop it. */
  public boolean isOwner() {
    return lock.isPresent() && lock.get().isOpen();
  }

  /** Stops the database, if this JVM is its owner and it still runs. */
  @Override
  public void close() {
    if (!isOwner()) {
      return;
    }
    try {
      if (running().isEmpty()) {
        return;
      }
      user.command(
              programs.program("pg_ctl"),
              "-D",
              cluster().toString(),
              "-w",
              "-t",
              "60",
              "-m",
              "fast",
              "stop")
          .must(90);
    } catch (IOException e) {
      throw new DatabaseUnavailable("The database did not stop: " + e.getMessage(), e);
    } finally {
      release(lock);
    }
  }

  /** Process id of the server, if one is running for this folder. */
  Optional<Long> serverPid() throws IOException {
    return running().map(Running::pid);
  }

  private Path cluster() {
    return home.resolve("cluster");
  }

  private void start() throws IOException {
    if (lock.isPresent()) {
      prepareCluster();
    }
    password = readPassword();
    Optional<Running> running = running();
    if (running.isPresent()) {
      port = running.get().port();
      awaitAnswer();
      return;
    }
    if (lock.isEmpty()) {
      throw new DatabaseUnavailable(
          "Another Mixaccord is starting or stopping with the data folder " + home.getParent());
    }
    // Left by a killed server, and its number may by now belong to some other process.
    Files.deleteIfExists(cluster().resolve("postmaster.pid"));
    launch();
  }

  private void prepareCluster() throws IOException {
    Path secret = home.resolve("secret");
    user.own(programs.folder());
    if (Files.exists(cluster().resolve("PG_VERSION"))) {
      String written = Files.readString(cluster().resolve("PG_VERSION")).strip();
      String ours = programs.majorVersion();
      if (!written.equals(ours)) {
        throw new DatabaseUnavailable(
            "The database files in "
                + home
                + " were written by PostgreSQL "
                + written
                + " and this release brings "
                + ours
                + ". Start the release that wrote them; docs/operations.md says how to move on");
      }
      user.own(cluster());
      user.own(secret);
      return;
    }
    byte[] random = new byte[24];
    new SecureRandom().nextBytes(random);
    Files.deleteIfExists(secret);
    Files.createFile(
        secret, PosixFilePermissions.asFileAttribute(PosixFilePermissions.fromString("rw-------")));
    Files.writeString(secret, HexFormat.of().formatHex(random));
    Path halfDone = home.resolve("cluster.new");
    PostgresPrograms.deleteTree(halfDone);
    Files.createDirectory(halfDone);
    user.own(halfDone);
    user.own(secret);
    user.command(
            programs.program("initdb"),
            "-D",
            halfDone.toString(),
            "-U",
            USER,
            "-A",
            "scram-sha-256",
            "--pwfile=" + secret,
            "-E",
            "UTF8",
            "--locale=C.UTF-8",
            durability.initOption)
        .must(180);
    Files.move(halfDone, cluster(), StandardCopyOption.ATOMIC_MOVE);
  }

  private String readPassword() throws IOException {
    try {
      return Files.readString(home.resolve("secret")).strip();
    } catch (NoSuchFileException e) {
      throw new DatabaseUnavailable("The password of the database is missing: " + e.getFile(), e);
    }
  }

  private void launch() throws IOException {
    IOException last = null;
    for (int attempt = 1; attempt <= ATTEMPTS; attempt++) {
      port = freePort();
      try {
        user.command(
                programs.program("pg_ctl"),
                "-D",
                cluster().toString(),
                "-w",
                "-t",
                "120",
                "-l",
                cluster().resolve("start.log").toString(),
                "-o",
                options(),
                "start")
            .must(150);
        awaitAnswer();
        return;
      } catch (IOException e) {
        last = e;
        stopQuietly();
        // A killed server's children may still be on their way out, or the port was just taken.
        pause(1000L * attempt);
      }
    }
    throw new IOException(
        last.getMessage() + " " + lastLines(cluster().resolve("start.log")), last);
  }

  private String options() {
    return String.join(
        " ",
        "-p " + port,
        "-c listen_addresses=127.0.0.1",
        "-c unix_socket_directories=",
        String.join(" ", durability.settings),
        "-c logging_collector=on -c log_directory=log -c log_filename=%a.log",
        "-c log_truncate_on_rotation=on -c log_rotation_age=1440");
  }

  private record Running(long pid, int port) {}

  /** The server that runs for this folder: believed only if that process really is one. */
  private Optional<Running> running() throws IOException {
    List<String> lines;
    try {
      lines = Files.readAllLines(cluster().resolve("postmaster.pid"));
      if (lines.size() < 4) {
        return Optional.empty();
      }
      String command =
          Files.readString(
              Path.of("/proc", lines.get(0).strip(), "cmdline"), StandardCharsets.ISO_8859_1);
      if (!command.contains("postgres") || !lines.get(1).strip().equals(cluster().toString())) {
        return Optional.empty();
      }
    } catch (NoSuchFileException e) {
      return Optional.empty();
    }
    return Optional.of(
        new Running(Long.parseLong(lines.get(0).strip()), Integer.parseInt(lines.get(3).strip())));
  }

  private void awaitAnswer() throws IOException {
    long until = System.nanoTime() + 60_000_000_000L;
    while (true) {
      try (var connection = DriverManager.getConnection(jdbcUrl(), USER, password)) {
        if (connection.isValid(10)) {
          return;
        }
      } catch (SQLException e) {
        if (System.nanoTime() > until) {
          throw new IOException("the database does not answer: " + e.getMessage(), e);
        }
      }
      pause(100);
    }
  }

  private void stopQuietly() {
    try {
      user.command(
              programs.program("pg_ctl"),
              "-D",
              cluster().toString(),
              "-w",
              "-t",
              "20",
              "-m",
              "immediate",
              "stop")
          .run(30);
    } catch (IOException e) {
      // The failed start is what gets reported.
    }
  }

  private static Optional<FileChannel> lock(Path file) throws IOException {
    FileChannel channel =
        FileChannel.open(file, StandardOpenOption.CREATE, StandardOpenOption.WRITE);
    try {
      if (channel.tryLock() != null) {
        return Optional.of(channel);
      }
    } catch (OverlappingFileLockException e) {
      // Held by another class loader of this JVM: the same as by another JVM.
    }
    channel.close();
    return Optional.empty();
  }

  private static void release(Optional<FileChannel> lock) {
    if (lock.isPresent()) {
      try {
        lock.get().close();
      } catch (IOException e) {
        // The lock ends with this JVM at the latest.
      }
    }
  }

  private static String lastLines(Path log) throws IOException {
    if (!Files.exists(log)) {
      return "";
    }
    List<String> lines = Files.readAllLines(log);
    return String.join(" | ", lines.subList(Math.max(0, lines.size() - 5), lines.size()));
  }

  private static int freePort() throws IOException {
    try (ServerSocket socket = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
      return socket.getLocalPort();
    }
  }

  private static void pause(long millis) throws IOException {
    try {
      Thread.sleep(millis);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IOException("interrupted while the database was starting", e);
    }
  }
}
