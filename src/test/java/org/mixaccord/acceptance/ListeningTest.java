package org.mixaccord.acceptance;

import static org.hamcrest.Matchers.equalTo;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import io.quarkus.test.common.QuarkusTestResource;
import io.quarkus.test.junit.QuarkusTest;
import io.restassured.path.json.JsonPath;
import io.restassured.response.Response;
import jakarta.inject.Inject;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import org.awaitility.Awaitility;
import org.junit.jupiter.api.Test;
import org.mixaccord.PostgresForTests;
import org.mixaccord.storage.DerivedFiles;
import org.mixaccord.storage.Sha256;

/** The copies people listen to, as the server hands them out. */
@QuarkusTest
@QuarkusTestResource(PostgresForTests.class)
class ListeningTest extends UploadStage {
  private static final int RATE = 48_000;

  @Inject DerivedFiles derived;

  @Test
  void theLightCopyCanBePlayedFromAnyPlace() {
    String mix = ready(12);
    JsonPath light = listening(mix).setRootPath("light");
    int bytes = light.getInt("bytes");
    assertEquals("audio/mp4; codecs=\"mp4a.40.2\"", light.getString("type"));
    assertTrue(bytes < 12 * 100_000 / 8 + 8_000, "bytes " + bytes);
    Response all = get(mix, "/light");
    all.then()
        .statusCode(200)
        .contentType("audio/mp4")
        .header("Accept-Ranges", "bytes")
        .header("Cache-Control", "private, no-cache");
    assertEquals(bytes, all.asByteArray().length);
    band.engineer()
        .as()
        .header("Range", "bytes=1000-1999")
        .get(path(mix, "/light"))
        .then()
        .statusCode(206)
        .header("Content-Range", "bytes 1000-1999/" + bytes);
  }

  @Test
  void whatTheReaderHasAlreadyIsNotSentAgainAndNoProxyMayKeepIt() {
    String mix = ready(2);
    for (String piece : List.of("/segments/0", "/whole", "/light")) {
      Response first = get(mix, piece);
      first.then().statusCode(200).header("Cache-Control", "private, no-cache");
      String etag = first.header("ETag");
      assertTrue(etag.contains(pcm(mix)), etag);
      band.engineer()
          .as()
          .header("If-None-Match", etag)
          .get(path(mix, piece))
          .then()
          .statusCode(304)
          .header("ETag", etag)
          .header("Cache-Control", "private, no-cache");
      band.engineer()
          .as()
          .header("If-None-Match", "\"another\"")
          .get(path(mix, piece))
          .then()
          .statusCode(200);
    }
  }

  @Test
  void theRecordSaysWhatWasServed() {
    String mix = ready(12);
    send(mix);
    JsonPath light = listening(mix).setRootPath("light");
    // The index alone is no sound.
    ranged(band.manager(), mix, "/light", 0, light.getInt("indexBytes") - 1);
    assertNull(heard(band.manager(), mix));
    band.manager().get("/bounces/" + mix + "/listening/light").then().statusCode(200);
    assertEquals("light", heard(band.manager(), mix));
    String approval =
        band.manager()
            .post(
                "/bounces/" + mix + "/approvals",
                Map.of("decision", "fine-by-me", "pcmSha256", pcm(mix)))
            .then()
            .statusCode(201)
            .extract()
            .path("id");
    assertNotNull(approval);
    band.engineer()
        .get("/bounces/" + mix + "/approvals")
        .then()
        .body("find { it.id == '" + approval + "' }.heard", equalTo("light"));
    band.manager().get("/bounces/" + mix + "/listening/segments/0").then().statusCode(200);
    assertEquals("lossless", heard(band.manager(), mix));
    band.manager().get("/bounces/" + mix + "/listening/light").then().statusCode(200);
    assertEquals("lossless", heard(band.manager(), mix));
  }

  /** A player that gives up at once, since the line is slow, has not heard full quality. */
  @Test
  void theFirstMomentsOfACopyDoNotCountAsHavingHeardIt() {
    String mix = ready(12);
    send(mix);
    int second = listening(mix).getInt("wholeBytes") / 12;
    ranged(band.artist(), mix, "/whole", 0, 3 * second);
    ranged(band.artist(), mix, "/whole", 11 * second, 11 * second + 100);
    assertNull(heard(band.artist(), mix));
    ranged(band.artist(), mix, "/whole", 3 * second, 5 * second + 10);
    assertEquals("lossless", heard(band.artist(), mix));
  }

  @Test
  void whoeverHasLeftHearsNothingAnyMore() {
    String mix = ready(2);
    send(mix);
    Api artist = band.artist();
    List<String> pieces = List.of("/segments/0", "/whole", "/light");
    pieces.forEach(piece -> artist.as().get(path(mix, piece)).then().statusCode(200));
    String member =
        band.engineer()
            .get("/projects/" + band.project() + "/members")
            .path("find { it.name == 'Asta' }.id");
    band.engineer()
        .delete("/projects/" + band.project() + "/members/" + member)
        .then()
        .statusCode(204);
    for (String piece : pieces) {
      String etag = get(mix, piece).header("ETag");
      artist.as().header("If-None-Match", etag).get(path(mix, piece)).then().statusCode(404);
    }
  }

  /** Room is made by hand while the server runs: all comes back when somebody wants to listen. */
  @Test
  void removedCopiesAreMadeAgain() throws IOException {
    String mix = ready(8);
    Path folder = derived.listening(new Sha256(pcm(mix)));
    byte[] light = get(mix, "/light").asByteArray();
    byte[] whole = get(mix, "/whole").asByteArray();
    try (var files = Files.list(folder)) {
      for (Path file : files.toList()) {
        Files.delete(file);
      }
    }
    Files.delete(folder);
    refused(get(mix, "/light"), 503, "busy").header("Retry-After", "1");
    JsonPath now = listening(mix);
    assertTrue(now.getDouble("progress") <= 1);
    awaitReady(mix);
    assertEquals(sha256(light), sha256(get(mix, "/light").asByteArray()));
    assertEquals(sha256(whole), sha256(get(mix, "/whole").asByteArray()));
  }

  private String ready(int seconds) {
    double[] left = Sound.sine(RATE, 330, -20, seconds);
    double[] right = Sound.sine(RATE, 440, -20, seconds);
    String mix = measured("mix.wav", Sound.wav(RATE, left, right));
    awaitReady(mix);
    return mix;
  }

  private void awaitReady(String mix) {
    Awaitility.await()
        .atMost(Duration.ofSeconds(60))
        .until(
            () -> {
              JsonPath now = listening(mix);
              return now.getString("state").equals("ready") && now.getBoolean("light.ready");
            });
  }

  private JsonPath listening(String mix) {
    Response answer = band.engineer().get("/bounces/" + mix + "/listening");
    answer.then().statusCode(200);
    return answer.jsonPath();
  }

  private void send(String mix) {
    band.engineer().post("/bounces/" + mix + "/sending", Map.of()).then().statusCode(200);
  }

  private static void ranged(Api who, String mix, String piece, int from, int to) {
    who.as()
        .header("Range", "bytes=" + from + "-" + to)
        .get(path(mix, piece))
        .then()
        .statusCode(206);
  }

  private static String heard(Api who, String mix) {
    return who.get("/bounces/" + mix + "/hearing").path("quality");
  }

  private String pcm(String mix) {
    return band.engineer().get("/bounces/" + mix).path("file.pcmSha256");
  }

  private Response get(String mix, String piece) {
    return band.engineer().as().get(path(mix, piece));
  }

  private static String path(String mix, String piece) {
    return "/api/v1/bounces/" + mix + "/listening" + piece;
  }
}
