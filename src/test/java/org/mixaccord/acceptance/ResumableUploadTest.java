package org.mixaccord.acceptance;

import static org.hamcrest.Matchers.equalTo;
import static org.hamcrest.Matchers.notNullValue;
import static org.junit.jupiter.api.Assertions.assertEquals;

import io.quarkus.test.common.QuarkusTestResource;
import io.quarkus.test.junit.QuarkusTest;
import io.restassured.config.EncoderConfig;
import io.restassured.config.RestAssuredConfig;
import io.restassured.specification.RequestSpecification;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.Base64;
import org.junit.jupiter.api.Test;
import org.mixaccord.PostgresForTests;
import org.mixaccord.accounts.Hashes;

@QuarkusTest
@QuarkusTestResource(PostgresForTests.class)
class ResumableUploadTest {
  private static final byte[] FILE =
      "not audio, but kept all the same ".repeat(9).getBytes(StandardCharsets.US_ASCII);

  @Test
  void anUploadIsTakenUpWhereItBrokeOff() {
    Band band = Band.assemble();
    String at = begin(band, band.engineer());
    piece(band.engineer(), at, 0, Arrays.copyOf(FILE, 100))
        .then()
        .statusCode(204)
        .header("Upload-Offset", "100");
    tus(band.engineer())
        .head(at)
        .then()
        .statusCode(200)
        .header("Upload-Offset", "100")
        .header("Upload-Length", String.valueOf(FILE.length));
    piece(band.engineer(), at, 50, FILE)
        .then()
        .statusCode(409)
        .body("code", equalTo("wrong-state"));
    String bounce =
        piece(band.engineer(), at, 100, Arrays.copyOfRange(FILE, 100, FILE.length))
            .then()
            .statusCode(204)
            .header("Mixaccord-Bounce", notNullValue())
            .extract()
            .header("Mixaccord-Bounce");
    String sha = band.engineer().get("/bounces/" + bounce).path("file.sha256");
    assertEquals(Hashes.sha256(new String(FILE, StandardCharsets.US_ASCII)), sha);
    tus(band.engineer()).head(at).then().header("Mixaccord-Bounce", bounce);
  }

  @Test
  void anUploadBelongsToWhoBeganItAndCanBeEnded() {
    Band band = Band.assemble();
    String at = begin(band, band.engineer());
    tus(band.manager()).head(at).then().statusCode(404);
    tus(band.engineer()).delete(at).then().statusCode(204);
    tus(band.engineer()).head(at).then().statusCode(404);
  }

  @Test
  void rightsLengthAndProtocolAreCheckedBeforeAnyByte() {
    Band band = Band.assemble();
    create(band.artist(), band.song(), 10).then().statusCode(403);
    create(band.stranger(), band.song(), 10).then().statusCode(404);
    create(band.engineer(), band.song(), 0)
        .then()
        .statusCode(422)
        .body("code", equalTo("empty-upload"));
    create(band.engineer(), band.song(), 1L << 50)
        .then()
        .statusCode(413)
        .body("code", equalTo("too-large"));
    band.engineer().as().post("/api/v1/uploads").then().statusCode(412);
    tus(band.engineer())
        .options("/api/v1/uploads")
        .then()
        .statusCode(204)
        .header("Tus-Version", "1.0.0");
  }

  private static String begin(Band band, Api who) {
    return create(who, band.song(), FILE.length)
        .then()
        .statusCode(201)
        .extract()
        .header("Location");
  }

  private static io.restassured.response.Response create(Api who, String song, long length) {
    return tus(who)
        .header("Upload-Length", length)
        .header(
            "Upload-Metadata",
            "song " + base64(song) + ",filename " + base64("Mix 1.wav") + ",kind " + base64("main"))
        .post("/api/v1/uploads");
  }

  private static io.restassured.response.Response piece(
      Api who, String at, long offset, byte[] bytes) {
    return tus(who)
        .config(
            RestAssuredConfig.config()
                .encoderConfig(
                    EncoderConfig.encoderConfig()
                        .appendDefaultContentCharsetToContentTypeIfUndefined(false)))
        .header("Upload-Offset", offset)
        .contentType("application/offset+octet-stream")
        .body(bytes)
        .patch(at);
  }

  private static RequestSpecification tus(Api who) {
    return who.as().header("Tus-Resumable", "1.0.0");
  }

  private static String base64(String text) {
    return Base64.getEncoder().encodeToString(text.getBytes(StandardCharsets.UTF_8));
  }
}
