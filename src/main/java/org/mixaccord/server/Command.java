package org.mixaccord.server;

import java.io.File;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;

/**
 * One short program run to its end, its output kept.
 *
 * <p>The output goes through a file: a daemon that the program leaves behind would hold a pipe open
 * and its reader would never come back.
 */
record Command(List<String> words) {

  record Result(int code, String output) {
    boolean ok() {
      return code == 0;
    }
  }

  static Command of(List<String> prefix, String... words) {
    List<String> all = new ArrayList<>(prefix);
    all.addAll(List.of(words));
    return new Command(List.copyOf(all));
  }

  /** Runs and answers how it ended; a program that is not there ends with 127. */
  Result run(int seconds) throws IOException {
    Path output = Files.createTempFile("mixaccord", ".out");
    try {
      Process process;
      try {
        process =
            new ProcessBuilder(words)
                .directory(new File("/"))
                .redirectErrorStream(true)
                .redirectInput(new File("/dev/null"))
                .redirectOutput(output.toFile())
                .start();
      } catch (IOException notThere) {
        return new Result(127, String.valueOf(notThere.getMessage()));
      }
      if (!process.waitFor(seconds, TimeUnit.SECONDS)) {
        process.destroyForcibly();
        return new Result(124, words.get(0) + " took longer than " + seconds + " s");
      }
      byte[] said = Files.readAllBytes(output);
      return new Result(process.exitValue(), new String(said, StandardCharsets.UTF_8).strip());
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IOException("interrupted while waiting for " + words.get(0), e);
    } finally {
      Files.deleteIfExists(output);
    }
  }

  /** Runs and insists on success. */
  void must(int seconds) throws IOException {
    Result result = run(seconds);
    if (!result.ok()) {
      throw new IOException(
          String.join(" ", words) + " ended with " + result.code() + ": " + result.output());
    }
  }
}
