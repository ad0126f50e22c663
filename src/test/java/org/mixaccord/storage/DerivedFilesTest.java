package org.mixaccord.storage;

import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.time.Instant;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

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

  private static Path clip(DerivedFiles derived, String name, Instant written) throws IOException {
    Path rendered = derived.unfinished("clip");
    derived.publish(rendered, derived.clip(name));
    return Files.setLastModifiedTime(derived.clip(name), FileTime.from(written));
  }
}
