package org.mixaccord.acceptance;

import static org.hamcrest.Matchers.contains;
import static org.hamcrest.Matchers.containsInAnyOrder;
import static org.hamcrest.Matchers.empty;
import static org.hamcrest.Matchers.equalTo;
import static org.hamcrest.Matchers.hasSize;
import static org.hamcrest.Matchers.nullValue;
import static org.mixaccord.record.ProjectForTests.hash;

import io.quarkus.test.common.QuarkusTestResource;
import io.quarkus.test.junit.QuarkusTest;
import io.restassured.response.ValidatableResponse;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.mixaccord.PostgresForTests;

/** The engineer arranges the list; what people wrote and their say stay theirs. */
@QuarkusTest
@QuarkusTestResource(PostgresForTests.class)
class ListArrangedTest extends ReviewStage {
  private String changes() {
    return "/songs/" + cast.song() + "/changes";
  }

  private ValidatableResponse join(String who, String... ids) {
    return post(who, changes() + "/joining", Map.of("changes", List.of(ids)));
  }

  private ValidatableResponse order(String who, String... ids) {
    return as(who)
        .body(Map.of("changes", List.of(ids)))
        .put("/api/v1" + changes() + "/order")
        .then();
  }

  private void listed(String... ids) {
    for (String who : List.of("eng", "art", "boss")) {
      get(who, changes()).body("id", contains(ids));
    }
  }

  @Test
  void oneLineBecomesSeveralWithTheSameWords() {
    String before = asks("drummer", "snare", "up", "Verse 1");
    String whole = asks("art", "vocals", "up", "Verse 1", "Chorus 1");
    String behind = asks("drummer", "bass", "up", "Verse 1");
    List<String> made =
        post(
                "eng",
                "/changes/" + whole + "/splitting",
                Map.of(
                    "parts",
                    List.of(
                        Map.of("where", List.of("Verse 1")),
                        Map.of("where", List.of("Chorus 1"), "element", "lead vocal"))))
            .statusCode(200)
            .body("text", contains("vocals up", "vocals up"))
            .body("element", contains("vocals", "lead vocal"))
            .body("where", contains(List.of("Verse 1"), List.of("Chorus 1")))
            .extract()
            .path("id");
    listed(before, made.get(0), made.get(1), behind);
    // Each is worked and answered alone, by whoever asked for the whole.
    patch("eng", made.get(1), Map.of("state", "left", "answer", "tried")).statusCode(200);
    get("art", "/changes/" + made.get(0)).body("state", equalTo("asked"));
    patch("art", made.get(0), Map.of("state", "withdrawn")).statusCode(200);
    get("art", "/songs/" + cast.song() + "/history")
        .body(
            "findAll { it.act == 'change-split' }.detail",
            contains("eng made 2 lines of “vocals up”."));
  }

  @Test
  void splittingNeedsPartsThatMakeSense() {
    String change = asks("art", "vocals", "up");
    String path = "/changes/" + change + "/splitting";
    post("eng", path, Map.of("parts", List.of(Map.of()))).statusCode(422);
    post("eng", path, Map.of("parts", List.of(Map.of(), Map.of("aspect", "loudness"))))
        .statusCode(422);
    post("eng", path, Map.of("parts", List.of(Map.of(), "drums"))).statusCode(422);
    post("eng", path, Map.of()).statusCode(422);
    listed(change);
    post("drummer", path, Map.of("parts", List.of(Map.of(), Map.of()))).statusCode(403);
    patch("eng", change, Map.of("state", "left", "answer", "tried")).statusCode(200);
    post("eng", path, Map.of("parts", List.of(Map.of(), Map.of()))).statusCode(409);
  }

  @Test
  void whatIsUnclearWaitsForItsAnswer() {
    String unclear =
        post(
                "art",
                "/songs/" + cast.song() + "/notes",
                Map.of("text", "fix the thing at the end", "bounce", mix1))
            .extract()
            .path("changes[0]");
    post("eng", "/changes/" + unclear + "/splitting", Map.of("parts", List.of(Map.of(), Map.of())))
        .statusCode(409)
        .body("code", equalTo("wrong-state"));
  }

  @Test
  void severalAreWorkedAsOneAndAnsweredEachByItsOwn() {
    String one = asks("art", "vocals", "up", "Verse 1");
    String two = asks("drummer", "guitar", "down", "Verse 1");
    String three = asks("boss", "lead vocal", "up");
    join("eng", one, two).statusCode(200).body("joined", contains(true, true));
    get("art", "/changes/" + one).body("mergedWith", contains(two));
    // One more comes to both.
    join("eng", two, three).statusCode(200);
    get("art", "/changes/" + one).body("mergedWith", containsInAnyOrder(two, three));
    post("eng", "/changes/" + three + "/parting", Map.of())
        .statusCode(200)
        .body("mergedWith", empty())
        .body("joined", equalTo(false));
    post("eng", "/changes/" + three + "/parting", Map.of()).statusCode(409);

    String mix2 = projects.bounce(cast, hash(2));
    post("eng", changes() + "/marking", Map.of("changes", List.of(one), "state", "done"))
        .statusCode(200);
    projects.send(cast, mix2);
    get("drummer", "/changes/" + two).body("state", equalTo("done"));
    get("boss", "/changes/" + three).body("state", equalTo("asked"));
    post("art", "/changes/" + one + "/hearing", Map.of("bounce", mix2, "says", "good"))
        .statusCode(200);
    get("drummer", "/changes/" + two).body("state", equalTo("done"));
  }

  @Test
  void whatGoesAgainstEachOtherIsNotJoined() {
    String up = asks("art", "snare", "up", "Verse 1");
    String down = asks("drummer", "snare", "down", "Verse 1");
    join("eng", up, down).statusCode(409);
    join("eng", up).statusCode(422);
    join("eng", up, up).statusCode(422);
    join("eng", up, "nothing").statusCode(404);
    join("art", up, down).statusCode(403);
    get("eng", "/changes/" + up).body("joined", equalTo(false));
  }

  @Test
  void theOrderIsTheEngineersAndNewOnesComeLast() {
    List<String> ids = new ArrayList<>();
    for (String element : List.of("kick", "snare", "bass", "keys")) {
      ids.add(asks("art", element, "up", "Verse 1"));
    }
    order("art", ids.get(3), ids.get(0)).statusCode(403);
    order("eng", ids.get(3), ids.get(0)).statusCode(204);
    listed(ids.get(3), ids.get(1), ids.get(2), ids.get(0));
    String last = asks("drummer", "toms", "up");
    listed(ids.get(3), ids.get(1), ids.get(2), ids.get(0), last);
    order("eng", ids.get(0), ids.get(1), ids.get(2), ids.get(3)).statusCode(204);
    listed(ids.get(0), ids.get(1), ids.get(2), ids.get(3), last);
    order("eng").statusCode(422);
    order("eng", "nothing").statusCode(404);
  }

  @Test
  void newWorkIsProposedAndTheEngineerDecides() {
    String again =
        post(
                "art",
                "/songs/" + cast.song() + "/notes",
                Map.of("text", "can we re-record the vocal in verse 1", "bounce", mix1))
            .extract()
            .path("changes[0]");
    get("art", "/changes/" + again).body("newWork", equalTo("take"));
    patch("eng", again, Map.of("newWork", "none")).statusCode(200).body("newWork", nullValue());
    patch("eng", again, Map.of("newWork", "form")).statusCode(200).body("newWork", equalTo("form"));
    patch("eng", again, Map.of("newWork", "holiday")).statusCode(422);
    patch("art", again, Map.of("newWork", "none")).statusCode(403);
  }

  /**
   * Half a decibel, seven tenths and one were good; from then on that is what the words mean here.
   */
  @Test
  void thePeoplesOwnScaleIsLearnedFromWhatTheyCalledGood() {
    double[] moved = {0.5, 0.7, 1};
    String before = mix1;
    for (int i = 0; i < moved.length; i++) {
      String change = vague("snare");
      get("eng", "/changes/" + change)
          .body("usual.learned", equalTo(false))
          .body("usual.fromDb", equalTo(0.5f))
          .body("usual.good", hasSize(i));
      String mix = projects.bounce(cast, hash(2 + i));
      projects.compared(mix, before, moved("snare", moved[i]));
      patch("eng", change, Map.of("state", "done", "doneIn", mix)).statusCode(200);
      projects.send(cast, mix);
      post("art", "/changes/" + change + "/hearing", Map.of("bounce", mix, "says", "good"))
          .statusCode(200);
      before = mix;
      mix1 = mix;
    }
    String next = vague("bass");
    get("eng", "/changes/" + next)
        .body("usual.learned", equalTo(true))
        .body("usual.fromDb", equalTo(0.4f))
        .body("usual.toDb", equalTo(1.3f))
        .body("usual.good.name", contains("art", "art", "art"))
        .body("usual.good.db", contains(0.5f, 0.7f, 1.0f));
    get("art", "/changes/" + next).body("usual", nullValue());
  }

  private String vague(String element) {
    return asks(
        "art",
        Map.of(
            "element",
            element,
            "aspect",
            "level",
            "direction",
            "up",
            "amount",
            Map.of("word", "a touch"),
            "where",
            List.of("Verse 1")));
  }

  private static String moved(String element, double db) {
    return """
        {"likeness": "sections", "gainDb": 0.0, "onlyHere": [], "onlyThere": [],
         "timeMap": [{"from": 0.0, "to": 100, "otherFrom": 0, "otherTo": 100.0, "sure": 0.99}],
         "whole": {"residualDb": -70.5},
         "sections": [
           {"name": "Verse 1", "otherFrom": 0, "otherTo": 30, "difference": "changed",
            "elements": [{"element": "%s", "gainChangeDb": %s, "plusMinusDb": 0.02}]}]}
        """
        .formatted(element, db);
  }
}
