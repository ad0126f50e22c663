package org.mixaccord.intake;

import java.io.ByteArrayOutputStream;
import java.io.File;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;

/**
 * One child process with no more than it needs: a single file on its standard input, pipes for what
 * it says, no environment, and limits on time, memory and files.
 */
final class Child {
  /** What a child says when it needs to open nothing more. */
  static final int LOADED = '\n';

  private static final int MOST_SAID_BYTES = 16 << 10;

  private final List<String> wrapper;
  private final Duration time;

  Child(List<String> wrapper, Duration time) {
    this.wrapper = List.copyOf(wrapper);
    this.time = time;
  }

  /** How a child ended; {@code said} is the beginning of its standard error. */
  record End(int code, String said, boolean timedOut) {}

  /** Reads what a child writes on its standard output. */
  @FunctionalInterface
  interface Reader {
    void read(InputStream out) throws IOException;
  }

  /**
   * The strongest wrapper this machine offers: a session of its own, so that the whole group can be
   * ended; death with its parent; limits of the kernel.
   */
  static List<String> wrapper(long memoryBytes, Duration time) {
    List<String> words = new ArrayList<>();
    List<List<String>> layers =
        List.of(
            List.of("setsid"),
            List.of("setpriv", "--pdeathsig", "KILL", "--no-new-privs"),
            // Whoever runs the server as root does not give that to a decoder.
            List.of("setpriv", "--inh-caps=-all", "--bounding-set=-all"),
            List.of(
                "prlimit",
                "--cpu=" + Math.max(1, time.toSeconds()),
                "--as=" + memoryBytes,
                "--fsize=0",
                "--core=0",
                "--nofile=64"));
    for (List<String> layer : layers) {
      List<String> trial = new ArrayList<>(layer);
      trial.add("true");
      if (works(trial)) {
        words.addAll(layer);
      }
    }
    return words;
  }

  /** Whether this machine can take the right to open files away from a child that runs. */
  static boolean canLock() {
    return works(List.of("prlimit", "--nofile=64", "true"));
  }

  private static boolean works(List<String> words) {
    try {
      Process process =
          new ProcessBuilder(words)
              .redirectOutput(ProcessBuilder.Redirect.DISCARD)
              .redirectError(ProcessBuilder.Redirect.DISCARD)
              .start();
      return process.waitFor(10, TimeUnit.SECONDS) && process.exitValue() == 0;
    } catch (IOException e) {
      return false;
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      return false;
    }
  }

  /**
   * Runs a child to its end.
   *
   * @throws IOException if it cannot be started, or what the reader threw; the child is gone then
   */
  End run(List<String> command, Path input, Reader reader) throws IOException {
    return run(command, input, (process, out) -> reader.read(out));
  }

  /**
   * The same for a child that writes {@link #LOADED} when it has loaded all it needs, and waits:
   * from then on it can open no file and no connection. What it has is the file on its standard
   * input.
   *
   * @throws IOException also if the right could not be taken away
   */
  End runLocked(List<String> command, Path input, Reader reader) throws IOException {
    return run(
        command,
        input,
        (process, out) -> {
          if (out.read() == LOADED
              && !works(List.of("prlimit", "--pid", "" + process.pid(), "--nofile=0:0"))
              && process.isAlive()) {
            throw new IOException("a child could not be confined");
          }
          reader.read(out);
        });
  }

  /** Deals with a child that runs. */
  @FunctionalInterface
  private interface Dealer {
    void deal(Process process, InputStream out) throws IOException;
  }

  private End run(List<String> command, Path input, Dealer dealer) throws IOException {
    List<String> words = new ArrayList<>(wrapper);
    words.addAll(command);
    ProcessBuilder builder = new ProcessBuilder(words).directory(new File("/"));
    builder.environment().clear();
    builder.environment().put("PATH", "/usr/bin:/bin");
    builder.redirectInput(input.toFile());
    Process process = builder.start();
    boolean[] timedOut = {false};
    Thread watchdog = watch(process, timedOut);
    ByteArrayOutputStream said = new ByteArrayOutputStream();
    Thread listener = listen(process, said);
    try {
      try (InputStream out = process.getInputStream()) {
        dealer.deal(process, out);
      }
      int code = process.waitFor();
      listener.join(2000);
      synchronized (said) {
        return new End(code, said.toString(StandardCharsets.UTF_8).strip(), timedOut[0]);
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IOException("interrupted while a file was decoded", e);
    } finally {
      kill(process);
      watchdog.interrupt();
    }
  }

  private Thread watch(Process process, boolean[] timedOut) {
    Thread watchdog =
        new Thread(
            () -> {
              try {
                if (!process.waitFor(time.toMillis(), TimeUnit.MILLISECONDS)) {
                  timedOut[0] = true;
                  kill(process);
                }
              } catch (InterruptedException over) {
                // The child ended in time.
              }
            },
            "child-watchdog");
    watchdog.setDaemon(true);
    watchdog.start();
    return watchdog;
  }

  /** Everything is read, so that the child never waits; only the beginning is kept. */
  private static Thread listen(Process process, ByteArrayOutputStream said) {
    Thread listener =
        new Thread(
            () -> {
              byte[] buffer = new byte[4096];
              try (InputStream error = process.getErrorStream()) {
                for (int count = error.read(buffer); count >= 0; count = error.read(buffer)) {
                  synchronized (said) {
                    said.write(buffer, 0, Math.min(count, MOST_SAID_BYTES - said.size()));
                  }
                }
              } catch (IOException closed) {
                // The child is gone; what it said until then is kept.
              }
            },
            "child-listener");
    listener.setDaemon(true);
    listener.start();
    return listener;
  }

  private void kill(Process process) {
    if (!process.isAlive()) {
      return;
    }
    List<ProcessHandle> all = process.descendants().toList();
    if (wrapper.contains("setsid")) {
      works(List.of("kill", "-KILL", "--", "-" + process.pid()));
    }
    process.destroyForcibly();
    all.forEach(ProcessHandle::destroyForcibly);
  }
}
