package org.mixaccord.storage;

import java.io.IOException;

/** How much room is left where the files lie. */
@FunctionalInterface
public interface Disk {
  /** Bytes that may still be written. */
  long usableBytes() throws IOException;
}
