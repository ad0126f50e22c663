package org.mixaccord.acceptance;

import static io.restassured.RestAssured.given;
import static org.hamcrest.Matchers.containsString;
import static org.hamcrest.Matchers.equalTo;
import static org.hamcrest.Matchers.not;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import io.quarkus.test.common.QuarkusTestResource;
import io.quarkus.test.junit.QuarkusTest;
import io.restassured.RestAssured;
import io.restassured.http.ContentType;
import io.restassured.http.Cookie;
import io.restassured.response.Response;
import jakarta.inject.Inject;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Properties;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.logging.Handler;
import java.util.logging.Logger;
import javax.sql.DataSource;
import org.jboss.logmanager.ExtHandler;
import org.jboss.logmanager.ExtLogRecord;
import org.junit.jupiter.api.Test;
import org.mixaccord.PostgresForTests;

/** What the server promises about safety, line by line, where no other test holds it already. */
@QuarkusTest
@QuarkusTestResource(PostgresForTests.class)
class SecurityTest extends UploadStage {
  @Inject DataSource database;

  @Test
  void theServerListensOnLoopbackUnlessToldOtherwise() throws IOException {
    Properties shipped = new Properties();
    try (InputStream in = SecurityTest.class.getResourceAsStream("/application.properties")) {
      shipped.load(in);
    }
    assertEquals("127.0.0.1", shipped.getProperty("quarkus.http.host"));
  }

  @Test
  void theCookieIsKeptFromScriptsAndOtherSites() {
    Cookie cookie = signIn().detailedCookie("mixaccord_session");
    assertTrue(cookie.isHttpOnly());
    assertEquals("Lax", cookie.getSameSite());
    assertEquals("/", cookie.getPath());
    assertEquals(30L * 24 * 3600, cookie.getMaxAge());
    assertTrue(cookie.getValue().length() >= 32, cookie.getValue());
  }

  private static Response signIn() {
    Owner.signedIn();
    Response answer =
        given()
            .contentType(ContentType.JSON)
            .body(Map.of("email", "owner@example.org", "password", "quiet harbour wall"))
            .post("/api/v1/session");
    answer.then().statusCode(204);
    return answer;
  }

  @Test
  void signingInGivesANewSessionAndEndsTheOneBefore() {
    String first = signIn().cookie("mixaccord_session");
    String second =
        given()
            .cookie("mixaccord_session", first)
            .contentType(ContentType.JSON)
            .body(Map.of("email", "owner@example.org", "password", "quiet harbour wall"))
            .post("/api/v1/session")
            .then()
            .statusCode(204)
            .extract()
            .cookie("mixaccord_session");
    assertNotEquals(first, second);
    given().cookie("mixaccord_session", first).get("/api/v1/me").then().statusCode(401);
    given().cookie("mixaccord_session", second).get("/api/v1/me").then().statusCode(200);
    String chosen = "a".repeat(first.length());
    given()
        .cookie("mixaccord_session", chosen)
        .contentType(ContentType.JSON)
        .body(Map.of("email", "owner@example.org", "password", "quiet harbour wall"))
        .post("/api/v1/session")
        .then()
        .cookie("mixaccord_session", not(equalTo(chosen)));
  }

  @Test
  void aBrowserUnusedForThirtyDaysHasToSignInAgain() throws SQLException {
    String cookie = signIn().cookie("mixaccord_session");
    age(cookie, "29 days");
    given().cookie("mixaccord_session", cookie).get("/api/v1/me").then().statusCode(200);
    age(cookie, "31 days");
    given().cookie("mixaccord_session", cookie).get("/api/v1/me").then().statusCode(401);
  }

  private void age(String cookie, String by) throws SQLException {
    try (var connection = database.getConnection();
        var statement = connection.createStatement()) {
      int rows =
          statement.executeUpdate(
              "update web_session set last_seen_at = now() - interval '%s' where token_hash = '%s'"
                  .formatted(by, sha256(cookie.getBytes(StandardCharsets.UTF_8))));
      assertEquals(1, rows);
    }
  }

  @Test
  void nothingThatOpensADoorIsKeptAsItIs() throws SQLException {
    List<String> secrets = new ArrayList<>();
    secrets.add("quiet harbour wall");
    secrets.add(signIn().cookie("mixaccord_session"));
    secrets.add(Band.invite(band.engineer(), band.project(), "artist"));
    secrets.add(
        band.engineer().post("/access-tokens", Map.of("name", "script")).path("token").toString());
    String member = band.artist().get("/songs/" + band.song()).path("you.member");
    String link =
        band.artist()
            .post("/projects/" + band.project() + "/members/" + member + "/sign-in-links")
            .path("link");
    secrets.add(link.substring(link.lastIndexOf('/') + 1));
    for (String table : tables()) {
      String rows = dump(table);
      for (String secret : secrets) {
        assertTrue(secret.length() >= 16);
        assertFalse(rows.contains(secret), table + " holds a secret as it is");
      }
    }
  }

  private List<String> tables() throws SQLException {
    return column(
        "select tablename from pg_tables where schemaname = current_schema() order by tablename");
  }

  private String dump(String table) throws SQLException {
    return String.join("\n", column("select t::text from " + table + " t"));
  }

  private List<String> column(String query) throws SQLException {
    try (var connection = database.getConnection();
        var statement = connection.createStatement();
        var rows = statement.executeQuery(query)) {
      List<String> values = new ArrayList<>();
      while (rows.next()) {
        values.add(rows.getString(1));
      }
      return values;
    }
  }

  @Test
  void otherSitesCanNeitherCallNorSignIn() {
    for (Map.Entry<String, String> from :
        List.of(
            Map.entry("Sec-Fetch-Site", "cross-site"),
            Map.entry("Origin", "https://elsewhere.example"),
            Map.entry("Origin", "null"),
            Map.entry("Origin", "http://localhost:1"))) {
      refused(
          band.engineer()
              .json(Map.of("title", "T", "artist", "A"))
              .header(from.getKey(), from.getValue())
              .post("/api/v1/projects"),
          403,
          "cross-site");
      refused(
          given()
              .header(from.getKey(), from.getValue())
              .contentType(ContentType.JSON)
              .body(Map.of("email", "owner@example.org", "password", "quiet harbour wall"))
              .post("/api/v1/session"),
          403,
          "cross-site");
    }
    // Naming the other site as ours changes nothing: what is ours is not taken from the request.
    refused(
        band.engineer()
            .json(Map.of("title", "T", "artist", "A"))
            .header("Host", "elsewhere.example")
            .header("X-Forwarded-Host", "elsewhere.example")
            .header("Origin", "http://elsewhere.example")
            .post("/api/v1/projects"),
        403,
        "cross-site");
    band.engineer()
        .json(Map.of("title", "T", "artist", "A"))
        .header("Origin", "http://localhost:" + RestAssured.port)
        .post("/api/v1/projects")
        .then()
        .statusCode(201);
  }

  @Test
  void linksAreNotBuiltFromWhatTheRequestCallsUs() {
    String link =
        band.engineer()
            .json(Map.of("role", "artist"))
            .header("Host", "elsewhere.example")
            .header("X-Forwarded-Host", "elsewhere.example")
            .header("Forwarded", "host=elsewhere.example")
            .post("/api/v1/projects/" + band.project() + "/invitations")
            .then()
            .statusCode(201)
            .extract()
            .path("link");
    assertTrue(link.startsWith("http://localhost:"), link);
  }

  @Test
  void aPreviewOfAnInvitationTellsNothingAndUsesNothing() {
    String token = Band.invite(band.engineer(), band.project(), "artist");
    for (int i = 0; i < 3; i++) {
      given()
          .get("/join/" + token)
          .then()
          .statusCode(200)
          .body(not(containsString("Harbour Lights")))
          .body(not(containsString("The Invented")))
          .body(not(containsString("Slack Tide")));
      given().head("/join/" + token).then().statusCode(200);
    }
    Api.join(token, "Late");
  }

  @Test
  void tooManyWrongPasswordsWaitAndSayHowLong() {
    Map<String, String> wrong = Map.of("email", "throttled@example.org", "password", "not this");
    for (int i = 0; i < 8; i++) {
      refused(Api.nobody().post("/session", wrong), 401, "wrong-credentials");
    }
    Response last = Api.nobody().post("/session", wrong);
    refused(last, 429, "slow-down");
    int seconds = Integer.parseInt(last.header("Retry-After"));
    assertTrue(seconds > 0 && seconds <= 900, "wait " + seconds);
    // Another spelling of the same address is the same address.
    refused(
        Api.nobody()
            .post("/session", Map.of("email", " THROTTLED@example.org ", "password", "not this")),
        429,
        "slow-down");
    signIn();
  }

  /** Neither the log nor an answer repeats what opens a door. */
  @Test
  void secretsAreNotWrittenToTheLog() {
    List<String> written = new CopyOnWriteArrayList<>();
    Handler listener =
        new ExtHandler() {
          @Override
          protected void doPublish(ExtLogRecord line) {
            written.add(line.getFormattedMessage());
            for (Throwable t = line.getThrown(); t != null; t = t.getCause()) {
              written.add(String.valueOf(t.getMessage()));
            }
          }
        };
    Logger root = Logger.getLogger("");
    root.addHandler(listener);
    List<String> secrets = new ArrayList<>(List.of("quiet harbour wall", "a wrong pass phrase"));
    try {
      secrets.add(signIn().cookie("mixaccord_session"));
      Response wrong =
          Api.nobody()
              .post(
                  "/session",
                  Map.of("email", "logged@example.org", "password", "a wrong pass phrase"));
      secrets.add(Band.invite(band.engineer(), band.project(), "artist"));
      Response unknown =
          Api.nobody().post("/invitations/" + secrets.get(3) + "x/acceptance", Map.of("name", "N"));
      Response broken =
          band.engineer().post("/projects", "{\"password\": \"a wrong pass phrase\", \"title\": [");
      Response bearer =
          given().header("Authorization", "Bearer " + secrets.get(2)).get("/api/v1/me");
      for (Response answer : List.of(wrong, unknown, broken, bearer)) {
        assertTrue(answer.statusCode() >= 400 && answer.statusCode() < 500);
        for (String secret : secrets) {
          assertFalse(answer.asString().contains(secret), answer.asString());
        }
      }
    } finally {
      root.removeHandler(listener);
    }
    for (String secret : secrets) {
      assertTrue(written.stream().noneMatch(line -> line.contains(secret)), written.toString());
    }
  }
}
