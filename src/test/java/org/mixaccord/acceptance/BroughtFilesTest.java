package org.mixaccord.acceptance;

import static org.hamcrest.Matchers.equalTo;
import static org.hamcrest.Matchers.hasItem;
import static org.hamcrest.Matchers.hasItems;
import static org.hamcrest.Matchers.nullValue;
import static org.hamcrest.Matchers.startsWith;

import io.quarkus.test.common.QuarkusTestResource;
import io.quarkus.test.junit.QuarkusTest;
import io.restassured.config.EncoderConfig;
import io.restassured.config.RestAssuredConfig;
import io.restassured.response.Response;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.Base64;
import org.awaitility.Awaitility;
import org.junit.jupiter.api.Test;
import org.mixaccord.PostgresForTests;

/** What is kept and told of a file beside its sound. */
@QuarkusTest
@QuarkusTestResource(PostgresForTests.class)
class BroughtFilesTest {
  private static final byte[] FILE =
      "not audio, but kept all the same ".repeat(9).getBytes(StandardCharsets.US_ASCII);

  @Test
  void theNameAMixIsBroughtWithIsKeptForWhoeverSendsIt() {
    Band band = Band.assemble();
    String metadata =
        "song "
            + base64(band.song())
            + ",kind "
            + base64("rough")
            + ",label "
            + base64("Mix 3 alt");
    Api artist = band.artist();
    String at =
        artist
            .as()
            .header("Tus-Resumable", "1.0.0")
            .header("Upload-Length", FILE.length)
            .header("Upload-Metadata", metadata)
            .post("/api/v1/uploads")
            .header("Location");
    String bounce =
        artist
            .as()
            .config(
                RestAssuredConfig.config()
                    .encoderConfig(
                        EncoderConfig.encoderConfig()
                            .appendDefaultContentCharsetToContentTypeIfUndefined(false)))
            .contentType("application/offset+octet-stream")
            .header("Tus-Resumable", "1.0.0")
            .header("Upload-Offset", 0)
            .body(FILE)
            .patch(at)
            .header("Mixaccord-Bounce");
    String address = "/bounces/" + bounce;
    band.engineer().get(address).then().body("proposedLabel", equalTo("Mix 3 alt"));
    artist.get(address).then().body("proposedLabel", nullValue());
    Response byPost =
        band.engineer()
            .as()
            .contentType("application/octet-stream")
            .body(FILE)
            .queryParam("label", "Mix 3 b")
            .post("/api/v1/songs/" + band.song() + "/bounces");
    String other = byPost.then().statusCode(201).extract().path("id");
    band.engineer().get("/bounces/" + other).then().body("proposedLabel", equalTo("Mix 3 b"));
    band.engineer()
        .get("/songs/" + band.song() + "/bounces")
        .then()
        .body("proposedLabel", hasItems("Mix 3 alt", "Mix 3 b"));
    String unnamed =
        band.engineer()
            .as()
            .contentType("application/octet-stream")
            .body(FILE)
            .queryParam("filename", "Undertow_mix4b_24-48.wav")
            .post("/api/v1/songs/" + band.song() + "/bounces")
            .path("id");
    band.engineer()
        .get("/bounces/" + unnamed)
        .then()
        .body("proposedLabel", equalTo("Mix 4b"))
        .body("label", nullValue());
    UploadStage.refused(
        band.engineer()
            .as()
            .contentType("application/octet-stream")
            .body(FILE)
            .queryParam("label", "x".repeat(81))
            .post("/api/v1/songs/" + band.song() + "/bounces"),
        422,
        "invalid");
  }

  @Test
  void whatCannotBeUsedIsCountedForItsUploaderAndEngineersUntilAUsableOneComes() {
    Band band = Band.assemble();
    String song = "/songs/" + band.song();
    String bounces = "/api/v1" + song + "/bounces?kind=rough";
    Response failed =
        band.artist().as().contentType("application/octet-stream").body(FILE).post(bounces);
    String id = failed.then().statusCode(201).extract().path("id");
    Awaitility.await()
        .until(() -> "failed".equals(band.engineer().get("/bounces/" + id).path("state")));
    band.engineer().get(song).then().body("unusable", equalTo(1));
    band.artist()
        .get(song + "/history")
        .then()
        .body("detail", hasItem(startsWith("Rough 1 cannot be used. ")));
    band.artist().get(song).then().body("unusable", equalTo(1));
    band.manager().get(song).then().body("unusable", equalTo(0));
    byte[] sound = Sound.wav16(48000, Sound.sine(48000, 440, -20, 0.5));
    Response good =
        band.artist().as().contentType("application/octet-stream").body(sound).post(bounces);
    String usable = good.then().statusCode(201).extract().path("id");
    Awaitility.await()
        .atMost(Duration.ofSeconds(60))
        .until(() -> "ready".equals(band.engineer().get("/bounces/" + usable).path("state")));
    band.engineer().get(song).then().body("unusable", equalTo(0));
  }

  private static String base64(String text) {
    return Base64.getEncoder().encodeToString(text.getBytes(StandardCharsets.UTF_8));
  }
}
