package org.mixaccord.acceptance;

import static io.restassured.RestAssured.given;
import static org.hamcrest.Matchers.containsString;
import static org.hamcrest.Matchers.empty;
import static org.hamcrest.Matchers.equalTo;
import static org.hamcrest.Matchers.hasItem;
import static org.hamcrest.Matchers.hasSize;
import static org.hamcrest.Matchers.nullValue;
import static org.junit.jupiter.api.Assertions.assertEquals;

import io.quarkus.test.common.QuarkusTestResource;
import io.quarkus.test.junit.QuarkusTest;
import io.restassured.path.json.JsonPath;
import io.restassured.response.Response;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.mixaccord.PostgresForTests;
import org.mixaccord.intake.Fixtures;

/** What people send by mistake: refused in plain words, nothing of theirs lost, nothing broken. */
@QuarkusTest
@QuarkusTestResource(PostgresForTests.class)
class BadInputTest extends UploadStage {
  private static final double[] TONE = Sound.sine(48000, 997, -20, 2);

  @Test
  void whatIsNotAudioIsKeptAndSaidToBeNone() {
    byte[] letter = "Dear engineer, the mix is in the other mail.".getBytes(StandardCharsets.UTF_8);
    unusable("mix.wav", letter, "not-audio", "This is a text file, not sound.");
    byte[] noise = new byte[9000];
    new java.util.Random(5).nextBytes(noise);
    unusable("mix.wav", noise, "not-audio", "not a sound file");
  }

  @Test
  void soundOfAKindNotTakenIsNamedAsSuch() {
    byte[] film =
        Fixtures.join(
            "RIFF".getBytes(StandardCharsets.US_ASCII),
            Fixtures.number(2000, 4, false),
            "AVI ".getBytes(StandardCharsets.US_ASCII),
            new byte[1992]);
    unusable("mix.avi", film, "unsupported-format", "Export the sound alone as 24-bit WAV.");
  }

  @Test
  void aHeaderWithoutSoundIsSaid() {
    unusable("mix.wav", Sound.wav(48000, new double[0]), "no-audio-frames", "no sound after it");
  }

  private void unusable(String fileName, byte[] bytes, String code, String words) {
    String bounce = upload(fileName, bytes);
    JsonPath failed = settled(bounce);
    assertEquals("failed", failed.getString("state"));
    assertEquals(code, failed.getString("problem.code"));
    plain(failed.getString("problem.detail"));
    org.hamcrest.MatcherAssert.assertThat(
        failed.getString("problem.detail"), containsString(words));
    for (String of : List.of("/measurements", "/findings", "/listening", "/outline")) {
      refused(band.engineer().get("/bounces/" + bounce + of), 409, "not-measured");
    }
    refused(band.engineer().post("/bounces/" + bounce + "/sending", Map.of()), 409, "wrong-state");
    bytesAreKept(bounce, bytes);
  }

  @Test
  void anEmptyFileLeavesNothing() {
    refused(send("mix.wav", new byte[0]), 422, "empty-upload");
    nothingArrived();
  }

  @Test
  void aCutOffWavIsMeasuredAsFarAsItGoes() {
    byte[] whole = Sound.wav(48000, TONE, TONE);
    byte[] cut = Arrays.copyOf(whole, 44 + 6 * 48000 + 4);
    String bounce = measured("mix.wav", cut);
    band.engineer()
        .get("/bounces/" + bounce)
        .then()
        .body("file.frames", equalTo(48000))
        .body("file.seconds", equalTo(1.0f))
        .body("defects.code", hasItem("truncated"))
        .body("defects.find { it.code == 'truncated' }.affectsSound", equalTo(true))
        .body("defects.code", hasItem("partial-frame"));
    assertEquals(-20.0, figures(bounce).getDouble("whole.integratedLufs"), 0.1);
    bytesAreKept(bounce, cut);
  }

  @Test
  void threeGigabytesClaimedInAKilobyteAreNotBelieved() {
    byte[] liar =
        Arrays.copyOf(
            Fixtures.join(
                "RIFF".getBytes(StandardCharsets.US_ASCII),
                Fixtures.number(3_000_000_036L, 4, false),
                "WAVE".getBytes(StandardCharsets.US_ASCII),
                Fixtures.chunk("fmt ", Fixtures.fmt(1, 2, 48000, 16, false), false),
                Fixtures.chunk("data", new byte[980], 3_000_000_000L, false, false)),
            1024);
    String bounce = measured("mix.wav", liar);
    band.engineer()
        .get("/bounces/" + bounce)
        .then()
        .body("file.bytes", equalTo(1024))
        .body("file.frames", equalTo(245))
        .body("defects.code", hasItem("truncated"));
    band.engineer()
        .get("/bounces/" + bounce + "/measurements")
        .then()
        .statusCode(200)
        .body("whole.integratedLufs", nullValue())
        .body("whole.bands", empty());
    bytesAreKept(bounce, liar);
  }

  @Test
  void aSectionPastTheEndIsRefusedAndTheFormStays() {
    String bounce = aDrawnSong();
    refused(draw(bounce, "Outro", 1.0, 2.5), 422, "section-past-end")
        .body("detail", equalTo("“Outro” ends at 0:02.500, but the mix ends at 0:02.000."));
    theFormStays();
  }

  @Test
  void overlappingSectionsAreRefusedAndTheFormStays() {
    String bounce = aDrawnSong();
    refused(
            band.engineer()
                .put(
                    "/songs/" + band.song() + "/sections",
                    Map.of(
                        "bounce",
                        bounce,
                        "sections",
                        List.of(section("Verse", 0.0, 1.2), section("Chorus", 1.0, 2.0)))),
            422,
            "sections-overlap")
        .body("detail", equalTo("“Chorus” begins at 0:01.000, before “Verse” ends at 0:01.200."));
    theFormStays();
  }

  private String aDrawnSong() {
    String bounce = measured("mix.wav", Sound.wav(48000, TONE, TONE));
    draw(bounce, "All of it", 0.0, 2.0).then().statusCode(200);
    return bounce;
  }

  private Response draw(String bounce, String name, double from, double to) {
    return band.engineer()
        .put(
            "/songs/" + band.song() + "/sections",
            Map.of("bounce", bounce, "sections", List.of(section(name, from, to))));
  }

  private static Map<String, Object> section(String name, double from, double to) {
    return Map.of("name", name, "from", from, "to", to);
  }

  private void theFormStays() {
    band.engineer()
        .get("/songs/" + band.song() + "/sections")
        .then()
        .body("", hasSize(1))
        .body("[0].name", equalTo("All of it"))
        .body("[0].to", equalTo(2.0f));
  }

  @Test
  void aNoteOfTwoHundredKilobytesIsRefused() {
    String bounce = measured("mix.wav", Sound.wav(48000, TONE, TONE));
    String notes = "/songs/" + band.song() + "/notes";
    refused(
        band.engineer().post(notes, Map.of("text", "é".repeat(100_000), "bounce", bounce)),
        413,
        "note-too-long");
    band.engineer().get(notes).then().statusCode(200).body("", empty());
    String longest = "a".repeat(102_400);
    band.engineer().post(notes, Map.of("text", longest, "bounce", bounce)).then().statusCode(201);
    refused(
        band.engineer().post(notes, Map.of("text", longest + "a", "bounce", bounce)),
        413,
        "note-too-long");
    band.engineer().get(notes).then().body("text", equalTo(List.of(longest)));
  }

  @ParameterizedTest
  @ValueSource(strings = {"a\\u0000b", "\\u0000", "half \\ud800 a sign", "\\udc00"})
  void textThatCannotBeKeptIsRefusedWhereverItStands(String text) {
    String bounce = measured("mix.wav", Sound.wav(48000, TONE, TONE));
    String project = "/projects/" + band.project();
    String song = "/songs/" + band.song();
    Map<String, String> posts =
        Map.of(
            song + "/notes",
            "{\"text\": \"%s\", \"bounce\": \"" + bounce + "\"}",
            "/note-readings",
            "{\"text\": \"%s\", \"sections\": []}",
            project + "/songs",
            "{\"title\": \"%s\"}",
            project + "/invitations",
            "{\"role\": \"artist\", \"email\": \"%s\"}",
            "/bounces/" + bounce + "/sending",
            "{\"label\": \"%s\"}",
            "/bounces/" + bounce + "/approvals",
            "{\"decision\": \"stop\", \"comment\": \"%s\"}",
            "/access-tokens",
            "{\"name\": \"%s\"}",
            "/session",
            "{\"email\": \"%s\", \"password\": \"x\"}");
    posts.forEach(
        (path, body) -> refused(band.engineer().post(path, body.formatted(text)), 422, "bad-text"));
    refused(
        band.engineer()
            .put(
                song + "/sections",
                "{\"sections\": [{\"name\": \"%s\", \"from\": 0, \"to\": 1}]}".formatted(text)),
        422,
        "bad-text");
    refused(band.engineer().patch(song, "{\"title\": \"%s\"}".formatted(text)), 422, "bad-text");
    band.engineer().get(song + "/notes").then().body("", empty());
    band.engineer().get(song).then().body("title", equalTo("Slack Tide"));
  }

  @Test
  void aZeroInTheAddressIsRefusedToo() {
    for (String path :
        List.of(
            "/songs/%00",
            "/songs/a%00b/changes",
            "/bounces/%00",
            "/projects/%00/members",
            "/changes/%00",
            "/songs/" + band.song() + "/bounces?kind=%00",
            "/songs/" + band.song() + "/notes?bounce=%00",
            "/songs/" + band.song() + "/sections?bounce=a%00",
            "/songs/" + band.song() + "/changes?state=%00")) {
      refused(
          band.engineer().as().urlEncodingEnabled(false).get("/api/v1" + path), 422, "bad-text");
    }
    refused(
        band.engineer()
            .as()
            .urlEncodingEnabled(false)
            .contentType("application/octet-stream")
            .body(Sound.wav(48000, TONE))
            .post("/api/v1/songs/" + band.song() + "/bounces?filename=a%00.wav"),
        422,
        "bad-text");
    refused(
        given().urlEncodingEnabled(false).post("/api/v1/sign-in-links/%00/use"), 422, "bad-text");
    refused(
        band.engineer()
            .as()
            .header("Tus-Resumable", "1.0.0")
            .header("Upload-Length", 1000)
            .header("Upload-Metadata", "song AA==")
            .post("/api/v1/uploads"),
        422,
        "bad-text");
    nothingArrived();
  }

  @Test
  void anUnknownRoleIsRefusedWhereverOneIsGiven() {
    String people = "/projects/" + band.project();
    String artist = band.artist().get("/songs/" + band.song()).path("you.member");
    Map<String, String> drummer = Map.of("role", "drummer");
    refused(band.engineer().post(people + "/invitations", drummer), 422, "unknown-role")
        .body(
            "detail",
            equalTo(
                "A role is one of engineer, artist, manager or listener; “drummer” is none of"
                    + " them."));
    refused(band.engineer().patch(people + "/members/" + artist, drummer), 422, "unknown-role");
    refused(
        band.engineer().post("/projects", Map.of("title", "T", "artist", "A", "role", "Engineer")),
        422,
        "unknown-role");
    refused(band.engineer().post(people + "/invitations", Map.of()), 422, "unknown-role");
    band.engineer()
        .get(people + "/members")
        .then()
        .body("find { it.id == '" + artist + "' }.role", equalTo("artist"));
  }

  @Test
  void aUsedUpInvitationLetsNobodyIn() {
    String token = Band.invite(band.engineer(), band.project(), "artist");
    Api.join(token, "First");
    refused(
        Api.nobody().post("/invitations/" + token + "/acceptance", Map.of("name", "Second")),
        410,
        "invitation-used");
    band.engineer()
        .get("/projects/" + band.project() + "/members")
        .then()
        .body("findAll { it.name == 'Second' }", empty())
        .body("findAll { it.name == 'First' }", hasSize(1));
  }

  @Test
  void aStaleTagChangesNothing() {
    String bounce = measured("mix.wav", Sound.wav(48000, TONE, TONE));
    String change =
        band.engineer()
            .post(
                "/songs/" + band.song() + "/notes",
                Map.of("text", "snare up 1 dB", "bounce", bounce))
            .then()
            .statusCode(201)
            .extract()
            .path("changes[0]");
    String path = "/api/v1/changes/" + change;
    Map<String, String> left = Map.of("state", "left", "answer", "cannot");
    String seen = band.engineer().as().get(path).header("ETag");
    refused(band.engineer().json(left).patch(path), 428, "if-match-required");
    band.engineer().json(left).header("If-Match", seen).patch(path).then().statusCode(200);
    refused(
        band.engineer().json(Map.of("state", "done")).header("If-Match", seen).patch(path),
        412,
        "changed-meanwhile");
    band.engineer().as().get(path).then().body("state", equalTo("left"));
  }

  private void nothingArrived() {
    band.engineer()
        .get("/songs/" + band.song() + "/bounces")
        .then()
        .statusCode(200)
        .body("", empty());
    band.engineer()
        .get("/songs/" + band.song() + "/history")
        .then()
        .body("findAll { it.act != 'joined' }", empty());
  }
}
