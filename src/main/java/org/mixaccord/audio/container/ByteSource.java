package org.mixaccord.audio.container;

import java.io.IOException;

/** Random access to the bytes of a file of unknown honesty; sizes in bytes. */
public interface ByteSource {
  /** How many bytes there really are, whatever the file says. */
  long size();

  /**
   * Reads up to {@code count} bytes from {@code position} on.
   *
   * @return the number of bytes read, less than {@code count} only at the end; 0 behind the end
   * @throws IllegalArgumentException if the position is negative
   */
  int read(long position, byte[] into, int at, int count) throws IOException;

  /** The bytes of an array. */
  static ByteSource of(byte[] bytes) {
    return new ByteSource() {
      @Override
      public long size() {
        return bytes.length;
      }

      @Override
      public int read(long position, byte[] into, int at, int count) {
        if (position < 0) {
          throw new IllegalArgumentException("position " + position);
        }
        int some = (int) Math.max(0, Math.min(count, bytes.length - position));
        if (some > 0) {
          System.arraycopy(bytes, (int) position, into, at, some);
        }
        return some;
      }
    };
  }
}
