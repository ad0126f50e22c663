package org.mixaccord.acceptance;

import static org.hamcrest.Matchers.empty;
import static org.hamcrest.Matchers.equalTo;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import io.quarkus.test.common.QuarkusTestResource;
import io.quarkus.test.junit.QuarkusTest;
import io.restassured.RestAssured;
import io.restassured.config.EncoderConfig;
import io.restassured.config.RestAssuredConfig;
import io.restassured.path.json.JsonPath;
import io.restassured.response.Response;
import io.restassured.specification.RequestSpecification;
import jakarta.inject.Inject;
import java.io.IOException;
import java.io.OutputStream;
import java.net.InetAddress;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Arrays;
import java.util.Base64;
import java.util.List;
import java.util.Map;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.logging.Handler;
import java.util.logging.Level;
import java.util.logging.LogRecord;
import java.util.logging.Logger;
import java.util.stream.Stream;
import org.awaitility.Awaitility;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.mixaccord.PostgresForTests;
import org.mixaccord.storage.DiskForTests;
import org.mixaccord.storage.StorageConfig;

/** Uploads that end too early, and a disk that has no room. */
@QuarkusTest
@QuarkusTestResource(PostgresForTests.class)
class BrokenUploadTest extends UploadStage {
  private static final int FRAMES = 48000;

  /** 192,044 bytes; decoded, each of its samples takes four bytes instead of two. */
  private static final byte[] FILE =
      Sound.wav16(48000, Sound.sine(48000, 997, -20, 1), Sound.sine(48000, 997, -20, 1));

  @Inject DiskForTests disk;
  @Inject StorageConfig storage;

  @AfterEach
  void roomAgain() {
    disk.clear();
  }

  @Test
  void anUploadCutInTheMiddleIsNoMix() throws IOException {
    cut("Content-Length: " + FILE.length, FILE.length / 2);
    nothingArrives();
    assertEquals("ready", settled(upload("mix.wav", FILE)).getString("state"));
  }

  @Test
  void anUploadWithoutLengthCutInTheMiddleIsNoMixEither() throws IOException {
    cut("Transfer-Encoding: chunked", FILE.length / 2);
    nothingArrives();
  }

  /** A client once could not tell this from a refusal: it was answered wrong-state. */
  @Test
  void theSameRequestWhileTheFirstIsAtWorkIsToldToComeAgain() throws IOException {
    String path = "/api/v1/songs/" + band.song() + "/bounces?filename=mix.wav";
    RawUpload first =
        new RawUpload(
            RestAssured.port,
            "POST",
            path,
            Map.of(
                "Cookie", "mixaccord_session=" + band.engineer().cookie(),
                "Idempotency-Key", "at-once",
                "Content-Type", "application/octet-stream"));
    String id;
    try (Socket line = first.hold(FILE, 0, FILE.length, 1000)) {
      Awaitility.await().until(() -> again(path).statusCode() == 409);
      again(path)
          .then()
          .statusCode(409)
          .header("Retry-After", "2")
          .body("code", equalTo("in-progress"));
      line.getOutputStream().write(FILE, 1000, FILE.length - 1000);
      id = JsonPath.from(RawUpload.answer(line.getInputStream()).body()).getString("id");
    }
    again(path).then().statusCode(201).body("id", equalTo(id));
  }

  /** Without its body, so that it never is an upload of its own. */
  private Response again(String path) {
    return band.engineer().as().header("Idempotency-Key", "at-once").post(path);
  }

  /** Begins an upload on a line of its own, sends so many bytes of the file, and hangs up. */
  private void cut(String framing, int bytes) throws IOException {
    try (Socket line = new Socket(InetAddress.getLoopbackAddress(), RestAssured.port)) {
      OutputStream out = line.getOutputStream();
      String head =
          "POST /api/v1/songs/%s/bounces?filename=mix.wav HTTP/1.1\r\nHost: localhost\r\n"
              + "Cookie: mixaccord_session=%s\r\n%s\r\n\r\n";
      out.write(
          head.formatted(band.song(), band.engineer().cookie(), framing)
              .getBytes(StandardCharsets.US_ASCII));
      if (framing.startsWith("Transfer")) {
        out.write((Integer.toHexString(bytes) + "\r\n").getBytes(StandardCharsets.US_ASCII));
      }
      out.write(FILE, 0, bytes);
      out.flush();
      Awaitility.await().until(() -> incoming() > 0);
    }
  }

  /** The log is for faults of the server; people close their lids all day. */
  @Test
  void aLineThatBreaksIsNoFaultOfTheServer() throws Exception {
    List<LogRecord> told = new CopyOnWriteArrayList<>();
    Handler listening = new LogHandlerForTests(told);
    Logger log = Logger.getLogger("org.mixaccord.api.v1.problem.ProblemMappers");
    log.addHandler(listening);
    try {
      for (boolean reset : new boolean[] {false, true}) {
        try (Socket line = new Socket(InetAddress.getLoopbackAddress(), RestAssured.port)) {
          line.setSoLinger(reset, 0);
          String head =
              "POST /api/v1/songs/%s/notes HTTP/1.1\r\nHost: localhost\r\nContent-Type:"
                  + " application/json\r\nCookie: mixaccord_session=%s\r\nContent-Length:"
                  + " 500\r\n\r\n{\"text\":\"half a no";
          line.getOutputStream()
              .write(
                  head.formatted(band.song(), band.engineer().cookie())
                      .getBytes(StandardCharsets.US_ASCII));
          line.getOutputStream().flush();
          // Until the server has begun to read.
          Thread.sleep(300);
        }
      }
      Awaitility.await()
          .during(Duration.ofSeconds(1))
          .atMost(Duration.ofSeconds(3))
          .until(told::isEmpty);
    } finally {
      log.removeHandler(listening);
    }
  }

  private void nothingArrives() {
    Awaitility.await().until(() -> incoming() == 0);
    band.engineer()
        .get("/songs/" + band.song() + "/bounces")
        .then()
        .statusCode(200)
        .body("", empty());
  }

  /** Files that are being received just now. */
  private long incoming() throws IOException {
    Path folder = storage.dataDir().resolve("incoming");
    try (Stream<Path> files = Files.list(folder)) {
      return files.count();
    }
  }

  @Test
  void aFullDiskRefusesUploadsAndServesOn() {
    String before = measured("before.wav", FILE);
    disk.leave(FILE.length - 1);
    refused(send("mix.wav", FILE), 507, "disk-full");
    refused(tus().post("/api/v1/uploads"), 507, "disk-full");
    band.engineer()
        .get("/songs/" + band.song() + "/bounces")
        .then()
        .statusCode(200)
        .body("id", equalTo(List.of(before)));
    assertEquals(-20.0, figures(before).getDouble("whole.integratedLufs"), 0.1);
    bytesAreKept(before, FILE);
    disk.clear();
    assertEquals("ready", settled(upload("mix.wav", FILE)).getString("state"));
  }

  @Test
  void aDiskThatFillsUpOnTheWayKeepsWhatCameInPieces() {
    String at = tus().post("/api/v1/uploads").then().statusCode(201).extract().header("Location");
    piece(at, 0, 100_000).then().statusCode(204);
    disk.leave(0);
    refused(piece(at, 100_000, FILE.length), 507, "disk-full");
    band.engineer()
        .as()
        .header("Tus-Resumable", "1.0.0")
        .head(at)
        .then()
        .statusCode(200)
        .header("Upload-Offset", "100000");
    disk.clear();
    String bounce =
        piece(at, 100_000, FILE.length).then().statusCode(204).extract().header("Mixaccord-Bounce");
    bytesAreKept(bounce, FILE);
  }

  private Response piece(String at, int from, int to) {
    return band.engineer()
        .as()
        .header("Tus-Resumable", "1.0.0")
        .header("Upload-Offset", from)
        .config(
            RestAssuredConfig.config()
                .encoderConfig(
                    EncoderConfig.encoderConfig()
                        .appendDefaultContentCharsetToContentTypeIfUndefined(false)))
        .contentType("application/offset+octet-stream")
        .body(Arrays.copyOfRange(FILE, from, to))
        .patch(at);
  }

  private RequestSpecification tus() {
    String song = Base64.getEncoder().encodeToString(band.song().getBytes(StandardCharsets.UTF_8));
    return band.engineer()
        .as()
        .header("Tus-Resumable", "1.0.0")
        .header("Upload-Length", FILE.length)
        .header("Upload-Metadata", "song " + song);
  }

  @Test
  void measuringThatFindsNoRoomIsTriedAgain() throws InterruptedException {
    disk.leave(FILE.length + 1000);
    String bounce = upload("mix.wav", FILE);
    Thread.sleep(1500);
    assertEquals("measuring", band.engineer().get("/bounces/" + bounce).path("state"));
    bytesAreKept(bounce, FILE);
    disk.clear();
    JsonPath ready = settled(bounce);
    assertEquals("ready", ready.getString("state"));
    assertEquals(FRAMES, ready.getInt("file.frames"));
  }

  @Test
  void measuringThatNeverFindsRoomIsGivenUpAndTheBytesAreKept() {
    disk.leave(FILE.length + 1000);
    String bounce = upload("mix.wav", FILE);
    JsonPath failed =
        Awaitility.await()
            .atMost(Duration.ofSeconds(60))
            .until(
                () -> band.engineer().get("/bounces/" + bounce).jsonPath(),
                b -> b.getString("state").equals("failed"));
    plain(failed.getString("problem.detail"));
    assertTrue(
        failed.getString("problem.detail").contains("bytes are kept"),
        failed.getString("problem.detail"));
    bytesAreKept(bounce, FILE);
  }

  /** Keeps what a logger was told loudly. */
  private static final class LogHandlerForTests extends Handler {
    private final List<LogRecord> told;

    LogHandlerForTests(List<LogRecord> told) {
      this.told = told;
    }

    @Override
    public void publish(LogRecord log) {
      if (log.getLevel().intValue() >= Level.WARNING.intValue()) {
        told.add(log);
      }
    }

    @Override
    public void flush() {
      // nothing is held back
    }

    @Override
    public void close() {
      // nothing is open
    }
  }
}
