package org.mixaccord.acceptance;

import static org.hamcrest.Matchers.equalTo;
import static org.hamcrest.Matchers.hasSize;
import static org.hamcrest.Matchers.nullValue;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import io.quarkus.test.common.QuarkusTestResource;
import io.quarkus.test.junit.QuarkusTest;
import io.restassured.path.json.JsonPath;
import io.restassured.response.Response;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.CompletableFuture;
import org.awaitility.Awaitility;
import org.junit.jupiter.api.Test;
import org.mixaccord.PostgresForTests;
import org.mixaccord.measure.SlowMeter;

/** Two mixes heard without their names: by everybody who writes, once, told to the last word. */
@QuarkusTest
@QuarkusTestResource(PostgresForTests.class)
class BlindPickTest extends TwoMixesStage {
  private Response offer(Map<String, Object> place) {
    Map<String, Object> body = new HashMap<>(place);
    body.putIfAbsent("mixes", List.of(one, two));
    return band.engineer().post(song("/blind-picks"), body);
  }

  private JsonPath newest(Api who) {
    Response all = who.get(song("/blind-picks"));
    all.then().statusCode(200);
    return all.jsonPath().setRootPath("[0]");
  }

  private static Response sound(Api who, String ear, String which) {
    return who.get("/blind-ears/" + ear + "/sounds/" + which);
  }

  private static Response pick(Api who, String ear, String choice) {
    return who.post("/blind-ears/" + ear + "/pick", Map.of("choice", choice));
  }

  /** Hears both and picks. */
  private String picks(Api who, String choice) {
    String ear = newest(who).getString("ear");
    sound(who, ear, "first").then().statusCode(200);
    sound(who, ear, "second").then().statusCode(200);
    pick(who, ear, choice).then().statusCode(200).body("picked", equalTo(choice));
    return ear;
  }

  /** Samples of a WAV of floats: channel, frame. */
  static double[][] samples(byte[] wav) {
    ByteBuffer bytes = ByteBuffer.wrap(wav).order(ByteOrder.LITTLE_ENDIAN);
    int channels = bytes.getShort(22);
    int frames = (wav.length - 58) / 4 / channels;
    double[][] out = new double[channels][frames];
    bytes.position(58);
    for (int i = 0; i < frames; i++) {
      for (int c = 0; c < channels; c++) {
        out[c][i] = bytes.getFloat();
      }
    }
    return out;
  }

  @Test
  void bothSoundsAreMatchedAlignedAndTellNothing() {
    twoMixes();
    offer(Map.of("section", "Chorus 1")).then().statusCode(201);
    Response list = band.manager().get(song("/blind-picks"));
    String ear = list.path("[0].ear");
    Response first = sound(band.manager(), ear, "first");
    Response second = sound(band.manager(), ear, "second");
    first.then().statusCode(200).contentType("audio/wav");
    byte[] a = first.asByteArray();
    byte[] b = second.asByteArray();
    assertEquals(a.length, b.length);
    assertEquals(headers(first), headers(second));
    assertNull(first.header("ETag"));
    assertNull(first.header("Last-Modified"));
    assertNull(first.header("Content-Disposition"));
    assertEquals("private, no-store", first.header("Cache-Control"));
    // The heads of the files, with rate, channels and lengths, are equal to the byte.
    assertEquals(List.of(ByteBuffer.wrap(a, 0, 58)), List.of(ByteBuffer.wrap(b, 0, 58).slice()));
    double[][] x = samples(a);
    double[][] y = samples(b);
    assertEquals(8 * Takes.RATE, x[0].length);
    assertEquals(
        new SlowMeter(Takes.RATE, x).ungatedLufs(0, x[0].length),
        new SlowMeter(Takes.RATE, y).ungatedLufs(0, y[0].length),
        0.05);
    // All but the tune is the same to the sample: the best lag of one against the other is 0.
    assertEquals(0, bestLag(x[0], y[0]));
    for (String known : List.of(one, two)) {
      assertFalse(list.asString().contains(known), list.asString());
      assertFalse(headers(first).toString().contains(known));
      assertFalse(first.header("Content-Type").contains(known));
    }
    assertFalse(list.asString().contains("Mix 1") || list.asString().contains("Mix 2"));
    for (String row : blindRows(band.manager())) {
      assertFalse(row.contains("Mix ") || row.contains(one) || row.contains(two), row);
    }
    assertNull(list.path("[0].mixes"));
    assertNull(list.path("[0].picks"));
    assertNull(list.path("[0].missing"));
  }

  private static Map<String, String> headers(Response answer) {
    Map<String, String> out = new HashMap<>();
    answer.headers().forEach(h -> out.put(h.getName().toLowerCase(), h.getValue()));
    out.remove("date");
    return out;
  }

  private static int bestLag(double[] x, double[] y) {
    int best = 0;
    double most = Double.NEGATIVE_INFINITY;
    for (int lag = -5; lag <= 5; lag++) {
      double sum = 0;
      for (int i = 10; i < x.length - 10; i++) {
        sum += x[i] * y[i + lag];
      }
      if (sum > most) {
        most = sum;
        best = lag;
      }
    }
    return best;
  }

  private List<String> blindRows(Api who) {
    List<Map<String, Object>> rows = who.get(song("/history?limit=500")).jsonPath().getList("$");
    List<String> out = new ArrayList<>();
    for (Map<String, Object> row : rows) {
      if (row.get("act").toString().startsWith("blind-pick")) {
        out.add(row.toString());
      }
    }
    assertFalse(out.isEmpty());
    return out;
  }

  @Test
  void everybodyPicksOnceAndOnlyTheLastWordIsTold() {
    twoMixes();
    offer(Map.of("from", 10, "to", 14))
        .then()
        .statusCode(201)
        .body("place", equalTo("0:10 to 0:14"));
    String mine = newest(band.manager()).getString("ear");
    assertNotEquals(mine, newest(band.artist()).getString("ear"));
    assertNotEquals(mine, newest(band.artist()).getString("id"));
    // Nobody comes to somebody else's ears, and nobody picks unheard.
    refused(sound(band.artist(), mine, "first"), 404, "not-found");
    refused(pick(band.artist(), mine, "first"), 404, "not-found");
    refused(pick(band.manager(), mine, "first"), 409, "wrong-state");
    sound(band.manager(), mine, "first").then().statusCode(200);
    refused(pick(band.manager(), mine, "first"), 409, "wrong-state");
    refused(sound(band.manager(), mine, "third"), 404, "not-found");
    picks(band.manager(), "second");
    refused(pick(band.manager(), mine, "first"), 409, "wrong-state");
    assertEquals("second", newest(band.manager()).getString("picked"));
    // The artist has the last word, and is told after their own pick.
    assertNull(newest(band.artist()).get("picks"));
    picks(band.artist(), "no-difference");
    JsonPath told = newest(band.artist());
    assertEquals(List.of("Milo", "Asta"), told.getList("picks.name"));
    assertNull(told.get("picks[1].mix"));
    assertTrue(Set.of(one, two).contains(told.getString("picks[0].mix.bounce")));
    // What was named is what was heard: the louder tune is in the second mix.
    byte[] chosen = sound(band.manager(), mine, "second").asByteArray();
    byte[] otherOne = sound(band.manager(), mine, "first").asByteArray();
    assertEquals(tune(chosen) > tune(otherOne) ? two : one, told.getString("picks[0].mix.bounce"));
    // Neither the engineer nor anybody else learns who picked what.
    for (Api who : List.of(band.engineer(), band.manager())) {
      assertNull(newest(who).get("picks"));
    }
    assertEquals(List.of(one, two), newest(band.engineer()).getList("mixes.bounce"));
    assertEquals(1, newest(band.engineer()).getList("missing").size());
    refused(band.listener().get(song("/blind-picks")), 403, "not-allowed");
    refused(band.stranger().get(song("/blind-picks")), 404, "not-found");
  }

  /** Drawn on the second mix, where the music comes earlier, the same is heard. */
  @Test
  void aPlaceMayBeDrawnOnEitherMix() {
    twoMixes();
    offer(Map.of("from", 10, "to", 14)).then().statusCode(201);
    Set<String> direct = heard(newest(band.manager()).getString("ear"));
    double from = 10 - Takes.LATE_SECONDS;
    offer(Map.of("from", from, "to", from + 4, "on", two))
        .then()
        .statusCode(201)
        .body("place", equalTo("0:09 to 0:13"));
    assertEquals(direct, heard(newest(band.manager()).getString("ear")));
  }

  private Set<String> heard(String ear) {
    return Set.of(
        Arrays.toString(sound(band.manager(), ear, "first").asByteArray()),
        Arrays.toString(sound(band.manager(), ear, "second").asByteArray()));
  }

  /**
   * Level of the difference of the sides over that of their sum: only the tune and chords have it.
   */
  private static double tune(byte[] wav) {
    double[][] x = samples(wav);
    double side = 0;
    double mid = 0;
    for (int i = 0; i < x[0].length; i++) {
      side += (x[0][i] - x[1][i]) * (x[0][i] - x[1][i]);
      mid += (x[0][i] + x[1][i]) * (x[0][i] + x[1][i]);
    }
    return side / mid;
  }

  /** A page fetches both at once; once the later answer undid what the earlier one had noted. */
  @Test
  void bothSoundsFetchedAtTheSameMomentCountAsHeard() {
    twoMixes();
    for (int i = 0; i < 6; i++) {
      offer(Map.of("from", 4 + i, "to", 6 + i)).then().statusCode(201);
      String ear = newest(band.manager()).getString("ear");
      List<CompletableFuture<Integer>> both =
          List.of("first", "second").stream()
              .map(
                  which ->
                      CompletableFuture.supplyAsync(
                          () -> sound(band.manager(), ear, which).statusCode()))
              .toList();
      both.forEach(answer -> assertEquals(200, answer.join()));
      pick(band.manager(), ear, "first").then().statusCode(200);
    }
  }

  @Test
  void itEndsWithTheSettlementOfItsContradictionOrByHand() {
    twoMixes();
    String up = asks(band.artist(), "up");
    asks(band.manager(), "down");
    offer(Map.of("change", up))
        .then()
        .statusCode(201)
        .body("place", equalTo("Chorus 1"))
        .body("changes", hasSize(2));
    String ear = newest(band.manager()).getString("ear");
    sound(band.manager(), ear, "first").then().statusCode(200);
    sound(band.manager(), ear, "second").then().statusCode(200);
    band.artist().post("/changes/" + up + "/settlement", Map.of()).then().statusCode(200);
    assertEquals(false, newest(band.manager()).getBoolean("open"));
    refused(pick(band.manager(), ear, "first"), 409, "wrong-state");
    String free = offer(Map.of("section", "verse 1")).then().statusCode(201).extract().path("id");
    refused(band.manager().post("/blind-picks/" + free + "/ending"), 403, "not-allowed");
    band.artist()
        .post("/blind-picks/" + free + "/ending")
        .then()
        .statusCode(200)
        .body("open", equalTo(false))
        .body("picks", hasSize(0));
    refused(band.engineer().post("/blind-picks/" + free + "/ending"), 409, "wrong-state");
  }

  private String asks(Api who, String direction) {
    return who.post(
            song("/notes"),
            Map.of(
                "text",
                "tune " + direction,
                "bounce",
                one,
                "reading",
                Map.of(
                    "changes",
                    List.of(
                        Map.of(
                            "element",
                            "tune",
                            "aspect",
                            "level",
                            "direction",
                            direction,
                            "where",
                            List.of("Chorus 1"))))))
        .then()
        .statusCode(201)
        .extract()
        .path("changes[0]");
  }

  @Test
  void whatCannotBeHeardInBothIsNotOffered() {
    twoMixes();
    refused(offer(Map.of()), 422, "invalid");
    refused(offer(Map.of("section", "Bridge")), 422, "invalid");
    refused(offer(Map.of("from", 3, "to", 3.5)), 422, "invalid");
    refused(offer(Map.of("from", 20, "to", 40)), 422, "invalid");
    refused(offer(Map.of("from", 5, "to", 4, "on", two)), 422, "invalid");
    refused(offer(Map.of("from", 2, "to", 5, "on", "nowhere")), 404, "not-found");
    refused(offer(Map.of("from", 2, "to", 5, "mixes", List.of(one, one))), 409, "wrong-state");
    refused(offer(Map.of("from", 2, "to", 5, "mixes", List.of(one))), 422, "invalid");
    refused(offer(Map.of("from", 2, "to", 5, "mixes", List.of(one, "nowhere"))), 404, "not-found");
    String again = measured("Ebb again.wav", Takes.first().wav());
    refused(offer(Map.of("from", 2, "to", 5, "mixes", List.of(one, again))), 409, "wrong-state");
    band.engineer().post("/bounces/" + again + "/sending", Map.of()).then().statusCode(200);
    refused(offer(Map.of("from", 2, "to", 5, "mixes", List.of(one, again))), 409, "wrong-state");
    band.engineer().get(song("/blind-picks")).then().body("$", hasSize(0));
  }

  @Test
  void aPassIsSetBesideAnEarlierMixInWords() {
    twoMixes();
    String path = "/bounces/" + two + "/recall?with=" + one;
    JsonPath said =
        Awaitility.await()
            .atMost(Duration.ofSeconds(60))
            .until(() -> band.engineer().get(path), r -> r.statusCode() == 200)
            .jsonPath();
    assertTrue(
        said.getString("words").startsWith("The same except Chorus 1 (0:09–0:17): "),
        said.getString("words"));
    assertTrue(said.getString("words").contains("2.60 dB louder"), said.getString("words"));
    assertEquals(List.of("Chorus 1"), said.getList("places.name"));
    assertEquals("sections", said.getString("likeness"));
    refused(band.artist().get(path), 403, "not-allowed");
    band.artist()
        .get("/bounces/" + two + "/comparison?with=" + one)
        .then()
        .body("recall", nullValue());
  }
}
