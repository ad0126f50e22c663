package org.mixaccord.intake.coder;

import java.io.FileDescriptor;
import java.io.FileInputStream;
import java.nio.channels.FileChannel;

/** The one file a child may read. It stays open until the process ends. */
final class StandardInput {
  /** Opened before the lock is shut, since a channel needs libraries of its own. */
  static final FileChannel FILE = new FileInputStream(FileDescriptor.in).getChannel();

  private StandardInput() {}
}
