package org.mixaccord.storage;

import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.security.MessageDigest;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionException;
import java.util.concurrent.Executor;
import java.util.concurrent.Executors;

/**
 * Writes what a stream holds to a file, hashing on the way. Memory does not grow with the length,
 * and neither does what is left for the disk at the end: it is kept at work while the stream flows.
 */
final class Body {
  /** How the stream came to its end. */
  enum End {
    WHOLE,
    TOO_LONG,
    DISK_FULL,
    /** It broke; what came before is in the file. */
    CUT_OFF
  }

  /** How it ended, and how many bytes were written. */
  record Written(End end, long bytes) {}

  private static final int BUFFER_BYTES = 1 << 18;
  private static final long CHECK_DISK_EVERY_BYTES = 16L << 20;
  private static final long WRITE_THROUGH_EVERY_BYTES = 64L << 20;

  private static final Executor FLUSHING =
      Executors.newCachedThreadPool(
          work -> {
            Thread thread = new Thread(work, "upload-to-disk");
            thread.setDaemon(true);
            return thread;
          });

  private final FileChannel out;
  private final Room room;
  private final List<MessageDigest> digests;
  private Optional<CompletableFuture<Void>> flushing = Optional.empty();
  private long flushedBytes;

  Body(FileChannel out, Room room, MessageDigest... digests) {
    this.out = out;
    this.room = room;
    this.digests = List.of(digests);
  }

  /**
   * Writes at most so many bytes from where the file stands. Whoever keeps them forces the file.
   *
   * @throws IOException if the disk itself fails
   */
  Written write(InputStream body, long mostBytes) throws IOException {
    try {
      return pour(body, mostBytes);
    } finally {
      awaitFlushing();
    }
  }

  private Written pour(InputStream body, long mostBytes) throws IOException {
    byte[] buffer = new byte[BUFFER_BYTES];
    long bytes = 0;
    long roomUntil = 0;
    while (true) {
      int count;
      try {
        count = body.read(buffer);
      } catch (IOException lineBroke) {
        return new Written(End.CUT_OFF, bytes);
      }
      if (count < 0) {
        return new Written(End.WHOLE, bytes);
      }
      if (bytes + count > mostBytes) {
        return new Written(End.TOO_LONG, bytes);
      }
      if (bytes + count > roomUntil) {
        long left = room.bytes();
        if (left < count) {
          return new Written(End.DISK_FULL, bytes);
        }
        roomUntil = bytes + Math.min(left, CHECK_DISK_EVERY_BYTES);
      }
      digests.forEach(digest -> digest.update(buffer, 0, count));
      if (!written(buffer, count)) {
        return new Written(End.DISK_FULL, bytes);
      }
      bytes += count;
      flushBeside(bytes);
    }
  }

  /** False if the disk filled up under the write; any other failure is the world's. */
  private boolean written(byte[] buffer, int count) throws IOException {
    ByteBuffer bytes = ByteBuffer.wrap(buffer, 0, count);
    try {
      while (bytes.hasRemaining()) {
        out.write(bytes);
      }
      return true;
    } catch (IOException e) {
      if (room.isFullFor(count)) {
        return false;
      }
      throw e;
    }
  }

  private void flushBeside(long bytes) throws IOException {
    if (bytes - flushedBytes < WRITE_THROUGH_EVERY_BYTES
        || flushing.filter(running -> !running.isDone()).isPresent()) {
      return;
    }
    awaitFlushing();
    flushedBytes = bytes;
    flushing = Optional.of(CompletableFuture.runAsync(this::flush, FLUSHING));
  }

  private void flush() {
    try {
      out.force(false);
    } catch (IOException e) {
      throw new CompletionException(e);
    }
  }

  /** A disk tells of a failed write once only, so it must not be lost in another thread. */
  private void awaitFlushing() throws IOException {
    if (flushing.isEmpty()) {
      return;
    }
    try {
      flushing.get().join();
    } catch (CompletionException e) {
      throw new IOException("what was uploaded did not reach the disk", e.getCause());
    }
  }
}
