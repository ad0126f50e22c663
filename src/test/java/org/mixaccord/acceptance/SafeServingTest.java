package org.mixaccord.acceptance;

import static io.restassured.RestAssured.given;
import static org.hamcrest.Matchers.containsString;
import static org.hamcrest.Matchers.equalTo;
import static org.hamcrest.Matchers.startsWith;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import io.quarkus.test.common.QuarkusTestResource;
import io.quarkus.test.junit.QuarkusTest;
import io.restassured.RestAssured;
import io.restassured.response.Response;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.net.SocketTimeoutException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.util.List;
import org.awaitility.Awaitility;
import org.junit.jupiter.api.Test;
import org.mixaccord.PostgresForTests;

/**
 * What the server sends and takes in cannot be turned against whoever reads it, or against itself.
 */
@QuarkusTest
@QuarkusTestResource(PostgresForTests.class)
class SafeServingTest extends UploadStage {
  private static final byte[] MIX = Sound.wav(48000, Sound.sine(48000, 440, -20, 0.5));

  @Test
  void everyAnswerCarriesEachSafetyHeaderOnce() {
    String mix = measured("mix.wav", MIX);
    Awaitility.await()
        .until(
            () ->
                band.engineer()
                    .get("/bounces/" + mix + "/listening")
                    .path("state")
                    .equals("ready"));
    for (String address :
        List.of(
            "/",
            "/songs/" + band.song(),
            "/songs/" + band.song() + "/approve",
            "/me",
            "/join/" + "x".repeat(40),
            "/sign-in",
            "/nothing-here",
            "/api/v1/me",
            "/api/v1/nothing-here",
            "/api/v1/songs/" + band.song() + "/history",
            "/api/v1/bounces/" + mix + "/audio",
            "/api/v1/bounces/" + mix + "/listening/whole",
            "/q/openapi",
            script())) {
      Response answer = band.engineer().as().get(address);
      for (String header :
          List.of(
              "Content-Security-Policy",
              "X-Content-Type-Options",
              "Referrer-Policy",
              "X-Frame-Options")) {
        assertEquals(1, answer.headers().getValues(header).size(), header + " of " + address);
      }
      assertEquals("nosniff", answer.header("X-Content-Type-Options"));
      String policy = answer.header("Content-Security-Policy");
      assertFalse(policy.contains("unsafe"), address + ": " + policy);
      assertTrue(policy.contains("default-src"), address + ": " + policy);
    }
    band.engineer()
        .as()
        .get("/songs/" + band.song())
        .then()
        .header("Content-Security-Policy", startsWith("default-src 'none'; script-src 'self';"))
        .header("Content-Security-Policy", containsString("frame-ancestors 'none'"));
  }

  /** The address of the page's own program. */
  private static String script() {
    String page = given().get("/").asString();
    return page.replaceAll("(?s).*<script[^>]*src=\"([^\"]+)\".*", "$1");
  }

  @Test
  void aDownloadCannotBecomeAPageOfOurs() {
    String name = "../../evil\"; x=\u00e9\r\nSet-Cookie: a=b<script>.html";
    refused(send(name, MIX), 422, "invalid");
    String mix = upload("../../etc/evil\" é <script>.html", MIX);
    band.engineer()
        .get("/bounces/" + mix + "/audio")
        .then()
        .statusCode(200)
        .contentType("application/octet-stream")
        .header(
            "Content-Disposition",
            equalTo(
                "attachment; filename=\".._.._etc_evil_ _ _script_.html\"; filename*=UTF-8''"
                    + "..%2F..%2Fetc%2Fevil%22%20%C3%A9%20%3Cscript%3E.html"))
        .header("Content-Security-Policy", equalTo("sandbox; default-src 'none'"))
        .header("X-Content-Type-Options", equalTo("nosniff"));
    band.engineer()
        .get("/bounces/" + mix)
        .then()
        .body("file.name", equalTo("../../etc/evil\" é <script>.html"));
  }

  @Test
  void noAddressLeadsOutOfWhatIsServed() throws IOException {
    for (String path :
        List.of(
            "/../application.properties",
            "/..%2f..%2fapplication.properties",
            "/%2e%2e/%2e%2e/etc/passwd",
            "/static/..%5c..%5capplication.properties",
            "/songs/..%2f..%2f..%2fetc%2fpasswd",
            "/META-INF/MANIFEST.MF",
            "/application.properties",
            "/db/migration/V0001__people.sql")) {
      String answer = raw("GET " + path + " HTTP/1.1\r\nHost: localhost\r\n", "");
      assertFalse(answer.contains("quarkus.") || answer.contains("root:"), path + "\n" + answer);
      assertFalse(answer.contains("create table"), path);
    }
  }

  private static String raw(String head, String body) throws IOException {
    try (Socket line = new Socket(InetAddress.getLoopbackAddress(), RestAssured.port)) {
      line.getOutputStream()
          .write((head + "Connection: close\r\n\r\n" + body).getBytes(StandardCharsets.UTF_8));
      return new String(line.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    }
  }

  @Test
  void aLargeOrDeepBodyIsRefusedWithoutALengthToo() throws Exception {
    HttpResponse<String> large =
        project("{\"title\":\"" + "x".repeat(1_100_000) + "\",\"artist\":\"y\"}");
    assertEquals(413, large.statusCode());
    assertTrue(large.body().contains("\"too-large\""), large.body());
    HttpResponse<String> deep = project("[".repeat(500_000));
    assertEquals(400, deep.statusCode());
    assertTrue(deep.body().contains("\"malformed\""), deep.body());
    byte[] wav = Sound.wav(48000, Sound.sine(48000, 440, -20, 20));
    assertTrue(wav.length > 2_000_000);
    upload("large.wav", wav);
  }

  /**
   * Sent by a client that does not look at the body: the one of the other tests writes each level
   * of a JSON text with its indentation into its log, which grows with the square of the depth.
   */
  private HttpResponse<String> project(String body) throws Exception {
    return HttpClient.newHttpClient()
        .send(
            HttpRequest.newBuilder(
                    URI.create("http://localhost:" + RestAssured.port + "/api/v1/projects"))
                .header("Cookie", "mixaccord_session=" + band.engineer().cookie())
                .header("Content-Type", "application/json")
                .POST(
                    HttpRequest.BodyPublishers.ofInputStream(
                        () -> new ByteArrayInputStream(body.getBytes(StandardCharsets.UTF_8))))
                .build(),
            HttpResponse.BodyHandlers.ofString());
  }

  /** A file that names other files or addresses is no sound, and nobody is called because of it. */
  @Test
  void noAddressInAFileIsFetched() throws IOException {
    try (ServerSocket trap = new ServerSocket(0, 5, InetAddress.getLoopbackAddress())) {
      trap.setSoTimeout(1000);
      String there = "http://127.0.0.1:" + trap.getLocalPort() + "/sound.wav";
      for (String list :
          List.of(
              "#EXTM3U\n#EXTINF:10,\n" + there + "\n",
              "#EXTM3U\n#EXT-X-VERSION:3\n#EXT-X-TARGETDURATION:10\n#EXTINF:10,\n"
                  + there
                  + "\n#EXT-X-ENDLIST\n",
              "ffconcat version 1.0\nfile '" + there + "'\n",
              "[playlist]\nFile1=" + there + "\nNumberOfEntries=1\n",
              "v=0\no=- 0 0 IN IP4 127.0.0.1\nc=IN IP4 127.0.0.1\nm=audio 4000 RTP/AVP 0\n",
              "<?xml version=\"1.0\"?><MPD><BaseURL>" + there + "</BaseURL></MPD>")) {
        String bounce = upload("mix.wav", list.getBytes(StandardCharsets.UTF_8));
        assertEquals("not-audio", settled(bounce).getString("problem.code"), list);
      }
      assertThrows(SocketTimeoutException.class, trap::accept);
    }
  }
}
