package org.mixaccord.intake;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import org.junit.jupiter.api.RepeatedTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class ChildTest {
  private static final Path NOTHING = Path.of("/dev/null");

  @Test
  void aChildThatHangsIsEndedWithAllItStarted() throws Exception {
    Duration time = Duration.ofSeconds(2);
    Child child = new Child(Child.wrapper(1L << 30, time), time);
    StringBuilder grandchild = new StringBuilder();
    long began = System.nanoTime();
    Child.End end =
        child.run(
            List.of("sh", "-c", "sleep 300 & echo $!; wait"),
            NOTHING,
            out -> grandchild.append(new String(out.readAllBytes(), StandardCharsets.UTF_8)));
    assertTrue(end.timedOut());
    assertTrue(System.nanoTime() - began < 20_000_000_000L);
    long pid = Long.parseLong(grandchild.toString().strip());
    for (int i = 0; i < 100 && isRunning(pid); i++) {
      Thread.sleep(50);
    }
    assertFalse(isRunning(pid));
  }

  @Test
  void aChildSeesNoEnvironmentAndWritesNoFile(@TempDir Path folder) throws IOException {
    Duration time = Duration.ofSeconds(20);
    Child child = new Child(Child.wrapper(1L << 30, time), time);
    StringBuilder said = new StringBuilder();
    Path file = folder.resolve("written");
    child.run(
        List.of("sh", "-c", "env; head -c 100000 /dev/zero > " + file),
        NOTHING,
        out -> said.append(new String(out.readAllBytes(), StandardCharsets.UTF_8)));
    assertFalse(said.toString().contains("HOME="), said.toString());
    assertEquals(0, Files.exists(file) ? Files.size(file) : 0);
  }

  /** The shell tries to read a file before and after it has said that it needs nothing more. */
  @RepeatedTest(5)
  void aLockedChildCanOpenNothingButReadsItsInput(@TempDir Path folder) throws IOException {
    Path input = Files.writeString(folder.resolve("input"), "the mix");
    Path secret = Files.writeString(folder.resolve("secret"), "the other mix");
    Duration time = Duration.ofSeconds(20);
    Child child = new Child(Child.wrapper(1L << 30, time), time);
    StringBuilder said = new StringBuilder();
    // Standard input is left alone, since a shell cannot put it back once it has been set aside.
    String tries =
        "read before < SECRET; echo; while true 5< /dev/null; do true; done;"
            + " if true 5< SECRET; then after=open; else after=shut; fi;"
            + " read own; echo \"$before, $after, $own\"";
    child.runLocked(
        List.of("sh", "-c", tries.replace("SECRET", secret.toString())),
        input,
        out -> said.append(new String(out.readAllBytes(), StandardCharsets.UTF_8)));
    assertEquals("the other mix, shut, the mix", said.toString().strip());
  }

  @Test
  void aChildDiesWithTheServerThatIsKilled() throws Exception {
    Process server =
        new ProcessBuilder(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-cp",
                System.getProperty("java.class.path"),
                Keeper.class.getName())
            .redirectError(ProcessBuilder.Redirect.INHERIT)
            .start();
    long pid;
    try (var out = server.inputReader()) {
      pid = Long.parseLong(out.readLine());
      assertTrue(isRunning(pid));
    } finally {
      server.destroyForcibly().waitFor();
    }
    for (int i = 0; i < 100 && isRunning(pid); i++) {
      Thread.sleep(50);
    }
    assertFalse(isRunning(pid));
  }

  /** Stands for a server: starts a child that takes long, and says which. */
  static final class Keeper {
    public static void main(String[] none) throws IOException {
      Duration time = Duration.ofMinutes(5);
      new Child(Child.wrapper(1L << 30, time), time)
          .run(
              List.of("sh", "-c", "echo $$; exec sleep 280"),
              NOTHING,
              out -> out.transferTo(System.out));
    }
  }

  @Test
  void aChildIsLimitedInMemoryTimeAndFiles() throws IOException {
    Child child =
        new Child(Child.wrapper(1L << 30, Duration.ofSeconds(20)), Duration.ofSeconds(20));
    StringBuilder said = new StringBuilder();
    child.run(
        List.of("sh", "-c", "ulimit -v; ulimit -t; ulimit -f; ulimit -c; ulimit -n"),
        NOTHING,
        out -> said.append(new String(out.readAllBytes(), StandardCharsets.UTF_8)));
    // Kilobytes, seconds, blocks, blocks, files.
    assertEquals("1048576 20 0 0 64", said.toString().strip().replace('\n', ' '));
  }

  @Test
  void whatTheReaderCannotTakeEndsTheChild() {
    Duration time = Duration.ofSeconds(60);
    Child child = new Child(Child.wrapper(1L << 30, time), time);
    long began = System.nanoTime();
    assertThrows(
        IOException.class,
        () ->
            child.run(
                List.of("sh", "-c", "while :; do echo x; done"),
                NOTHING,
                out -> {
                  out.readNBytes(1000);
                  throw new IOException("enough");
                }));
    assertTrue(System.nanoTime() - began < 20_000_000_000L);
  }

  @Test
  void aLoudChildIsHeardOnlyInPart() throws IOException {
    Duration time = Duration.ofSeconds(60);
    Child child = new Child(Child.wrapper(1L << 30, time), time);
    Child.End end =
        child.run(
            List.of("sh", "-c", "head -c 1000000 /dev/zero | tr '\\0' x >&2"),
            NOTHING,
            out -> out.readAllBytes());
    assertEquals(16 << 10, end.said().length());
    assertEquals(0, end.code());
  }

  /** A zombie that nobody has collected yet is not running. */
  private static boolean isRunning(long pid) throws IOException {
    Path stat = Path.of("/proc", String.valueOf(pid), "stat");
    return Files.exists(stat) && !Files.readString(stat).contains(") Z ");
  }
}
