package org.mixaccord.acceptance;

import static io.restassured.RestAssured.given;
import static org.hamcrest.Matchers.equalTo;
import static org.hamcrest.Matchers.startsWith;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import io.restassured.path.json.JsonPath;
import io.restassured.response.Response;
import io.restassured.response.ValidatableResponse;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.time.Duration;
import java.util.HexFormat;
import org.awaitility.Awaitility;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;

/** A project people upload to, and a look after each test whether the server still stands. */
abstract class UploadStage {
  private static final Duration LONG = Duration.ofSeconds(60);

  Band band;

  @BeforeEach
  void aBand() {
    band = Band.assemble();
  }

  @AfterEach
  void theServerStands() {
    given().get("/q/health/ready").then().statusCode(200);
    band.engineer().get("/songs/" + band.song()).then().statusCode(200);
  }

  Response send(String fileName, byte[] bytes) {
    return band.engineer()
        .as()
        .contentType("application/octet-stream")
        .queryParam("filename", fileName)
        .body(bytes)
        .post("/api/v1/songs/" + band.song() + "/bounces");
  }

  /** Uploads a file that is taken, and says the bounce. */
  String upload(String fileName, byte[] bytes) {
    return send(fileName, bytes).then().statusCode(201).extract().path("id");
  }

  /** Uploads a file that is sound, and waits for its figures. */
  String measured(String fileName, byte[] bytes) {
    String bounce = upload(fileName, bytes);
    assertEquals("ready", settled(bounce).getString("state"));
    return bounce;
  }

  /** The bounce when the work on it is over. */
  JsonPath settled(String bounce) {
    return Awaitility.await()
        .atMost(LONG)
        .until(
            () -> band.engineer().get("/bounces/" + bounce).jsonPath(),
            b -> b.getString("state").equals("ready") || b.getString("state").equals("failed"));
  }

  JsonPath figures(String bounce) {
    Response answer = band.engineer().get("/bounces/" + bounce + "/measurements");
    answer.then().statusCode(200);
    return answer.jsonPath();
  }

  /** An answer that refuses in the catalogue's form and in plain words. */
  static ValidatableResponse refused(Response answer, int status, String code) {
    ValidatableResponse then =
        answer
            .then()
            .statusCode(status)
            .contentType(startsWith("application/problem+json"))
            .body("status", equalTo(status))
            .body("code", equalTo(code))
            .body("type", equalTo("/problems/" + code));
    plain(answer.path("detail"));
    return then;
  }

  /** A sentence for a musician: nothing of the machine shows in it. */
  static void plain(String detail) {
    assertTrue(detail != null && detail.matches("(?s)[A-Z“].{15,}[.?]"), "" + detail);
    assertTrue(
        !detail.matches(
            "(?is).*(exception|org\\.mixaccord|java\\.|sql|ffmpeg|stack|null|/tmp|/data/).*"),
        detail);
  }

  /** Whatever came of an upload, the engineer gets back the very bytes. */
  void bytesAreKept(String bounce, byte[] bytes) {
    Response answer = band.engineer().get("/bounces/" + bounce + "/audio");
    answer.then().statusCode(200).header("Content-Disposition", startsWith("attachment;"));
    assertEquals(sha256(bytes), sha256(answer.asByteArray()));
    assertEquals(
        sha256(bytes), band.engineer().get("/bounces/" + bounce).path("file.sha256").toString());
  }

  static String sha256(byte[] bytes) {
    try {
      return HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(bytes));
    } catch (NoSuchAlgorithmException e) {
      throw new AssertionError(e);
    }
  }
}
