package org.mixaccord.storage;

import jakarta.enterprise.context.ApplicationScoped;
import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import org.mixaccord.problem.Problem;
import org.mixaccord.problem.ProblemException;

/** Files that arrive in several pieces; what has been taken survives a power cut. */
@ApplicationScoped
public class PartialFiles {
  private static final int BLOCK = 1 << 16;

  private final Path folder;
  private final long reserveBytes;
  private final Disk disk;

  PartialFiles(StorageConfig config, Disk disk) {
    folder = config.dataDir().toAbsolutePath().normalize().resolve("uploads");
    reserveBytes = config.storage().reserveBytes();
    this.disk = disk;
  }

  /** How many bytes of a file are here. */
  public long bytes(String id) throws IOException {
    Path file = file(id);
    return Files.exists(file) ? Files.size(file) : 0;
  }

  /** Whether that many more bytes fit beside the reserve. */
  public boolean roomFor(long bytes) throws IOException {
    return disk.usableBytes() - reserveBytes >= bytes;
  }

  /**
   * Appends what a stream holds, up to a number of bytes; a stream that breaks leaves what came.
   *
   * @return the bytes of the file that are here now, durably
   * @throws ProblemException {@code disk-full} when the reserve would be touched; what came is kept
   */
  public long append(String id, InputStream body, long most) throws IOException {
    Files.createDirectories(folder);
    try (FileChannel channel =
        FileChannel.open(file(id), StandardOpenOption.CREATE, StandardOpenOption.APPEND)) {
      byte[] block = new byte[BLOCK];
      long left = most;
      try {
        while (left > 0) {
          int read = body.read(block, 0, (int) Math.min(block.length, left));
          if (read < 0) {
            break;
          }
          if (!roomFor(read)) {
            throw noRoom();
          }
          ByteBuffer bytes = ByteBuffer.wrap(block, 0, read);
          while (bytes.hasRemaining()) {
            channel.write(bytes);
          }
          left -= read;
        }
      } finally {
        channel.force(true);
      }
      return channel.size();
    }
  }

  /** The answer when {@link #roomFor} says no. */
  public static ProblemException noRoom() {
    return new ProblemException(
        Problem.DISK_FULL, "The server has no room for this file. Tell whoever runs it.");
  }

  /** Opens a file that has arrived. */
  public InputStream open(String id) throws IOException {
    return Files.newInputStream(file(id));
  }

  public void remove(String id) throws IOException {
    Files.deleteIfExists(file(id));
  }

  private Path file(String id) {
    return folder.resolve(id + ".part");
  }
}
