package org.mixaccord.intake;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.mixaccord.intake.Fixtures.bytes;
import static org.mixaccord.intake.Fixtures.music;
import static org.mixaccord.intake.Fixtures.wav;

import io.quarkus.test.common.QuarkusTestResource;
import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.io.ByteArrayInputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.mixaccord.PostgresForTests;
import org.mixaccord.storage.AudioStore;
import org.mixaccord.storage.Incoming;
import org.mixaccord.storage.StorageConfig;
import org.mixaccord.storage.UploadLimits;

@QuarkusTest
@QuarkusTestResource(PostgresForTests.class)
class IntakeBeansTest {
  @Inject AudioStore store;
  @Inject Decoder decoder;
  @Inject ListeningCopy copies;
  @Inject StorageConfig config;

  @Test
  void theConfiguredServerTakesDecodesAndCopiesAFile(@TempDir Path folder) throws Exception {
    byte[] plain = wav(1, 2, 48000, 24, bytes(music(48000, 2, 24), 3, false));
    byte[] flac = Encoded.by(folder, plain, "flac", "flac");
    var limits = UploadLimits.upTo(config.storage().maxUploadBytes());
    var stored = (Incoming.Stored) store.receive(new ByteArrayInputStream(flac), limits);
    Path kept = store.find(stored.sha256()).orElseThrow();
    assertTrue(kept.startsWith(config.dataDir().toAbsolutePath()), kept.toString());
    assertArrayEquals(flac, Files.readAllBytes(kept));
    DecodeResult result = decoder.decode(kept, "a.flac");
    var file = assertInstanceOf(DecodeResult.Decoded.class, result, result.toString()).file();
    assertEquals(48000, file.frames());
    assertTrue(file.decoder().startsWith("FFmpeg "), file.decoder());
    copies.make(file, share -> {});
    assertTrue(copies.whole(file).isPresent());
  }
}
