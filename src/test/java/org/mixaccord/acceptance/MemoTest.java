package org.mixaccord.acceptance;

import static org.hamcrest.Matchers.contains;
import static org.hamcrest.Matchers.equalTo;
import static org.hamcrest.Matchers.hasSize;
import static org.hamcrest.Matchers.nullValue;
import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;

import io.quarkus.test.common.QuarkusTestResource;
import io.quarkus.test.junit.QuarkusTest;
import io.restassured.response.ValidatableResponse;
import jakarta.inject.Inject;
import java.io.IOException;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.mixaccord.PostgresForTests;
import org.mixaccord.intake.Encoded;
import org.mixaccord.storage.AudioStore;
import org.mixaccord.storage.Sha256;

/** A spoken note: kept as it is, listened to, and written down in the name of who spoke. */
@QuarkusTest
@QuarkusTestResource(PostgresForTests.class)
class MemoTest extends ReviewStage {
  private static final byte[] SPOKEN = Sound.wav(24_000, Sound.sine(24_000, 300, -20, 3));

  @Inject AudioStore store;

  private String path(String rest) {
    return "/songs/" + cast.song() + rest;
  }

  private ValidatableResponse speak(String who, byte[] sound, String more) {
    return as(who)
        .contentType("application/octet-stream")
        .body(sound)
        .post("/api/v1" + path("/voice-memos?bounce=" + mix1 + more))
        .then();
  }

  @Test
  void aMemoIsKeptHeardAndWrittenDown() {
    String note =
        speak("art", SPOKEN, "&from=12.5")
            .statusCode(201)
            .body("seconds", equalTo(3.0f))
            .extract()
            .path("id");
    for (String who : new String[] {"art", "drummer", "eng"}) {
      get(who, path("/notes"))
          .body("[0].text", equalTo("Voice memo, 0:03"))
          .body("[0].from", equalTo(12.5f))
          .body("[0].memo.type", equalTo("audio/wav"))
          .body("[0].memo.line", nullValue());
    }
    byte[] heard =
        get("eng", "/notes/" + note + "/memo")
            .statusCode(200)
            .contentType("audio/wav")
            .extract()
            .asByteArray();
    assertArrayEquals(SPOKEN, heard);
    get("eng", path("/changes")).body("", hasSize(0));

    post("eng", "/notes/" + note + "/line", Map.of("text", "bass up 1 dB in verse 1"))
        .statusCode(200)
        .body("changes", hasSize(1));
    get("art", path("/changes"))
        .body("element", contains("bass"))
        .body("text", contains("bass up 1 dB in verse 1"))
        .body("author", contains(cast.person("art")))
        .body("note", contains(note));
    get("art", path("/notes")).body("[0].memo.line", equalTo("bass up 1 dB in verse 1"));
    get("eng", "/notes/" + note + "/memo").statusCode(200);
    post("eng", "/notes/" + note + "/line", Map.of("text", "again")).statusCode(409);
    // The wish is the artist's own.
    String change = get("art", path("/changes")).extract().path("[0].id");
    patch("art", change, Map.of("state", "withdrawn")).statusCode(200);
  }

  @Test
  void aMemoWithoutWordsInItsLineStaysARemark() {
    String note = speak("art", SPOKEN, "").statusCode(201).extract().path("id");
    post("eng", "/notes/" + note + "/line", Map.of("text", "sounds lovely"))
        .statusCode(200)
        .body("changes", hasSize(0));
    get("eng", path("/notes")).body("[0].memo.line", equalTo("sounds lovely"));
  }

  @Test
  void whatIsNoMemoIsRefusedAndNothingIsKept() throws Exception {
    byte[] page = "<!DOCTYPE html><html><body>no sound</body></html>".getBytes("UTF-8");
    speak("art", page, "").statusCode(422).body("code", equalTo("not-audio"));
    MessageDigest digest = MessageDigest.getInstance("SHA-256");
    digest.update(page);
    assertEquals(false, store.find(Sha256.of(digest)).isPresent());
    speak("art", new byte[0], "").statusCode(422).body("code", equalTo("empty-upload"));
    speak("art", Sound.wav(8_000, Sound.sine(8_000, 300, -20, 122)), "")
        .statusCode(422)
        .body("code", equalTo("invalid"))
        .body("detail", equalTo("A memo lasts two minutes at most. Say it in parts."));
    speak("art", Sound.wav(8_000, Sound.sine(8_000, 300, -20, 0.1)), "").statusCode(422);
    speak("art", Sound.wav(48_000, Sound.sine(48_000, 300, -20, 130)), "").statusCode(413);
    speak("art", SPOKEN, "&from=-1").statusCode(422);
    speak("ear", SPOKEN, "").statusCode(403);
    get("art", path("/notes")).body("", hasSize(0));
  }

  @Test
  void twoMinutesAndARoundingAreTaken() {
    speak("art", Sound.wav(8_000, Sound.sine(8_000, 300, -20, 120.5)), "").statusCode(201);
  }

  @Test
  void recordingsOfOtherBrowsersAreTakenToo(@TempDir Path folder) throws IOException {
    byte[] spoken = Sound.wav(48_000, Sound.sine(48_000, 300, -20, 3));
    byte[] mp4 = Encoded.fragments(folder, spoken);
    byte[] ogg = Encoded.by(folder, spoken, "libopus", "ogg");
    for (var one : Map.of("audio/mp4", mp4, "audio/ogg", ogg).entrySet()) {
      ValidatableResponse taken = speak("art", one.getValue(), "").statusCode(201);
      double seconds = taken.extract().jsonPath().getDouble("seconds");
      assertEquals(3, seconds, 0.05, one.getKey());
      String note = taken.extract().path("id");
      byte[] heard =
          get("eng", "/notes/" + note + "/memo")
              .statusCode(200)
              .contentType(one.getKey())
              .extract()
              .asByteArray();
      assertArrayEquals(one.getValue(), heard, one.getKey());
    }
  }

  @Test
  void anUnsentMemoIsHeardByTheBandAlone() {
    projects.gather(cast);
    String note = speak("drummer", SPOKEN, "").statusCode(201).extract().path("id");
    get("art", "/notes/" + note + "/memo").statusCode(200);
    get("eng", "/notes/" + note + "/memo").statusCode(404);
    String quiet = speak("drummer", SPOKEN, "&engineerOnly=true").extract().path("id");
    get("art", "/notes/" + quiet + "/memo").statusCode(404);
    get("eng", "/notes/" + quiet + "/memo").statusCode(200);
  }
}
