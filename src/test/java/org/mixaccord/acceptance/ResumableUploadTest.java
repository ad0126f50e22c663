package org.mixaccord.acceptance;

import static java.nio.charset.StandardCharsets.US_ASCII;
import static org.hamcrest.Matchers.equalTo;
import static org.hamcrest.Matchers.matchesPattern;
import static org.hamcrest.Matchers.notNullValue;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;

import io.quarkus.narayana.jta.QuarkusTransaction;
import io.quarkus.test.common.QuarkusTestResource;
import io.quarkus.test.junit.QuarkusTest;
import io.restassured.RestAssured;
import io.restassured.config.EncoderConfig;
import io.restassured.config.RestAssuredConfig;
import io.restassured.response.Response;
import io.restassured.specification.RequestSpecification;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import java.io.IOException;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.util.Arrays;
import java.util.Base64;
import java.util.List;
import java.util.Map;
import org.awaitility.Awaitility;
import org.junit.jupiter.api.Test;
import org.mixaccord.PostgresForTests;
import org.mixaccord.accounts.Hashes;
import org.mixaccord.jobs.Resuming;
import org.mixaccord.storage.StorageConfig;

@QuarkusTest
@QuarkusTestResource(PostgresForTests.class)
class ResumableUploadTest {
  private static final byte[] FILE =
      "not audio, but kept all the same ".repeat(9).getBytes(StandardCharsets.US_ASCII);

  private static final String SHA256 = UploadStage.sha256(FILE);
  private static final String PIECE = "application/offset+octet-stream";

  @Inject Resuming resuming;
  @Inject StorageConfig storage;
  @Inject EntityManager entities;

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
    UploadStage.refused(
            band.engineer()
                .as()
                .header("Tus-Resumable", "0.2.2")
                .header("Upload-Length", 10)
                .post("/api/v1/uploads"),
            412,
            "other-protocol")
        .header("Tus-Version", "1.0.0");
    tus(band.engineer())
        .options("/api/v1/uploads")
        .then()
        .statusCode(204)
        .header("Tus-Version", "1.0.0")
        .header("Tus-Checksum-Algorithm", "sha1,sha256,md5")
        .header("Tus-Extension", "creation,creation-with-upload,checksum,termination,expiration");
  }

  @Test
  void headersOfThePieceAreHeldToTheProtocol() {
    Band band = Band.assemble();
    Api who = band.engineer();
    refused(tus(who).post("/api/v1/uploads"), 400, "malformed");
    refused(tus(who).header("Upload-Length", "-1").post("/api/v1/uploads"), 400, "malformed");
    String at = begin(band, who);
    refused(
        tus(who).header("Upload-Offset", 0).contentType("audio/wav").body(FILE).patch(at),
        415,
        "unsupported-media-type");
    refused(bytes(tus(who), FILE).patch(at), 400, "malformed");
    refused(
        bytes(
                tus(who).header("Upload-Offset", 0),
                (new String(FILE, US_ASCII) + "!").getBytes(US_ASCII))
            .patch(at),
        413,
        "too-large");
    tus(who)
        .head(at)
        .then()
        .statusCode(200)
        .header("Upload-Offset", "0")
        .header("Cache-Control", "no-store")
        .header("Upload-Metadata", metadata(band.song()))
        .header(
            "Upload-Expires",
            matchesPattern("(Mon|Tue|Wed|Thu|Fri|Sat|Sun), \\d\\d \\w{3} \\d{4} [\\d:]{8} GMT"));
    refused(tus(who).delete("/api/v1/uploads/nothing"), 404, "not-found");
    String other = who.make("/projects/" + band.project() + "/songs", Map.of("title", "Other"));
    refused(
        tus(who)
            .header("Upload-Length", 10)
            .header("Upload-Metadata", metadata(band.song()) + ",of " + base64(other))
            .post("/api/v1/uploads"),
        404,
        "not-found");
  }

  private static void refused(Response answer, int status, String code) {
    UploadStage.refused(answer, status, code).header("Tus-Resumable", "1.0.0");
  }

  @Test
  void aPieceThatCameChangedDoesNotCount() throws Exception {
    Band band = Band.assemble();
    String at = begin(band, band.engineer());
    byte[] half = Arrays.copyOf(FILE, 100);
    checked(band, at, 0, half, "sha1", half).then().statusCode(204).header("Upload-Offset", "100");
    byte[] rest = Arrays.copyOfRange(FILE, 100, FILE.length);
    for (String algorithm : List.of("sha1", "sha256", "md5")) {
      refused(checked(band, at, 100, rest, algorithm, half), 460, "checksum-differs");
      tus(band.engineer()).head(at).then().header("Upload-Offset", "100");
    }
    refused(checked(band, at, 100, rest, "crc32", half), 400, "malformed");
    byte[] part = Arrays.copyOf(rest, 50);
    checked(band, at, 100, part, "md5", part).then().statusCode(204);
    byte[] end = Arrays.copyOfRange(rest, 50, rest.length);
    whole(band, checked(band, at, 150, end, "sha256", end));
  }

  private static Response checked(
      Band band, String at, int offset, byte[] bytes, String algorithm, byte[] said)
      throws Exception {
    byte[] hash =
        algorithm.equals("crc32")
            ? new byte[4]
            : MessageDigest.getInstance(algorithm.replace("sha", "SHA-")).digest(said);
    return bytes(
            tus(band.engineer())
                .header("Upload-Offset", offset)
                .header(
                    "Upload-Checksum", algorithm + " " + Base64.getEncoder().encodeToString(hash)),
            bytes)
        .patch(at);
  }

  @Test
  void aFileMayComeWithItsAnnouncementAndByOtherMethods() {
    Band band = Band.assemble();
    Api who = band.engineer();
    Response begun =
        bytes(
                tus(who)
                    .header("Upload-Length", FILE.length)
                    .header("Upload-Metadata", metadata(band.song())),
                Arrays.copyOf(FILE, 100))
            .post("/api/v1/uploads");
    begun.then().statusCode(201).header("Upload-Offset", "100");
    String at = begun.header("Location");
    Response end =
        bytes(
                tus(who).header("X-HTTP-Method-Override", "PATCH").header("Upload-Offset", 100),
                Arrays.copyOfRange(FILE, 100, FILE.length))
            .post(at);
    whole(band, end);
    tus(who).header("X-HTTP-Method-Override", "DELETE").post(at).then().statusCode(204);
    tus(who).head(at).then().statusCode(404);
  }

  /** A phone on a dead line: the server still waits for the rest of what will never come. */
  @Test
  void whoComesBackDoesNotWaitForTheirOwnDeadLine() throws IOException {
    Band band = Band.assemble();
    for (boolean asksFirst : new boolean[] {true, false}) {
      String at = begin(band, band.engineer());
      RawUpload dead =
          new RawUpload(
              RestAssured.port,
              "PATCH",
              at,
              Map.of(
                  "Cookie",
                  "mixaccord_session=" + band.engineer().cookie(),
                  "Tus-Resumable",
                  "1.0.0",
                  "Upload-Offset",
                  "0",
                  "Content-Type",
                  PIECE));
      try (Socket line = dead.hold(FILE, 0, FILE.length, 100)) {
        Path file = part(at);
        Awaitility.await().until(() -> Files.exists(file) && Files.size(file) == 100);
        if (asksFirst) {
          tus(band.engineer()).head(at).then().statusCode(200).header("Upload-Offset", "100");
        }
        whole(band, piece(band.engineer(), at, 100, Arrays.copyOfRange(FILE, 100, FILE.length)));
        assertEquals(-1, line.getInputStream().read());
      }
    }
  }

  @Test
  void whatNobodyGoesOnWithIsSweptAndWhatIsGoneOnWithIsKept() throws IOException {
    Band band = Band.assemble();
    String old = begin(band, band.engineer());
    String young = begin(band, band.engineer());
    piece(band.engineer(), old, 0, Arrays.copyOf(FILE, 100)).then().statusCode(204);
    sql("update resumable_upload set expires_at = created_at where id = ?1", id(old));
    sql(
        "update resumable_upload set expires_at = expires_at - interval '6 days' where id = ?1",
        id(young));
    String before = tus(band.engineer()).head(young).header("Upload-Expires");
    piece(band.engineer(), young, 0, Arrays.copyOf(FILE, 100)).then().statusCode(204);
    assertNotEquals(before, tus(band.engineer()).head(young).header("Upload-Expires"));
    Path nobodys = Files.write(uploads().resolve("nobodys.part"), FILE);
    resuming.sweep();
    assertFalse(Files.exists(nobodys));
    assertFalse(Files.exists(part(old)));
    assertEquals(100, Files.size(part(young)));
    tus(band.engineer()).head(old).then().statusCode(404);
  }

  /** The server died after the last byte and before the mix was made, at one step or another. */
  @Test
  void aWholeFileBecomesOneMixWheneverTheServerDied() throws IOException {
    Band band = Band.assemble();
    String swept = begin(band, band.engineer());
    Files.write(part(swept), FILE);
    resuming.sweep();
    String bounce = tus(band.engineer()).head(swept).header("Mixaccord-Bounce");
    assertEquals(SHA256, band.engineer().get("/bounces/" + bounce).path("file.sha256"));

    String asked = begin(band, band.engineer());
    Files.write(part(asked), FILE);
    tus(band.engineer()).head(asked).then().header("Mixaccord-Bounce", notNullValue());

    String gone = begin(band, band.engineer());
    Files.write(part(gone), FILE);
    whole(band, piece(band.engineer(), gone, FILE.length, new byte[0]));

    String moved = begin(band, band.engineer());
    sql("update resumable_upload set sha256 = '" + SHA256 + "' where id = ?1", id(moved));
    tus(band.engineer()).head(moved).then().header("Mixaccord-Bounce", notNullValue());
    resuming.sweep();
    for (String at : List.of(swept, asked, gone, moved)) {
      assertFalse(Files.exists(part(at)));
    }
    band.engineer().get("/songs/" + band.song() + "/bounces").then().body("size()", equalTo(4));
  }

  @Test
  void whatTheServerDiedOverWithoutSeeingItsChecksumIsTakenBack() throws IOException {
    Band band = Band.assemble();
    String at = begin(band, band.engineer());
    byte[] half = Arrays.copyOf(FILE, 150);
    half[120] ^= 1;
    Files.write(part(at), half);
    sql("update resumable_upload set unchecked_from = 100 where id = ?1", id(at));
    tus(band.engineer()).head(at).then().statusCode(200).header("Upload-Offset", "100");
    whole(band, piece(band.engineer(), at, 100, Arrays.copyOfRange(FILE, 100, FILE.length)));
  }

  private static void whole(Band band, Response lastPiece) {
    String bounce = lastPiece.then().statusCode(204).extract().header("Mixaccord-Bounce");
    assertEquals(SHA256, band.engineer().get("/bounces/" + bounce).path("file.sha256"));
  }

  private void sql(String statement, String id) {
    QuarkusTransaction.requiringNew()
        .run(
            () ->
                assertEquals(
                    1, entities.createNativeQuery(statement).setParameter(1, id).executeUpdate()));
  }

  private Path uploads() throws IOException {
    return Files.createDirectories(storage.dataDir().resolve("uploads"));
  }

  private Path part(String at) throws IOException {
    return uploads().resolve(id(at) + ".part");
  }

  private static String id(String at) {
    return at.substring(at.lastIndexOf('/') + 1);
  }

  private static RequestSpecification bytes(RequestSpecification request, byte[] bytes) {
    return request
        .config(
            RestAssuredConfig.config()
                .encoderConfig(
                    EncoderConfig.encoderConfig()
                        .appendDefaultContentCharsetToContentTypeIfUndefined(false)))
        .contentType(PIECE)
        .body(bytes);
  }

  private static String begin(Band band, Api who) {
    return create(who, band.song(), FILE.length)
        .then()
        .statusCode(201)
        .extract()
        .header("Location");
  }

  private static Response create(Api who, String song, long length) {
    return tus(who)
        .header("Upload-Length", length)
        .header("Upload-Metadata", metadata(song))
        .post("/api/v1/uploads");
  }

  private static String metadata(String song) {
    return "song " + base64(song) + ",filename " + base64("Mix 1.wav") + ",kind " + base64("main");
  }

  private static Response piece(Api who, String at, long offset, byte[] bytes) {
    return bytes(tus(who).header("Upload-Offset", offset), bytes).patch(at);
  }

  private static RequestSpecification tus(Api who) {
    return who.as().header("Tus-Resumable", "1.0.0");
  }

  private static String base64(String text) {
    return Base64.getEncoder().encodeToString(text.getBytes(StandardCharsets.UTF_8));
  }
}
