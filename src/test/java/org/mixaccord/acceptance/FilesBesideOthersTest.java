package org.mixaccord.acceptance;

import static org.hamcrest.Matchers.containsString;
import static org.hamcrest.Matchers.empty;
import static org.hamcrest.Matchers.equalTo;
import static org.hamcrest.Matchers.hasItem;
import static org.hamcrest.Matchers.hasItems;
import static org.hamcrest.Matchers.not;
import static org.hamcrest.Matchers.notNullValue;
import static org.hamcrest.Matchers.nullValue;
import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;

import io.quarkus.test.common.QuarkusTestResource;
import io.quarkus.test.junit.QuarkusTest;
import io.restassured.path.json.JsonPath;
import io.restassured.response.Response;
import java.time.Duration;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import org.awaitility.Awaitility;
import org.junit.jupiter.api.Test;
import org.mixaccord.PostgresForTests;
import org.mixaccord.intake.Fixtures;

/** What the server says of a file beside the others that are there. */
@QuarkusTest
@QuarkusTestResource(PostgresForTests.class)
class FilesBesideOthersTest extends UploadStage {
  private static final int RATE = 48000;
  private static final double[] LEFT = Sound.sine(RATE, 440, -20, 1.5);
  private static final double[] RIGHT = Sound.sine(RATE, 660, -20, 1.5);

  private io.restassured.response.ValidatableResponse seen(Api by, String bounce) {
    return by.get("/bounces/" + bounce).then().statusCode(200);
  }

  private void send(String bounce) {
    band.engineer().post("/bounces/" + bounce + "/sending", Map.of()).then().statusCode(200);
  }

  @Test
  void theSameSoundInAnotherFileIsToldOnlyToWhoMayHearBoth() {
    String wav = measured("Slack Tide mix 1.wav", Sound.wav(RATE, LEFT, RIGHT));
    String aiff = measured("Slack Tide mix 2.aif", Sound.aiff(RATE, LEFT, RIGHT));
    seen(band.engineer(), wav).body("nameRemarks", empty());
    seen(band.engineer(), aiff)
        .body("nameRemarks.code", equalTo(List.of("same-sound")))
        .body("nameRemarks[0].with", equalTo(wav))
        .body("nameRemarks[0].detail", containsString("Pass 1 (“Slack Tide mix 1.wav”)"));
    send(aiff);
    // The first is private still: whoever may not hear it learns nothing of it.
    seen(band.artist(), aiff).body("nameRemarks", empty());
    seen(band.manager(), aiff).body("nameRemarks", empty());
    send(wav);
    seen(band.artist(), aiff).body("nameRemarks.code", equalTo(List.of("same-sound")));
    seen(band.artist(), wav).body("nameRemarks", empty());
  }

  @Test
  void theSameBytesAreToldInAnotherSongToo() {
    byte[] bytes = Sound.wav(RATE, RIGHT, LEFT);
    String here = measured("Slack Tide mix 1.wav", bytes);
    String other =
        band.engineer()
            .make("/projects/" + band.project() + "/songs", Map.of("title", "Copper Lanterns"));
    String there =
        band.engineer()
            .as()
            .contentType("application/octet-stream")
            .queryParam("filename", "Copper Lanterns.wav")
            .body(bytes)
            .post("/api/v1/songs/" + other + "/bounces")
            .then()
            .statusCode(201)
            .extract()
            .path("id");
    settled(there);
    seen(band.engineer(), there)
        .body("nameRemarks[0].code", equalTo("same-bytes"))
        .body("nameRemarks[0].with", equalTo(here))
        .body("nameRemarks[0].detail", containsString("Pass 1 of “Slack Tide”"))
        .body("nameRemarks[0].detail", containsString("byte for byte"));
  }

  @Test
  void whatTheNameSaysIsHeldAgainstTheFileAndTheMixBefore() {
    String three = measured("Slack Tide_v3.wav", Sound.wav(RATE, LEFT, RIGHT));
    String two = measured("Slack Tide_v2_inst_4416.wav", Sound.wav(RATE, RIGHT, RIGHT));
    seen(band.engineer(), two)
        .body(
            "nameRemarks.code",
            hasItems("number-back", "rate-differs", "depth-differs", "kind-differs"))
        .body("nameRemarks.find { it.code == 'number-back' }.with", equalTo(three));
    String same = measured("slack tide_V3.wav", Sound.wav(RATE, RIGHT, LEFT));
    seen(band.engineer(), same).body("nameRemarks.code", equalTo(List.of("same-name")));
  }

  @Test
  void leftAndRightInTwoFilesBecomeOneBounceOnRequest() {
    byte[] leftBytes = Sound.wav(RATE, LEFT);
    byte[] rightBytes = Sound.wav(RATE, RIGHT);
    String right = measured("Slack Tide_mix3.R.wav", rightBytes);
    seen(band.engineer(), right).body("pairOffer", nullValue());
    String left = measured("Slack Tide_mix3.L.wav", leftBytes);
    seen(band.engineer(), left)
        .body("pairOffer.with", equalTo(right))
        .body("pairOffer.side", equalTo("left"))
        .body("pairOffer.possible", equalTo(true))
        .body("pairOffer.words", containsString("both files stay as they are"));
    seen(band.engineer(), right).body("pairOffer.with", equalTo(left));
    Response made = band.engineer().post("/bounces/" + right + "/pairing", Map.of("with", left));
    made.then().statusCode(201).body("number", equalTo(3));
    String pair = made.path("id");
    assertEquals("ready", settled(pair).getString("state"));
    String whole = measured("whole.wav", Sound.wav(RATE, LEFT, RIGHT));
    JsonPath paired = seen(band.engineer(), pair).extract().jsonPath();
    assertEquals(
        band.engineer().get("/bounces/" + whole).path("file.pcmSha256").toString(),
        paired.getString("file.pcmSha256"));
    assertEquals("Slack Tide_mix3 (left and right paired).wav", paired.getString("file.name"));
    assertEquals(List.of(left, right), paired.getList("pairedFrom"));
    assertEquals(24, paired.getInt("file.bitDepth"));
    bytesAreKept(left, leftBytes);
    bytesAreKept(right, rightBytes);
    // Once is enough.
    seen(band.engineer(), left).body("pairOffer", nullValue());
    band.engineer()
        .post("/bounces/" + left + "/pairing", Map.of("with", right))
        .then()
        .statusCode(201)
        .body("id", equalTo(pair));
    send(pair);
    // The halves are private: whoever hears the pair hears nothing of them.
    seen(band.artist(), pair).body("pairedFrom", empty()).body("pairOffer", nullValue());
    band.artist()
        .get("/songs/" + band.song() + "/history")
        .then()
        .body("detail", not(hasItem(containsString(".L.wav"))))
        .body("act", hasItem("paired"));
  }

  @Test
  void whatCannotBeAPairIsRefusedInWords() {
    String left = measured("Slack Tide.L.wav", Sound.wav(RATE, LEFT));
    String longer = measured("Slack Tide.R.wav", Sound.wav(RATE, Sound.sine(RATE, 660, -20, 1.75)));
    seen(band.engineer(), left)
        .body("pairOffer.possible", equalTo(false))
        .body("pairOffer.words", containsString("it is 250 ms longer (12000 samples)"));
    refused(pair(left, longer), 409, "wrong-state");
    String faster = measured("b.R.wav", Sound.wav(44100, Sound.sine(44100, 660, -20, 1.5)));
    refused(pair(left, faster), 409, "wrong-state");
    String stereo = measured("c.wav", Sound.wav(RATE, LEFT, RIGHT));
    refused(pair(left, stereo), 409, "layout-differs");
    refused(pair(left, left), 422, "invalid");
    String nameless = measured("d.wav", Sound.wav(RATE, RIGHT));
    refused(pair(left, nameless), 422, "invalid");
    refused(band.engineer().post("/bounces/" + left + "/pairing", Map.of()), 422, "invalid");
    refused(
        band.engineer()
            .post("/bounces/" + left + "/pairing", Map.of("with", nameless, "side", "up")),
        422,
        "invalid");
    band.engineer()
        .post("/bounces/" + left + "/pairing", Map.of("with", nameless, "side", "right"))
        .then()
        .statusCode(201);
  }

  @Test
  void anArtistPairsWhatTheyUploadedThemselves() {
    String left = rough(band.artist(), "rough L.wav", LEFT);
    String right = rough(band.artist(), "rough R.wav", RIGHT);
    String others = rough(band.manager(), "rough 2 R.wav", RIGHT);
    seen(band.artist(), left).body("pairOffer.with", equalTo(right));
    seen(band.manager(), left).body("pairOffer", nullValue());
    refused(
        band.artist().post("/bounces/" + left + "/pairing", Map.of("with", others)),
        403,
        "not-allowed");
    String pair =
        band.artist()
            .post("/bounces/" + left + "/pairing", Map.of("with", right))
            .then()
            .statusCode(201)
            .extract()
            .path("id");
    settled(pair);
    seen(band.manager(), pair)
        .body("sent", equalTo(true))
        .body("kind", equalTo("rough"))
        .body("pairedFrom", hasItems(left, right));
  }

  private String rough(Api by, String name, double[] sound) {
    String bounce =
        by.as()
            .contentType("application/octet-stream")
            .queryParam("filename", name)
            .queryParam("kind", "rough")
            .body(Sound.wav(RATE, sound))
            .post("/api/v1/songs/" + band.song() + "/bounces")
            .then()
            .statusCode(201)
            .extract()
            .path("id");
    settled(bounce);
    return bounce;
  }

  private Response pair(String bounce, String with) {
    return band.engineer().post("/bounces/" + bounce + "/pairing", Map.of("with", with));
  }

  @Test
  void aPartIsHeldAgainstItsMixAndTheOthers() {
    double[] shorter = Arrays.copyOf(LEFT, LEFT.length - RATE);
    String two = measured("Slack Tide mix 2.wav", stamped(RATE * 60L, LEFT, RIGHT));
    String one = measured("Slack Tide mix 3.wav", Sound.wav(RATE, shorter, shorter));
    stem(two, "bass", stamped(RATE * 60L, LEFT));
    stem(two, "keys", stamped(RATE * 61L, RIGHT));
    stem(two, "drums", Sound.wav(RATE, shorter));
    stem(two, "pad", Sound.wav(RATE, new double[LEFT.length]));
    stem(two, "synth", Sound.aiff(RATE, LEFT));
    stem(two, "everything", Sound.aiff(RATE, LEFT, RIGHT));
    stem(two, "organ", Sound.wav(44100, Sound.sine(44100, 440, -20, 1.5)));
    stem(two, "strings", Sound.wav(RATE, Arrays.copyOf(RIGHT, RIGHT.length - 600)));
    JsonPath stems =
        Awaitility.await()
            .atMost(Duration.ofSeconds(60))
            .until(
                () ->
                    band.engineer()
                        .get("/songs/" + band.song() + "/stems?bounce=" + two)
                        .jsonPath(),
                s ->
                    s.getList("state", String.class).stream()
                        .allMatch(x -> x.equals("ready") || x.equals("failed")));
    fit(
        stems,
        "bass",
        "ready",
        "same-length",
        "Same length as Pass 1 (0:01.500), and the same start in the session.",
        two);
    fit(
        stems,
        "keys",
        "ready",
        "other-start",
        "Same length as Pass 1 (0:01.500), but stamped to begin 0:01.000 later in the session."
            + " Check that it begins where the mix begins.",
        null);
    fit(
        stems,
        "drums",
        "failed",
        "fits-other",
        "Fits Pass 2 (0:00.500), not Pass 1 (0:01.500).",
        one);
    fit(stems, "pad", "ready", "same-length", "Same length as Pass 1 (0:01.500).", two);
    fit(stems, "organ", "failed", "other-rate", "It has 44.1 kHz, but Pass 1 has 48 kHz.", null);
    fit(
        stems,
        "strings",
        "ready",
        "shorter",
        "13 ms shorter than Pass 1 (0:01.500); used from the same start all the same.",
        two);
    assertEquals("silent", of(stems, "pad", "remarks[0].code"));
    assertEquals("same-sound", of(stems, "synth", "remarks[0].code"));
    assertEquals(of(stems, "bass", "id"), of(stems, "synth", "remarks[0].stem"));
    assertEquals("whole-mix", of(stems, "everything", "remarks[0].code"));
    assertEquals(
        "This part does not have the rate and length of its mix. 0:01.000 shorter than Pass 1"
            + " (0:01.500). Print it from the same start to the same end.",
        of(stems, "drums", "problem.detail"));
    // Pass 2 is private, and the artist hears of Pass 1 only.
    send(two);
    JsonPath artists =
        band.artist().get("/songs/" + band.song() + "/stems?bounce=" + two).jsonPath();
    assertEquals("shorter", of(artists, "drums", "fit.code"));
    assertNotEquals(null, of(artists, "drums", "fit.words"));
  }

  private static String of(JsonPath stems, String element, String path) {
    return stems.getString("find { it.element == '" + element + "' }." + path);
  }

  private static void fit(
      JsonPath stems, String element, String state, String code, String words, String fits) {
    assertArrayEquals(
        new String[] {state, code, words, fits},
        new String[] {
          of(stems, element, "state"),
          of(stems, element, "fit.code"),
          of(stems, element, "fit.words"),
          of(stems, element, "fit.fits")
        },
        element);
  }

  private void stem(String bounce, String element, byte[] bytes) {
    band.engineer()
        .as()
        .contentType("application/octet-stream")
        .queryParam("bounce", bounce)
        .queryParam("element", element)
        .queryParam("filename", element + ".wav")
        .body(bytes)
        .post("/api/v1/songs/" + band.song() + "/stems")
        .then()
        .statusCode(201)
        .body("id", notNullValue());
  }

  /** The same WAV with the time it begins at in its session. */
  private static byte[] stamped(long frame, double[]... channels) {
    byte[] plain = Sound.wav(RATE, channels);
    byte[] bext = new byte[602];
    System.arraycopy(Fixtures.number(frame, 8, false), 0, bext, 338, 8);
    byte[] chunks = Arrays.copyOfRange(plain, 12, plain.length);
    return Fixtures.riff("RIFF", Fixtures.chunk("bext", bext, false), chunks);
  }

  @Test
  void namesAreKeptAsGivenAndFindEachOtherComposedOrNot() {
    String composed = "Gr\u00f6\u00dfe \u2013 \u3072\u304b\u308a \ud83c\udf0a (1).wav";
    String apart = "Gro\u0308\u00dfe \u2013 \u3072\u304b\u308a \ud83c\udf0a (1).wav";
    String first = measured(composed, Sound.wav(RATE, LEFT, RIGHT));
    String second = measured(apart, Sound.wav(RATE, RIGHT, LEFT));
    seen(band.engineer(), first).body("file.name", equalTo(composed));
    seen(band.engineer(), second)
        .body("file.name", equalTo(apart))
        .body("nameRemarks.code", hasItem("same-name"));
    for (String name :
        new String[] {
          "../../x.wav", "CON.wav", "a/b\\c.wav", "%2e%2e.wav", "x".repeat(251) + ".wav"
        }) {
      String bounce = upload(name, Sound.wav(RATE, LEFT));
      seen(band.engineer(), bounce).body("file.name", equalTo(name));
      band.engineer().get("/bounces/" + bounce + "/audio").then().statusCode(200);
    }
  }
}
