package org.mixaccord.acceptance;

import static org.hamcrest.Matchers.contains;
import static org.hamcrest.Matchers.equalTo;
import static org.hamcrest.Matchers.hasSize;
import static org.hamcrest.Matchers.nullValue;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import io.quarkus.test.common.QuarkusTestResource;
import io.quarkus.test.junit.QuarkusTest;
import io.restassured.response.Response;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.mixaccord.PostgresForTests;

/** A listening test of its own for whoever mixes: which of the two is it, trial by trial. */
@QuarkusTest
@QuarkusTestResource(PostgresForTests.class)
class ListeningTrialsTest extends TwoMixesStage {
  @Test
  void aListeningTestKeepsItsScoreUntilTheLastTrial() {
    twoMixes();
    Map<String, Object> wanted =
        Map.of("mixes", List.of(one, two), "section", "Chorus 1", "trials", 5);
    String test = band.engineer().make(song("/abx-tests"), wanted);
    String path = "/abx-tests/" + test;
    byte[] a = band.engineer().get(path + "/sounds/a").asByteArray();
    byte[] b = band.engineer().get(path + "/sounds/b").asByteArray();
    assertEquals(a.length, b.length);
    refused(band.engineer().get(path + "/trials/2/sound"), 409, "wrong-state");
    int right = 0;
    for (int trial = 1; trial <= 5; trial++) {
      Response x = band.engineer().get(path + "/trials/" + trial + "/sound");
      x.then().statusCode(200);
      assertNull(x.header("ETag"));
      boolean isA = java.util.Arrays.equals(a, x.asByteArray());
      assertTrue(isA || java.util.Arrays.equals(b, x.asByteArray()));
      // The first four as heard, the last one wrong.
      String says = isA == (trial < 5) ? "a" : "b";
      right += trial < 5 ? 1 : 0;
      Response answered = band.engineer().post(path + "/trials/" + trial, Map.of("says", says));
      answered.then().statusCode(200).body("answered", equalTo(trial));
      if (trial < 5) {
        assertEquals(
            Set.of("id", "place", "a", "b", "trials", "answered"),
            answered.jsonPath().getMap("$").keySet());
      }
      refused(
          band.engineer().post(path + "/trials/" + trial, Map.of("says", says)),
          409,
          "wrong-state");
    }
    band.engineer()
        .get(path)
        .then()
        .body("result.right", equalTo(right))
        .body("result.probability", equalTo(0.1875f))
        .body(
            "result.words",
            equalTo(
                "4 of 5 right. By guessing alone, at least as many come out right in 18.8 % of"
                    + " such tests."));
    refused(band.artist().get(path), 404, "not-found");
    refused(band.artist().post(song("/abx-tests"), wanted), 403, "not-allowed");
    refused(band.engineer().delete(path), 409, "wrong-state");
  }

  @Test
  void aListeningTestBrokenOffShowsNothing() {
    twoMixes();
    Map<String, Object> wanted =
        new HashMap<>(Map.of("mixes", List.of(two, one), "from", 5, "to", 9, "trials", 6));
    String test = band.engineer().make(song("/abx-tests"), wanted);
    String path = "/abx-tests/" + test;
    band.engineer().post(path + "/trials/1", Map.of("says", "b")).then().statusCode(200);
    band.engineer().delete(path).then().statusCode(204);
    refused(band.engineer().post(path + "/trials/2", Map.of("says", "b")), 409, "wrong-state");
    band.engineer().get(path).then().body("result", nullValue());
    band.engineer().get(song("/abx-tests")).then().body("$", hasSize(0));
    for (int trials : new int[] {4, 51}) {
      wanted.put("trials", trials);
      refused(band.engineer().post(song("/abx-tests"), wanted), 422, "invalid");
    }
    wanted.remove("trials");
    refused(band.engineer().post(song("/abx-tests"), wanted), 422, "invalid");
    wanted.put("trials", 50);
    band.engineer().make(song("/abx-tests"), wanted);
    band.engineer().get(song("/abx-tests")).then().body("trials", contains(50));
  }
}
