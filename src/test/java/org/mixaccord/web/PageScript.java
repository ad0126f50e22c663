package org.mixaccord.web;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.TimeUnit;
import java.util.jar.JarEntry;
import java.util.jar.JarFile;
import java.util.stream.Stream;
import org.junit.jupiter.api.Assumptions;

/** The page's sources as one script for a browser, as the build bundles them. */
final class PageScript {
  private PageScript() {}

  /** Bundles the test's entry with the bundler that the build itself has fetched. */
  static String bundle(Path folder) throws IOException, InterruptedException {
    Path bundler = folder.resolve("esbuild");
    try (JarFile jar = new JarFile(bundlerJar().toFile())) {
      JarEntry program =
          jar.stream().filter(e -> e.getName().endsWith("/bin/esbuild")).findFirst().orElseThrow();
      try (InputStream in = jar.getInputStream(program)) {
        Files.copy(in, bundler);
      }
    }
    assertTrue(bundler.toFile().setExecutable(true));
    Path out = folder.resolve("numbers.js");
    Path log = folder.resolve("log");
    Process process =
        new ProcessBuilder(
                bundler.toString(),
                "src/test/web/numbers.ts",
                "--bundle",
                "--format=iife",
                "--outfile=" + out)
            .redirectErrorStream(true)
            .redirectOutput(log.toFile())
            .start();
    assertTrue(process.waitFor(60, TimeUnit.SECONDS), "the bundler did not end");
    assertEquals(0, process.exitValue(), () -> read(log));
    return Files.readString(out);
  }

  private static Path bundlerJar() throws IOException {
    Path versions =
        Path.of(System.getProperty("maven.repository"), "org/mvnpm/at/esbuild/linux-x64");
    Assumptions.assumeTrue(Files.isDirectory(versions), "the bundler for Linux x86-64 is not here");
    try (Stream<Path> files = Files.walk(versions)) {
      return files.filter(f -> f.toString().endsWith(".jar")).sorted().findFirst().orElseThrow();
    }
  }

  private static String read(Path file) {
    try {
      return Files.readString(file);
    } catch (IOException e) {
      return e.getMessage();
    }
  }
}
