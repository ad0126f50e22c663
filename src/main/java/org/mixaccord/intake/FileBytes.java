package org.mixaccord.intake;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import org.mixaccord.audio.container.ByteSource;

/** The bytes of a file on this machine; its length is taken once, when it is opened. */
final class FileBytes implements ByteSource, AutoCloseable {
  private final FileChannel channel;
  private final long size;

  FileBytes(Path file) throws IOException {
    channel = FileChannel.open(file, StandardOpenOption.READ);
    size = channel.size();
  }

  @Override
  public long size() {
    return size;
  }

  @Override
  public int read(long position, byte[] into, int at, int count) throws IOException {
    ByteBuffer buffer = ByteBuffer.wrap(into, at, count);
    while (buffer.hasRemaining()) {
      int some = channel.read(buffer, position + buffer.position() - at);
      if (some < 0) {
        break;
      }
    }
    return buffer.position() - at;
  }

  /** The same bytes from this one on, as if the file began there. */
  ByteSource from(long start) {
    FileBytes whole = this;
    return new ByteSource() {
      @Override
      public long size() {
        return Math.max(0, whole.size - start);
      }

      @Override
      public int read(long position, byte[] into, int at, int count) throws IOException {
        return whole.read(start + position, into, at, count);
      }
    };
  }

  @Override
  public void close() throws IOException {
    channel.close();
  }
}
