package org.mixaccord.storage;

import java.io.IOException;
import java.nio.file.Path;

/** How much room is left where the files lie. */
@FunctionalInterface
public interface Disk {
  /** Bytes that may still be written. */
  long usableBytes() throws IOException;

  /** The disk a folder lies on, asked without the table of mounts, which some sandboxes lack. */
  static Disk of(Path folder) {
    return () -> folder.toFile().getUsableSpace();
  }
}
