package org.mixaccord.storage;

import java.io.IOException;
import java.io.InputStream;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.security.MessageDigest;
import java.util.Optional;

/**
 * Uploaded files in a folder of this machine: {@code audio/ab/abcd…}.
 *
 * <p>An upload goes into {@code incoming/} of the same file system, is hashed on the way, written
 * through to the disk and then renamed. What a crash leaves in {@code incoming/} is swept at the
 * next start.
 */
public final class FolderAudioStore implements AudioStore {
  private final Path audio;
  private final Path incoming;
  private final Room room;

  /** A store in this folder; {@code reserveBytes} always stay free on its disk. */
  FolderAudioStore(Path folder, long reserveBytes, Disk disk) throws IOException {
    this.audio = folder.resolve("audio");
    this.incoming = folder.resolve("incoming");
    this.room = new Room(disk, reserveBytes);
    SafeFiles.makeFolder(audio);
    SafeFiles.deleteTree(incoming);
    Files.createDirectories(incoming);
  }

  @Override
  public Incoming receive(InputStream body, UploadLimits limits, Proof proof) throws IOException {
    long expected = limits.expectedBytes().orElse(0);
    if (expected > limits.maxBytes()) {
      return tooLarge(limits);
    }
    if (room.bytes() < Math.max(1, expected)) {
      return diskFull();
    }
    Path temporary = Files.createTempFile(incoming, "upload", ".part");
    try {
      return receive(body, limits, proof, temporary);
    } finally {
      Files.deleteIfExists(temporary);
    }
  }

  private Incoming receive(InputStream body, UploadLimits limits, Proof proof, Path temporary)
      throws IOException {
    MessageDigest digest = Sha256.digest();
    Body.Written written;
    try (FileChannel out = FileChannel.open(temporary, StandardOpenOption.WRITE)) {
      written = new Body(out, room, digest).write(body, limits.maxBytes());
    }
    long bytes = written.bytes();
    switch (written.end()) {
      case TOO_LONG -> {
        return tooLarge(limits);
      }
      case DISK_FULL -> {
        return diskFull();
      }
      case CUT_OFF -> {
        return cutOff(bytes);
      }
      case WHOLE -> {}
    }
    if (limits.expectedBytes().isPresent() && bytes < limits.expectedBytes().getAsLong()) {
      return cutOff(bytes);
    }
    if (bytes == 0) {
      return new Incoming.Refused(
          Incoming.Reason.EMPTY,
          "The file is empty: nothing arrived. Check it on your side and upload it again.");
    }
    proof.look(temporary);
    Sha256 sha256 = Sha256.of(digest);
    return new Incoming.Stored(sha256, bytes, keep(temporary, sha256, bytes));
  }

  @Override
  public void adopt(Path file, Sha256 sha256, long bytes) throws IOException {
    keep(file, sha256, bytes);
    Files.deleteIfExists(file);
  }

  /** True if the same bytes had been stored before; then the file stays where it is. */
  private boolean keep(Path file, Sha256 sha256, long bytes) throws IOException {
    Path target = place(sha256);
    if (Files.exists(target) && Files.size(target) == bytes) {
      // Another upload may have put it there this instant.
      SafeFiles.force(target.getParent());
      return true;
    }
    SafeFiles.publish(file, target);
    return false;
  }

  @Override
  public Optional<Path> find(Sha256 sha256) {
    return Optional.of(place(sha256)).filter(Files::isRegularFile);
  }

  @Override
  public void remove(Sha256 sha256) throws IOException {
    Files.deleteIfExists(place(sha256));
  }

  private Path place(Sha256 sha256) {
    return audio.resolve(sha256.place());
  }

  private static Incoming tooLarge(UploadLimits limits) {
    return new Incoming.Refused(
        Incoming.Reason.TOO_LARGE,
        "The file is larger than the " + Sizes.words(limits.maxBytes()) + " taken here.");
  }

  private static Incoming diskFull() {
    return new Incoming.Refused(
        Incoming.Reason.DISK_FULL,
        "The server's disk is full, so the file was not kept. Tell whoever runs this server, and"
            + " upload again afterwards.");
  }

  private static Incoming cutOff(long bytes) {
    return new Incoming.Refused(
        Incoming.Reason.CUT_OFF,
        "The connection broke after "
            + bytes
            + " bytes, so the file was not kept. Upload it again.");
  }
}
