package org.mixaccord.storage;

import java.io.IOException;

/** Room on a disk beside the reserve that always stays free. */
record Room(Disk disk, long reserveBytes) {
  /** Bytes that may still be written; negative when the reserve has been touched. */
  long bytes() throws IOException {
    return disk.usableBytes() - reserveBytes;
  }

  /** Whether the disk itself has no room for so many bytes. */
  boolean isFullFor(long bytes) throws IOException {
    return disk.usableBytes() < bytes;
  }
}
