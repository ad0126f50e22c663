package org.mixaccord.acceptance;

import static java.nio.charset.StandardCharsets.US_ASCII;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import io.restassured.path.json.JsonPath;
import java.io.IOException;
import java.io.OutputStream;
import java.net.Socket;
import java.nio.file.Path;
import java.util.Base64;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Every limit of uploads, set small: what it refuses, in which words, and before which bytes. */
class UploadLimitsIT {
  private static final int MOST_BYTES = 1_000_000;
  private static final int PROJECT_BYTES = 2_500_000;
  private static final byte[] NONE = {};

  private static ServerProcess server;

  private String song;

  @BeforeAll
  static void start(@TempDir Path folder) throws IOException {
    server =
        new ServerProcess(
            folder.resolve("data"),
            256,
            Map.of(
                "MIXACCORD_STORAGE_MAX_UPLOAD_BYTES",
                String.valueOf(MOST_BYTES),
                "MIXACCORD_STORAGE_PROJECT_BYTES",
                String.valueOf(PROJECT_BYTES),
                "MIXACCORD_STORAGE_UPLOADS_AT_ONCE",
                "2",
                "MIXACCORD_STORAGE_UNFINISHED_UPLOADS",
                "3"));
  }

  @AfterAll
  static void stop() throws IOException {
    server.close();
  }

  @BeforeEach
  void freshProject() throws IOException {
    song = server.song();
  }

  @Test
  void whoAsksFirstIsRefusedWithoutSendingAByte() throws IOException {
    try (Socket line = post(Map.of("Expect", "100-continue")).open(MOST_BYTES + 1)) {
      JsonPath refused = refused(RawUpload.answer(line.getInputStream()), 413, "too-large");
      assertEquals(MOST_BYTES, refused.getInt("maxBytes"));
      assertTrue(refused.getString("detail").contains("1 MB"), refused.getString("detail"));
    }
    try (Socket line = post(Map.of("Expect", "100-continue")).open(MOST_BYTES)) {
      assertEquals(100, RawUpload.answer(line.getInputStream()).status());
      line.getOutputStream().write(noise(1, MOST_BYTES));
      assertEquals(201, RawUpload.answer(line.getInputStream()).status());
    }
  }

  @Test
  void whoSendsAllTheSameHearsTheRefusalAndTheServerGoesOn() throws IOException {
    try (Socket line = post(Map.of()).open(MOST_BYTES + 1)) {
      refused(RawUpload.answer(line.getInputStream()), 413, "too-large");
    }
    byte[] chunk = noise(1, MOST_BYTES + 1);
    refused(chunked(chunk), 413, "too-large");
    assertEquals(201, post(Map.of()).send(noise(1, 10), 0, 10, sent -> {}).status());
    assertEquals(List.of(), server.filesIn("incoming"));
  }

  @Test
  void aProjectTakesNoMoreThanItsShareAndCountsTheSameFileOnce() throws IOException {
    byte[] first = noise(2, MOST_BYTES);
    assertEquals(201, sent(first).status());
    assertEquals(201, sent(first).status());
    assertEquals(201, sent(noise(3, MOST_BYTES)).status());
    try (Socket line = post(Map.of("Expect", "100-continue")).open(500_001)) {
      JsonPath refused = refused(RawUpload.answer(line.getInputStream()), 413, "quota-full");
      assertEquals(500_000, refused.getInt("leftBytes"));
      assertEquals(PROJECT_BYTES, refused.getInt("quotaBytes"));
    }
    refused(begun(500_001), 413, "quota-full");
    refused(chunked(noise(4, 500_001)), 413, "quota-full");
    assertEquals(201, chunked(noise(4, 500_000)).status());
    String elsewhere = song;
    song = server.song();
    assertEquals(201, sent(first).status());
    song = elsewhere;
    refused(sent(noise(5, 1)), 413, "quota-full");
  }

  @Test
  void whatIsPromisedToAnUploadCountsUntilItEnds() throws IOException {
    assertEquals(201, sent(noise(6, MOST_BYTES)).status());
    String at = begun(MOST_BYTES).header("Location");
    refused(sent(noise(7, 500_001)), 413, "quota-full");
    assertEquals(204, tus("DELETE", at, Map.of()).send(NONE, 0, 0, sent -> {}).status());
    assertEquals(201, sent(noise(7, 500_001)).status());
  }

  @Test
  void oneMoreThanMayRunAtOnceWaits() throws IOException {
    byte[] bytes = noise(8, 1000);
    Map<String, String> asking = Map.of("Expect", "100-continue");
    try (Socket one = post(asking).open(bytes.length);
        Socket two = post(asking).open(bytes.length)) {
      assertEquals(100, RawUpload.answer(one.getInputStream()).status());
      assertEquals(100, RawUpload.answer(two.getInputStream()).status());
      RawUpload.Answer third = sent(bytes);
      refused(third, 429, "slow-down");
      assertNotNull(third.header("Retry-After"));
      one.getOutputStream().write(bytes);
      assertEquals(201, RawUpload.answer(one.getInputStream()).status());
      assertEquals(201, sent(bytes).status());
    }
  }

  @Test
  void whoBeginsAndBeginsFinishesSomeFirst() throws IOException {
    List<String> begun =
        List.of(
            begun(10).header("Location"),
            begun(10).header("Location"),
            begun(10).header("Location"));
    RawUpload.Answer fourth = begun(10);
    refused(fourth, 429, "slow-down");
    assertNotNull(fourth.header("Retry-After"));
    for (String at : begun) {
      assertEquals(204, tus("DELETE", at, Map.of()).send(NONE, 0, 0, sent -> {}).status());
    }
    String at = begun(10).header("Location");
    assertEquals(204, tus("DELETE", at, Map.of()).send(NONE, 0, 0, sent -> {}).status());
  }

  @Test
  void theLargestFileIsSaidToWhoAsks() throws IOException {
    RawUpload.Answer able = tus("OPTIONS", "/api/v1/uploads", Map.of()).send(NONE, 0, 0, s -> {});
    assertEquals(String.valueOf(MOST_BYTES), able.header("Tus-Max-Size"));
    refused(begun(MOST_BYTES + 1), 413, "too-large");
  }

  private RawUpload post(Map<String, String> headers) {
    Map<String, String> all = new HashMap<>(headers);
    all.put("Cookie", server.cookie());
    return new RawUpload(
        server.port, "POST", "/api/v1/songs/" + song + "/bounces?filename=mix.wav", all);
  }

  private RawUpload.Answer sent(byte[] bytes) throws IOException {
    return post(Map.of()).send(bytes, 0, bytes.length, sent -> {});
  }

  /** Sends without saying beforehand how much comes. */
  private RawUpload.Answer chunked(byte[] bytes) throws IOException {
    String head =
        "POST /api/v1/songs/%s/bounces?filename=mix.wav HTTP/1.1\r\nHost: localhost\r\n"
            + "Cookie: %s\r\nTransfer-Encoding: chunked\r\n\r\n%x\r\n";
    try (Socket line = new Socket("127.0.0.1", server.port)) {
      OutputStream out = line.getOutputStream();
      out.write(head.formatted(song, server.cookie(), bytes.length).getBytes(US_ASCII));
      out.write(bytes);
      out.write("\r\n0\r\n\r\n".getBytes(US_ASCII));
      return RawUpload.answer(line.getInputStream());
    }
  }

  private RawUpload.Answer begun(long length) throws IOException {
    Map<String, String> headers =
        Map.of(
            "Upload-Length",
            String.valueOf(length),
            "Upload-Metadata",
            "song " + Base64.getEncoder().encodeToString(song.getBytes(US_ASCII)));
    return tus("POST", "/api/v1/uploads", headers).send(NONE, 0, 0, sent -> {});
  }

  private static RawUpload tus(String method, String path, Map<String, String> headers) {
    Map<String, String> all = new HashMap<>(headers);
    all.put("Cookie", server.cookie());
    all.put("Tus-Resumable", "1.0.0");
    return new RawUpload(server.port, method, path, all);
  }

  private static JsonPath refused(RawUpload.Answer answer, int status, String code) {
    assertEquals(status, answer.status(), answer.toString());
    JsonPath problem = JsonPath.from(answer.body());
    assertEquals(code, problem.getString("code"));
    UploadStage.plain(problem.getString("detail"));
    return problem;
  }

  private static byte[] noise(long seed, int count) {
    byte[] bytes = new byte[count];
    new Random(seed).nextBytes(bytes);
    return bytes;
  }
}
