package org.mixaccord.intake;

import java.io.DataInputStream;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;

/**
 * Writes what the child encoded into a FLAC file: the marker, STREAMINFO, frames (RFC 9639, section
 * 6). STREAMINFO holds length and checksum and comes last, so its place is left free until then.
 */
final class FlacFile {
  private static final int STREAMINFO_BYTES = 34;

  /** A frame of this size holds 65535 frames of 8 channels of 32 bits without any packing. */
  private static final int MOST_FRAME_BYTES = 4 << 20;

  private FlacFile() {}

  /**
   * Writes the next stream of {@code encoded}.
   *
   * @throws IOException if the child ended before its time or wrote nonsense
   */
  static void write(DataInputStream encoded, Path to) throws IOException {
    ByteBuffer head = ByteBuffer.allocate(8 + STREAMINFO_BYTES);
    head.put("fLaC".getBytes(StandardCharsets.US_ASCII));
    // The only block of metadata, so also the last: highest bit set, type 0.
    head.putInt(0x8000_0000 | STREAMINFO_BYTES);
    try (FileChannel file =
        FileChannel.open(to, StandardOpenOption.CREATE, StandardOpenOption.WRITE)) {
      file.position(head.capacity());
      for (int length = encoded.readInt(); length != 0; length = encoded.readInt()) {
        if (length < 0 || length > MOST_FRAME_BYTES) {
          throw new IOException("a FLAC frame cannot have " + length + " bytes");
        }
        ByteBuffer frame = ByteBuffer.wrap(encoded.readNBytes(length));
        if (frame.capacity() < length) {
          throw new IOException("the encoder ended before its time");
        }
        while (frame.hasRemaining()) {
          file.write(frame);
        }
      }
      head.put(encoded.readNBytes(STREAMINFO_BYTES)).flip();
      for (long at = 0; head.hasRemaining(); ) {
        at += file.write(head, at);
      }
    }
  }
}
