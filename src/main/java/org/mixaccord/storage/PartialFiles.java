package org.mixaccord.storage;

import jakarta.enterprise.context.ApplicationScoped;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.security.DigestOutputStream;
import java.security.MessageDigest;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;
import org.mixaccord.problem.Problem;
import org.mixaccord.problem.ProblemException;

/**
 * Files that arrive in several pieces; what has been taken survives a power cut. Whoever calls sees
 * to it that nobody else works on the same file meanwhile.
 */
@ApplicationScoped
public class PartialFiles {
  private static final String ENDING = ".part";

  /** The hash of a file's beginning, known while its pieces come one after the other. */
  private record Hashed(MessageDigest digest, long bytes) {}

  private final Path folder;
  private final Room room;
  private final Map<String, Hashed> hashes = new ConcurrentHashMap<>();

  PartialFiles(StorageConfig config, Disk disk) {
    folder = config.dataDir().toAbsolutePath().normalize().resolve("uploads");
    room = new Room(disk, config.storage().reserveBytes());
  }

  /** How many bytes of a file are here. */
  public long bytes(String id) throws IOException {
    Path file = path(id);
    return Files.exists(file) ? Files.size(file) : 0;
  }

  /** Whether that many more bytes fit beside the reserve. */
  public boolean roomFor(long bytes) throws IOException {
    return room.bytes() >= bytes;
  }

  /**
   * Appends what a stream holds. Without a checksum a stream that breaks leaves what came; with one
   * a piece counts whole and right, or not at all. Of a stream longer than it may be nothing stays.
   *
   * @param mostBytes what is still missing of the file
   * @return the bytes of the file that are here now, durably
   * @throws ProblemException {@code checksum-differs}, {@code too-large}, {@code upload-cut}, or
   *     {@code disk-full} when the reserve would be touched
   */
  public long append(String id, InputStream body, long mostBytes, Optional<Checksum> checksum)
      throws IOException {
    try (FileChannel out = open(id)) {
      long from = out.size();
      out.position(from);
      Optional<Hashed> before = hashedUpTo(id, from);
      Optional<MessageDigest> digest = before.map(hashed -> copy(hashed.digest()));
      Body.Written written = new Body(out, room, digests(digest, checksum)).write(body, mostBytes);
      Optional<ProblemException> refusal = refusal(written, checksum);
      boolean kept =
          refusal.isEmpty() || (checksum.isEmpty() && written.end() != Body.End.TOO_LONG);
      if (!kept) {
        out.truncate(from);
      }
      out.force(true);
      if (kept) {
        digest.ifPresent(d -> hashes.put(id, new Hashed(d, from + written.bytes())));
      } else {
        before.ifPresent(hashed -> hashes.put(id, hashed));
      }
      if (refusal.isPresent()) {
        throw refusal.get();
      }
      return from + written.bytes();
    }
  }

  private FileChannel open(String id) throws IOException {
    Path file = path(id);
    if (!Files.exists(file)) {
      SafeFiles.makeFolder(folder);
      Files.createFile(file);
      SafeFiles.force(folder);
    }
    return FileChannel.open(file, StandardOpenOption.WRITE);
  }

  /** Takes out what is known of the hash, so that a failure in between leaves nothing wrong. */
  private Optional<Hashed> hashedUpTo(String id, long bytes) {
    Hashed known = hashes.remove(id);
    if (known != null && known.bytes() == bytes) {
      return Optional.of(known);
    }
    return bytes == 0 ? Optional.of(new Hashed(Sha256.digest(), 0)) : Optional.empty();
  }

  private static MessageDigest[] digests(
      Optional<MessageDigest> whole, Optional<Checksum> checksum) {
    List<MessageDigest> digests = new ArrayList<>();
    whole.ifPresent(digests::add);
    checksum.ifPresent(said -> digests.add(said.digest()));
    return digests.toArray(MessageDigest[]::new);
  }

  private static MessageDigest copy(MessageDigest digest) {
    try {
      return (MessageDigest) digest.clone();
    } catch (CloneNotSupportedException e) {
      throw new IllegalStateException(e);
    }
  }

  private static Optional<ProblemException> refusal(
      Body.Written written, Optional<Checksum> checksum) {
    return switch (written.end()) {
      case WHOLE ->
          checksum
              .filter(said -> !said.agrees())
              .map(
                  said ->
                      new ProblemException(
                          Problem.CHECKSUM_DIFFERS,
                          "A piece of the file changed on its way here and was left out. Send it"
                              + " again."));
      case TOO_LONG ->
          Optional.of(
              new ProblemException(
                  Problem.TOO_LARGE,
                  "The piece is longer than what is still missing of the file, so nothing of it"
                      + " was kept."));
      case DISK_FULL -> Optional.of(noRoom());
      case CUT_OFF ->
          Optional.of(
              new ProblemException(
                  Problem.UPLOAD_CUT,
                  "The connection broke. Ask how far the file has come, and go on from there."));
    };
  }

  /** The answer when {@link #roomFor} says no. */
  public static ProblemException noRoom() {
    return new ProblemException(
        Problem.DISK_FULL, "The server has no room for this file. Tell whoever runs it.");
  }

  /** Takes back what lies behind so many bytes. */
  public void cutTo(String id, long bytes) throws IOException {
    Path file = path(id);
    if (Files.exists(file) && Files.size(file) > bytes) {
      hashes.remove(id);
      try (FileChannel out = FileChannel.open(file, StandardOpenOption.WRITE)) {
        out.truncate(bytes);
        out.force(true);
      }
    }
  }

  /** The hash of a file that has come whole; read from the disk only if it came in two lives. */
  public Sha256 sha256(String id) throws IOException {
    Hashed known = hashes.remove(id);
    if (known != null && known.bytes() == bytes(id)) {
      return Sha256.of(known.digest());
    }
    MessageDigest digest = Sha256.digest();
    try (OutputStream hashing = new DigestOutputStream(OutputStream.nullOutputStream(), digest)) {
      Files.copy(path(id), hashing);
    }
    return Sha256.of(digest);
  }

  /** Where a file lies. */
  public Path path(String id) {
    return folder.resolve(id + ENDING);
  }

  /** The files there are, by their ids. */
  public List<String> ids() throws IOException {
    if (!Files.isDirectory(folder)) {
      return List.of();
    }
    List<String> ids = new ArrayList<>();
    try (var files = Files.newDirectoryStream(folder, "*" + ENDING)) {
      for (Path file : files) {
        String name = file.getFileName().toString();
        ids.add(name.substring(0, name.length() - ENDING.length()));
      }
    }
    return ids;
  }

  /** Forgets a file. */
  public void remove(String id) throws IOException {
    hashes.remove(id);
    Files.deleteIfExists(path(id));
  }
}
