package org.mixaccord.acceptance;

import static io.restassured.RestAssured.given;

import io.restassured.RestAssured;
import io.restassured.http.ContentType;
import io.restassured.path.json.JsonPath;
import io.restassured.response.Response;
import java.io.IOException;
import java.io.InputStream;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpRequest.BodyPublishers;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.Base64;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Pattern;
import org.mixaccord.accounts.Role;
import org.mixaccord.audio.midi.Smf;
import org.mixaccord.record.ProjectForTests;

/** One song with everything a route can be about, and people of every kind who call. */
final class RightsStage {
  private static final HttpClient LINE =
      HttpClient.newBuilder().version(HttpClient.Version.HTTP_1_1).build();
  private static final byte[] AUDIO = Sound.wav(48000, Sound.sine(48000, 440, -20, 0.5));
  private static final byte[] MIDI = Smf.turning();
  private static final int UPLOAD_BYTES = 64;
  private static final Pattern NAME = Pattern.compile("\\{(\\w+(?::\\w+)?)}");

  final ProjectForTests.Cast cast;
  private final ProjectForTests projects;
  private final Map<String, String> things = new HashMap<>();

  /** An answer; the body is empty where the answer is a stream. */
  record Answer(int status, String type, String body) {}

  /**
   * Sets the stage.
   *
   * @param measured a bounce that has been measured and can be listened to
   */
  RightsStage(ProjectForTests projects, String measured) {
    cast =
        projects.begin(
            Map.of(
                "art", Role.ARTIST,
                "drummer", Role.ARTIST,
                "gone", Role.ARTIST,
                "boss", Role.MANAGER,
                "ear", Role.LISTENER));
    projects.approver(cast, "boss");
    projects.lastWord(cast, "art");
    this.projects = projects;
    String before = projects.copy(cast, measured);
    projects.shortSections(cast, before);
    projects.send(cast, before);
    String sent = projects.copy(cast, measured);
    projects.send(cast, sent);
    projects.remove(cast, "gone");
    things.put("p", cast.project());
    things.put("s", cast.song());
    things.put("b", sent);
    things.put("b:before", before);
    things.put("b:private", projects.copy(cast, measured));
    things.put("index", "0");
    things.put("token", "x".repeat(40));
  }

  /** The id of a thing, which is made when it is first named. */
  private String thing(String name) {
    String there = things.get(name);
    if (there == null) {
      there = make(name);
      things.put(name, there);
    }
    return there;
  }

  private String make(String name) {
    String bounce = "/bounces/" + things.get("b");
    return switch (name) {
      case "m" -> projects.member(cast, "drummer");
      case "i" -> make("eng", "/projects/" + cast.project() + "/invitations", "role", "artist");
      case "pick" -> projects.blindPick(cast, things.get("b:before"), things.get("b"));
      case "id:pick" -> thing("pick");
      case "e:ear" -> projects.blindEar(thing("pick"), cast.person("art"));
      case "t:abx" -> projects.abxTest(cast, things.get("b:before"), things.get("b"));
      case "which:first" -> "first";
      case "which:a" -> "a";
      case "trial" -> "1";
      case "b:barred" -> barred();
      case "id:token" -> make("eng", "/access-tokens", "name", "script");
      case "id:approval" -> make("art", bounce + "/approvals", "decision", "stop");
      case "id:upload" -> upload();
      case "id:stem" -> projects.stem(cast, things.get("b"), "drums");
      case "id:privatestem" -> projects.stem(cast, things.get("b:private"), "drums");
      case "c" -> change("art", wish("lead vocal", "up"), false);
      case "c:twin" -> change("art", wish("bass", "down"), false);
      case "c:joined" -> joined();
      case "n:memo" -> memo();
      case "c:done" -> done(change("art", wish("guitar", "up"), false));
      case "c:against" -> {
        change("drummer", wish("snare", "down"), false);
        yield change("art", wish("snare", "up"), false);
      }
      case "c:quiet" -> change("art", wish("organ", "up"), true);
      case "k" ->
          note(
                  "art",
                  Map.of("keeps", List.of(Map.of("element", "bass", "text", "as it is"))),
                  false)
              .getString("keeps[0]");
      case "q" ->
          as("art")
              .body(Map.of("text", "fix the thing at the end", "bounce", things.get("b")))
              .post("/api/v1/songs/" + cast.song() + "/notes")
              .path("questions[0]");
      default -> throw new IllegalArgumentException("nothing is called " + name);
    };
  }

  /** The sent mix, with bars from a MIDI file. */
  private String barred() {
    given()
        .header("Authorization", "Bearer " + cast.token("eng"))
        .contentType("audio/midi")
        .body(MIDI)
        .put("/api/v1/songs/" + cast.song() + "/tempo-map?bounce=" + things.get("b"))
        .then()
        .statusCode(200);
    return things.get("b");
  }

  /** A change that is worked as one with another. */
  private String joined() {
    String one = change("art", wish("toms", "up"), false);
    String other = change("art", wish("cymbals", "up"), false);
    as("eng")
        .body(Map.of("changes", List.of(one, other)))
        .post("/api/v1/songs/" + cast.song() + "/changes/joining")
        .then()
        .statusCode(200);
    return one;
  }

  /** A voice memo of the artist's. */
  private String memo() {
    return given()
        .header("Authorization", "Bearer " + cast.token("art"))
        .contentType("audio/wav")
        .body(Sound.wav(24_000, Sound.sine(24_000, 300, -20, 1)))
        .post("/api/v1/songs/" + cast.song() + "/voice-memos?bounce=" + things.get("b"))
        .then()
        .statusCode(201)
        .extract()
        .path("id");
  }

  private String done(String change) {
    as("eng")
        .header("If-Match", "*")
        .body(Map.of("state", "done", "doneIn", things.get("b")))
        .patch("/api/v1/changes/" + change)
        .then()
        .statusCode(200);
    return change;
  }

  private static Map<String, Object> wish(String element, String direction) {
    return Map.of(
        "changes", List.of(Map.of("element", element, "aspect", "level", "direction", direction)));
  }

  private String change(String who, Map<String, Object> reading, boolean quiet) {
    return note(who, reading, quiet).getString("changes[0]");
  }

  private JsonPath note(String who, Map<String, Object> reading, boolean quiet) {
    Response written =
        as(who)
            .body(
                Map.of(
                    "text",
                    "as read",
                    "bounce",
                    things.get("b"),
                    "reading",
                    reading,
                    "engineerOnly",
                    quiet))
            .post("/api/v1/songs/" + cast.song() + "/notes");
    written.then().statusCode(201);
    return written.jsonPath();
  }

  private String make(String who, String path, String field, String value) {
    Response made = as(who).body(Map.of(field, value)).post("/api/v1" + path);
    made.then().statusCode(201);
    return made.path("id");
  }

  private String upload() {
    String at =
        as("eng")
            .header("Tus-Resumable", "1.0.0")
            .header("Upload-Length", UPLOAD_BYTES)
            .header("Upload-Metadata", "song " + base64(cast.song()))
            .post("/api/v1/uploads")
            .then()
            .statusCode(201)
            .extract()
            .header("Location");
    return at.substring(at.lastIndexOf('/') + 1);
  }

  private io.restassured.specification.RequestSpecification as(String who) {
    return given()
        .header("Authorization", "Bearer " + cast.token(who))
        .contentType(ContentType.JSON);
  }

  /** Puts the ids of this stage in place of their names. */
  String filled(String text) {
    return NAME.matcher(text).replaceAll(name -> thing(name.group(1)));
  }

  /** The same with ids that nothing has. */
  static String made(String text) {
    return NAME.matcher(
            text.replace("{index}", "0")
                .replace("{which:first}", "first")
                .replace("{which:a}", "a")
                .replace("{trial}", "1"))
        .replaceAll("zzzzzzzzzzzzzzzz");
  }

  Answer call(String who, RightsTable.Row row, String path, String body) {
    HttpRequest.Builder request =
        HttpRequest.newBuilder(
                URI.create("http://localhost:" + RestAssured.port + "/api/v1" + path))
            .timeout(Duration.ofSeconds(20));
    if (!who.equals("nobody")) {
      request.header("Authorization", "Bearer " + cast.token(who));
    }
    if (row.path().startsWith("/uploads")) {
      request.header("Tus-Resumable", "1.0.0");
      request.header("Upload-Length", String.valueOf(UPLOAD_BYTES));
      request.header("Upload-Metadata", "song " + base64(cast.song()));
      request.header("Upload-Offset", "0");
    }
    if (row.method().equals("PATCH") && row.path().startsWith("/changes")) {
      request.header("If-Match", "*");
    }
    HttpRequest.BodyPublisher content = BodyPublishers.noBody();
    switch (body) {
      case "" -> {}
      case "audio" -> content = BodyPublishers.ofByteArray(AUDIO);
      case "midi" -> content = BodyPublishers.ofByteArray(MIDI);
      case "piece" -> {
        request.header("Content-Type", "application/offset+octet-stream");
        content = BodyPublishers.ofByteArray(new byte[10]);
      }
      default -> {
        request.header("Content-Type", "application/json");
        content = BodyPublishers.ofString(body);
      }
    }
    return sent(request.method(row.method(), content).build());
  }

  private static Answer sent(HttpRequest request) {
    try {
      HttpResponse<InputStream> answer =
          LINE.send(request, HttpResponse.BodyHandlers.ofInputStream());
      String type = answer.headers().firstValue("Content-Type").orElse("");
      try (InputStream in = answer.body()) {
        String body =
            type.startsWith("text/event-stream")
                ? ""
                : new String(in.readAllBytes(), StandardCharsets.UTF_8);
        return new Answer(answer.statusCode(), type, body);
      }
    } catch (IOException e) {
      throw new AssertionError(request.method() + " " + request.uri(), e);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new AssertionError(e);
    }
  }

  private static String base64(String text) {
    return Base64.getEncoder().encodeToString(text.getBytes(StandardCharsets.UTF_8));
  }
}
