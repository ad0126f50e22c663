package org.mixaccord.storage;

import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
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
  private static final int BUFFER_BYTES = 1 << 18;
  private static final long CHECK_DISK_EVERY_BYTES = 16L << 20;

  private final Path audio;
  private final Path incoming;
  private final long reserveBytes;
  private final Disk disk;

  /** A store in this folder; {@code reserveBytes} always stay free on its disk. */
  FolderAudioStore(Path folder, long reserveBytes, Disk disk) throws IOException {
    this.audio = folder.resolve("audio");
    this.incoming = folder.resolve("incoming");
    this.reserveBytes = reserveBytes;
    this.disk = disk;
    Files.createDirectories(audio);
    SafeFiles.deleteTree(incoming);
    Files.createDirectories(incoming);
  }

  @Override
  public Incoming receive(InputStream body, UploadLimits limits) throws IOException {
    long expected = limits.expectedBytes().orElse(0);
    if (expected > limits.maxBytes()) {
      return tooLarge(limits);
    }
    if (room() < expected || room() <= 0) {
      return diskFull();
    }
    Path temporary = Files.createTempFile(incoming, "upload", ".part");
    try {
      return receive(body, limits, temporary);
    } finally {
      Files.deleteIfExists(temporary);
    }
  }

  private Incoming receive(InputStream body, UploadLimits limits, Path temporary)
      throws IOException {
    MessageDigest digest = Sha256.digest();
    byte[] buffer = new byte[BUFFER_BYTES];
    long bytes = 0;
    long roomUntil = Math.min(room(), CHECK_DISK_EVERY_BYTES);
    try (FileChannel out = FileChannel.open(temporary, StandardOpenOption.WRITE)) {
      while (true) {
        int count;
        try {
          count = body.read(buffer);
        } catch (IOException lineBroke) {
          return cutOff(bytes);
        }
        if (count < 0) {
          break;
        }
        if (bytes + count > limits.maxBytes()) {
          return tooLarge(limits);
        }
        if (bytes + count > roomUntil) {
          long room = room();
          if (room < count) {
            return diskFull();
          }
          roomUntil = bytes + Math.min(room, CHECK_DISK_EVERY_BYTES);
        }
        digest.update(buffer, 0, count);
        if (!write(out, buffer, count)) {
          return diskFull();
        }
        bytes += count;
      }
    }
    if (limits.expectedBytes().isPresent() && bytes < limits.expectedBytes().getAsLong()) {
      return cutOff(bytes);
    }
    if (bytes == 0) {
      return new Incoming.Refused(
          Incoming.Reason.EMPTY,
          "The file is empty: nothing arrived. Check it on your side and upload it again.");
    }
    Sha256 sha256 = Sha256.of(digest);
    Path target = place(sha256);
    boolean alreadyHere = Files.exists(target) && Files.size(target) == bytes;
    if (!alreadyHere) {
      SafeFiles.publish(temporary, target);
    }
    return new Incoming.Stored(sha256, bytes, alreadyHere);
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

  private long room() throws IOException {
    return disk.usableBytes() - reserveBytes;
  }

  /** False if the disk filled up under the write; any other failure is the world's. */
  private boolean write(FileChannel out, byte[] buffer, int count) throws IOException {
    ByteBuffer bytes = ByteBuffer.wrap(buffer, 0, count);
    try {
      while (bytes.hasRemaining()) {
        out.write(bytes);
      }
      return true;
    } catch (IOException e) {
      if (disk.usableBytes() < count) {
        return false;
      }
      throw e;
    }
  }

  private static Incoming tooLarge(UploadLimits limits) {
    return new Incoming.Refused(
        Incoming.Reason.TOO_LARGE,
        "The file is larger than the " + limits.maxBytes() / 1_000_000 + " MB taken here.");
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
