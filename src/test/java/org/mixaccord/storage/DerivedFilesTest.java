package org.mixaccord.storage;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.time.Instant;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.mixaccord.problem.Problem;
import org.mixaccord.problem.ProblemException;

class DerivedFilesTest {
  private static final Instant NOW = Instant.parse("2031-05-01T12:00:00Z");

  @Test
  void onlyWhatWasRenderedBeforeAnInstantIsClearedAway(@TempDir Path folder) throws IOException {
    DerivedFiles derived = new DerivedFiles(folder, 0);
    derived.removeRenderedBefore(NOW);
    Path old = clip(derived, "old", NOW.minusSeconds(1));
    Path fresh = clip(derived, "fresh", NOW);

    Path laid = derived.laid(new Sha256("ab".repeat(32))).resolve("0.wav");
    derived.publish(derived.unfinished("laid"), laid);
    Files.setLastModifiedTime(laid, FileTime.from(NOW.minusSeconds(9)));

    derived.removeRenderedBefore(NOW);

    assertFalse(Files.exists(old));
    assertTrue(Files.exists(fresh));
    assertFalse(Files.exists(laid));
  }

  @Test
  void whatIsMadeIsThereWholeOrNotAtAll(@TempDir Path folder) throws IOException {
    DerivedFiles derived = new DerivedFiles(folder, 0);
    derived.make("clip", 3, derived.clip("good"), at -> Files.write(at, new byte[3]));
    assertEquals(3, Files.size(derived.clip("good")));

    assertThrows(
        IOException.class,
        () ->
            derived.make(
                "clip",
                3,
                derived.clip("bad"),
                at -> {
                  Files.write(at, new byte[2]);
                  throw new IOException("broken off");
                }));
    assertFalse(Files.exists(derived.clip("bad")));
    assertEquals(0, unfinished(folder));
  }

  /** The reserve stays free, and a file is there two times while it is moved between disks. */
  @Test
  void whatDoesNotFitTwiceBesideTheReserveIsNotBegun(@TempDir Path folder) throws IOException {
    DerivedFiles derived = new DerivedFiles(folder, 1000, () -> 1199);
    Path target = derived.clip("large");
    ProblemException full =
        assertThrows(
            ProblemException.class,
            () -> derived.make("clip", 100, target, at -> Files.write(at, new byte[100])));
    assertEquals(Problem.DISK_FULL, full.problem());
    assertEquals(0, unfinished(folder));
    new DerivedFiles(folder, 1000, () -> 1200)
        .make("clip", 100, target, at -> Files.write(at, new byte[100]));
    assertEquals(100, Files.size(target));
  }

  private static long unfinished(Path folder) throws IOException {
    try (var files = Files.list(folder.resolve("unfinished"))) {
      return files.count();
    }
  }

  private static Path clip(DerivedFiles derived, String name, Instant written) throws IOException {
    Path rendered = derived.unfinished("clip");
    derived.publish(rendered, derived.clip(name));
    return Files.setLastModifiedTime(derived.clip(name), FileTime.from(written));
  }
}
