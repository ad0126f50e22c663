package org.mixaccord.acceptance;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import io.quarkus.narayana.jta.QuarkusTransaction;
import io.quarkus.test.junit.QuarkusTest;
import io.restassured.response.Response;
import jakarta.inject.Inject;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.mixaccord.songs.StoredBytes;
import org.mixaccord.storage.AudioStore;
import org.mixaccord.storage.DerivedFiles;
import org.mixaccord.storage.Sha256;

/** What a memo shares with a mix is the mix's; what it has of its own counts among the files. */
@QuarkusTest
class MemoBesideMixTest extends UploadStage {
  private static final byte[] SOUND = Sound.wav(24_000, Sound.sine(24_000, 300, -20, 3));

  @Inject AudioStore store;
  @Inject DerivedFiles derived;

  private Response speak(byte[] sound, String bounce) {
    return band.artist()
        .as()
        .contentType("audio/wav")
        .body(sound)
        .post("/api/v1/songs/" + band.song() + "/voice-memos?bounce=" + bounce);
  }

  private void send(String bounce) {
    band.engineer().post("/bounces/" + bounce + "/sending", Map.of()).then().statusCode(200);
  }

  private long stored() {
    return QuarkusTransaction.requiringNew().call(() -> StoredBytes.ofProject(band.project()));
  }

  private String file(String bounce, String field) {
    return band.engineer().get("/bounces/" + bounce).path("file." + field);
  }

  @Test
  void aMemoTakesNothingFromAMix() {
    String mix = measured("mix.wav", SOUND);
    send(mix);
    Path samples = derived.pcm(new Sha256(file(mix, "pcmSha256")), "s32");
    assertTrue(Files.exists(samples));
    long before = stored();
    speak(SOUND, mix).then().statusCode(201);
    assertTrue(Files.exists(samples), "the samples of the mix");
    assertEquals(before, stored(), "equal bytes count once");

    byte[] other = Sound.wav(24_000, Sound.sine(24_000, 310, -20, 3));
    speak(other, mix).then().statusCode(201);
    assertEquals(before + other.length, stored());
  }

  @Test
  void whatIsRefusedAsAMemoStaysAMix() {
    byte[] longer = Sound.wav(8_000, Sound.sine(8_000, 300, -20, 126));
    String mix = measured("long.wav", longer);
    send(mix);
    speak(longer, mix).then().statusCode(422);
    assertTrue(store.find(new Sha256(file(mix, "sha256"))).isPresent());
    assertTrue(Files.exists(derived.pcm(new Sha256(file(mix, "pcmSha256")), "s32")));
  }
}
