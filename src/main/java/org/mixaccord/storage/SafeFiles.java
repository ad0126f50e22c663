package org.mixaccord.storage;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.file.AtomicMoveNotSupportedException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.util.Comparator;
import java.util.stream.Stream;

/** Files that appear whole or not at all. */
final class SafeFiles {
  private SafeFiles() {}

  /**
   * Moves a finished temporary file to its place; afterwards a power cut no longer loses it. Across
   * file systems, where moving is copying, it is copied beside its place first.
   */
  static void publish(Path temporary, Path target) throws IOException {
    Path folder = target.getParent();
    makeFolder(folder);
    force(temporary);
    try {
      Files.move(temporary, target, StandardCopyOption.ATOMIC_MOVE);
    } catch (AtomicMoveNotSupportedException otherFileSystem) {
      copy(temporary, target);
    }
    force(folder);
  }

  /** One at a time, under one name: what a crash leaves half done, the next try writes over. */
  private static synchronized void copy(Path temporary, Path target) throws IOException {
    Path beside = target.resolveSibling(target.getFileName() + ".part");
    Files.copy(temporary, beside, StandardCopyOption.REPLACE_EXISTING);
    force(beside);
    Files.move(beside, target, StandardCopyOption.ATOMIC_MOVE);
    Files.delete(temporary);
  }

  /** Makes a folder and writes its entry through to the disk. */
  static void makeFolder(Path folder) throws IOException {
    if (!Files.isDirectory(folder)) {
      Files.createDirectories(folder);
      force(folder.getParent());
    }
  }

  /** Writes a file's (or a folder's) changes through to the disk. */
  static void force(Path path) throws IOException {
    try (FileChannel channel = FileChannel.open(path, StandardOpenOption.READ)) {
      channel.force(true);
    }
  }

  /** Deletes a file or a whole folder; what is not there is no error. */
  static void deleteTree(Path root) throws IOException {
    if (!Files.exists(root)) {
      return;
    }
    try (Stream<Path> all = Files.walk(root)) {
      for (Path path : all.sorted(Comparator.reverseOrder()).toList()) {
        Files.deleteIfExists(path);
      }
    }
  }
}
