package org.mixaccord.intake.coder;

import java.io.FileInputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.util.List;

/**
 * Waits until nothing more can be opened. The server takes the right away from outside, by a limit
 * of no open files, as soon as it hears that everything has been loaded; what is open stays open.
 */
final class Lock {
  private static final long MOST_WAIT_NANOS = 10_000_000_000L;

  /** Classes that may lie as single files in a folder and are needed later. */
  private static final List<Class<?>> NEEDED =
      List.of(
          StandardInput.class,
          SoundReader.class,
          InputFile.class,
          SampleWriter.class,
          FlacWriter.class,
          RawSamples.class,
          LightWriter.class,
          LightWriter.Taker.class);

  private Lock() {}

  /**
   * Says that all is loaded and returns when the lock is shut.
   *
   * @throws IOException if it stays open: then no byte of the file has been looked at
   */
  static void await(OutputStream out) throws IOException {
    for (Class<?> needed : NEEDED) {
      load(needed);
    }
    out.write('\n');
    out.flush();
    long began = System.nanoTime();
    while (canOpen()) {
      if (System.nanoTime() - began > MOST_WAIT_NANOS) {
        throw new IOException("this process was not confined");
      }
      Thread.onSpinWait();
    }
  }

  private static void load(Class<?> needed) throws IOException {
    try {
      Class.forName(needed.getName());
    } catch (ClassNotFoundException e) {
      throw new IOException(e);
    }
  }

  private static boolean canOpen() {
    try (FileInputStream opened = new FileInputStream("/dev/null")) {
      return true;
    } catch (IOException locked) {
      return false;
    }
  }
}
