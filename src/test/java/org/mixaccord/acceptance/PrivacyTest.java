package org.mixaccord.acceptance;

import static org.hamcrest.Matchers.equalTo;
import static org.hamcrest.Matchers.hasSize;
import static org.hamcrest.Matchers.nullValue;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import io.quarkus.test.common.QuarkusTestResource;
import io.quarkus.test.junit.QuarkusTest;
import io.restassured.response.Response;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.awaitility.Awaitility;
import org.junit.jupiter.api.Test;
import org.mixaccord.PostgresForTests;

/** What engineers do in private leaves no trace in anything the others are shown. */
@QuarkusTest
@QuarkusTestResource(PostgresForTests.class)
class PrivacyTest extends UploadStage {
  private static final double[] VOICE = Sound.sine(48000, 700, -24, 4);
  private static final double[] DRUMS = Sound.sine(48000, 130, -18, 4);

  private String mix1;
  private String change;

  private void aSentMixAndAWish() {
    mix1 = measured("Mix one.wav", Sound.wav(48000, sum(1), sum(1)));
    part(mix1, "voice", VOICE);
    part(mix1, "drums", DRUMS);
    band.engineer()
        .put(
            "/songs/" + band.song() + "/sections",
            Map.of(
                "bounce", mix1, "sections", List.of(Map.of("name", "Verse", "from", 0, "to", 4))))
        .then()
        .statusCode(200);
    band.engineer().post("/bounces/" + mix1 + "/sending", Map.of()).then().statusCode(200);
    change =
        band.artist()
            .post(
                "/songs/" + band.song() + "/notes", Map.of("text", "voice up 2 dB", "bounce", mix1))
            .then()
            .statusCode(201)
            .extract()
            .path("changes[0]");
    band.engineer()
        .post("/songs/" + band.song() + "/rounds/current/closing")
        .then()
        .statusCode(200);
  }

  private static double[] sum(double voiceGain) {
    double[] mix = new double[VOICE.length];
    for (int n = 0; n < mix.length; n++) {
      mix[n] = voiceGain * VOICE[n] + DRUMS[n];
    }
    return mix;
  }

  private void part(String bounce, String element, double[] samples) {
    band.engineer()
        .as()
        .contentType("application/octet-stream")
        .queryParam("bounce", bounce)
        .queryParam("element", element)
        .queryParam("filename", element + ".wav")
        .body(Sound.wav(48000, samples, samples))
        .post("/api/v1/songs/" + band.song() + "/stems")
        .then()
        .statusCode(201);
    Awaitility.await()
        .until(
            () ->
                band.engineer()
                    .get("/songs/" + band.song() + "/stems?bounce=" + bounce)
                    .path("find { it.element == '" + element + "' }.state")
                    .equals("ready"));
  }

  /** Everything somebody is shown about the song, by address. */
  private Map<String, String> shown(Api who) {
    Map<String, String> shown = new LinkedHashMap<>();
    String song = "/songs/" + band.song();
    String project = "/projects/" + band.project();
    for (String path :
        List.of(
            "/me/board",
            "/projects",
            project,
            project + "/members",
            project + "/songs",
            song,
            song + "/bounces",
            song + "/bounces?kind=main",
            song + "/sections",
            song + "/people",
            song + "/history",
            song + "/notes",
            song + "/questions",
            song + "/keeps",
            song + "/changes",
            song + "/changes?state=asked",
            song + "/changes?state=done",
            "/changes/" + change,
            "/bounces/" + mix1,
            "/bounces/" + mix1 + "/open-points",
            "/bounces/" + mix1 + "/approvals",
            "/bounces/" + mix1 + "/measurements",
            "/bounces/" + mix1 + "/listening")) {
      Response answer = who.get(path);
      shown.put(path, answer.statusCode() + " " + answer.header("ETag") + " " + answer.asString());
    }
    return shown;
  }

  @Test
  void aPrivatePassIsNowhereToBeSeenUntilItIsSent() {
    aSentMixAndAWish();
    Awaitility.await()
        .until(
            () ->
                band.engineer()
                    .get("/bounces/" + mix1 + "/listening")
                    .path("state")
                    .equals("ready"));
    List<Api> others = List.of(band.artist(), band.manager(), band.listener());
    List<Map<String, String>> before = others.stream().map(this::shown).toList();
    Map<String, String> mine = shown(band.engineer());

    String hidden = measured("Mix two.wav", Sound.wav(48000, sum(1.26), sum(1.26)));
    part(hidden, "voice", Sound.sine(48000, 700, -22, 4));
    part(hidden, "drums", DRUMS);
    band.engineer()
        .json(Map.of("state", "done", "doneIn", hidden, "reason", "as you wished"))
        .header("If-Match", "*")
        .patch("/api/v1/changes/" + change)
        .then()
        .statusCode(200);
    String failed = upload("Mix three.wav", "no audio at all, just words".getBytes());
    settled(failed);

    for (int i = 0; i < others.size(); i++) {
      assertEquals(before.get(i), shown(others.get(i)));
    }
    assertNotEquals(mine, shown(band.engineer()));
    for (Api other : others) {
      assertTrue(
          shown(other).values().stream()
              .noneMatch(v -> v.contains(hidden) || v.contains("Mix two") || v.contains(failed)));
    }

    band.engineer().post("/bounces/" + hidden + "/sending", Map.of()).then().statusCode(200);
    band.artist()
        .get("/changes/" + change)
        .then()
        .body("state", equalTo("done"))
        .body("doneIn", equalTo(hidden));
    band.listener().get("/songs/" + band.song() + "/bounces").then().body("", hasSize(2));
    band.artist().get("/bounces/" + failed).then().statusCode(404);
  }

  @Test
  void figuresOfPartsAndVerdictsAreForEngineers() {
    aSentMixAndAWish();
    String mix2 = measured("Mix two.wav", Sound.wav(48000, sum(1.26), sum(1.26)));
    part(mix2, "voice", Sound.sine(48000, 700, -24 + 20 * Math.log10(1.26), 4));
    part(mix2, "drums", DRUMS);
    band.engineer().post("/bounces/" + mix2 + "/sending", Map.of()).then().statusCode(200);
    String path = "/bounces/" + mix2 + "/comparison?with=" + mix1;
    Awaitility.await()
        .atMost(java.time.Duration.ofSeconds(60))
        .until(
            () -> {
              Response answer = band.engineer().get(path);
              return answer.statusCode() == 200
                  && !answer.jsonPath().getList("sections[0].elements").isEmpty();
            });
    float gain =
        band.engineer()
            .get(path)
            .path("sections[0].elements.find { it.element == 'voice' }.gainChangeDb");
    assertEquals(20 * Math.log10(1.26), gain, 0.1);
    for (Api other : List.of(band.artist(), band.manager())) {
      Response answer = other.get(path);
      answer.then().statusCode(200).body("sections[0].name", equalTo("Verse"));
      assertTrue(!answer.asString().contains("gainChangeDb"), answer.asString());
      assertTrue(!answer.asString().contains("drums"), answer.asString());
      other.get("/changes/" + change).then().statusCode(200).body("verdicts", nullValue());
    }
    band.listener().get(path).then().statusCode(403);
    band.engineer().get("/changes/" + change).then().body("verdicts", hasSize(1));
  }
}
