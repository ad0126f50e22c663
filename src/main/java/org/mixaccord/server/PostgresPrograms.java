package org.mixaccord.server;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.attribute.PosixFilePermissions;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.Comparator;
import java.util.HexFormat;
import java.util.stream.Stream;
import org.apache.commons.compress.archivers.tar.TarArchiveEntry;
import org.apache.commons.compress.archivers.tar.TarArchiveInputStream;
import org.apache.commons.compress.compressors.xz.XZCompressorInputStream;

/** The PostgreSQL programs of the class path, unpacked once below the data folder. */
record PostgresPrograms(Path folder) {
  private static final String ARCHIVE = "/postgres-linux-x86_64.txz";

  /** Unpacks beside and renames: a killed start leaves nothing that looks complete. */
  static PostgresPrograms unpack(Path home) throws IOException {
    byte[] archive = archive();
    Path folder = home.resolve("programs-" + fingerprint(archive));
    if (!Files.isDirectory(folder)) {
      Path halfDone = home.resolve("programs.new");
      deleteTree(halfDone);
      Files.createDirectories(halfDone);
      try (TarArchiveInputStream tar =
          new TarArchiveInputStream(
              new XZCompressorInputStream(new ByteArrayInputStream(archive), true))) {
        for (TarArchiveEntry e = tar.getNextEntry(); e != null; e = tar.getNextEntry()) {
          unpack(tar, e, halfDone);
        }
      }
      Files.move(halfDone, folder, StandardCopyOption.ATOMIC_MOVE);
    }
    return new PostgresPrograms(folder);
  }

  String program(String name) {
    return folder.resolve("bin").resolve(name).toString();
  }

  /** The major version, as in the file PG_VERSION of a cluster. */
  String majorVersion() throws IOException {
    Command.Result said = Command.of(java.util.List.of(), program("postgres"), "-V").run(20);
    if (!said.ok()) {
      throw new DatabaseUnavailable(
          "The database program does not start on this machine: " + said.output());
    }
    return said.output().replaceFirst("^\\D*(\\d+).*$", "$1");
  }

  private static byte[] archive() throws IOException {
    String system = System.getProperty("os.name") + " " + System.getProperty("os.arch");
    try (InputStream in = PostgresPrograms.class.getResourceAsStream(ARCHIVE)) {
      if (in == null || !system.equals("Linux amd64")) {
        throw new DatabaseUnavailable(
            "The database that comes with Mixaccord runs on Linux x86-64; this is "
                + system
                + ". Name a PostgreSQL of your own with QUARKUS_DATASOURCE_JDBC_URL,"
                + " QUARKUS_DATASOURCE_USERNAME and QUARKUS_DATASOURCE_PASSWORD");
      }
      return in.readAllBytes();
    }
  }

  private static void unpack(TarArchiveInputStream tar, TarArchiveEntry entry, Path into)
      throws IOException {
    Path target = into.resolve(entry.getName()).normalize();
    if (!target.startsWith(into)) {
      throw new IOException("the archive reaches outside its folder: " + entry.getName());
    }
    if (entry.isDirectory()) {
      Files.createDirectories(target);
      return;
    }
    Files.createDirectories(target.getParent());
    if (entry.isSymbolicLink()) {
      Files.createSymbolicLink(target, Path.of(entry.getLinkName()));
      return;
    }
    Files.copy(tar, target);
    boolean program = (entry.getMode() & 0100) != 0;
    Files.setPosixFilePermissions(
        target, PosixFilePermissions.fromString(program ? "rwxr-xr-x" : "rw-r--r--"));
  }

  private static String fingerprint(byte[] bytes) {
    try {
      byte[] hash = MessageDigest.getInstance("SHA-256").digest(bytes);
      return HexFormat.of().formatHex(hash, 0, 6);
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException(e);
    }
  }

  static void deleteTree(Path root) throws IOException {
    if (!Files.exists(root)) {
      return;
    }
    try (Stream<Path> all = Files.walk(root)) {
      for (Path path : all.sorted(Comparator.reverseOrder()).toList()) {
        Files.delete(path);
      }
    }
  }
}
