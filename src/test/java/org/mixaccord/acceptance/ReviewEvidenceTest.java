package org.mixaccord.acceptance;

import static org.hamcrest.Matchers.contains;
import static org.hamcrest.Matchers.containsString;
import static org.hamcrest.Matchers.empty;
import static org.hamcrest.Matchers.equalTo;
import static org.hamcrest.Matchers.hasSize;
import static org.hamcrest.Matchers.nullValue;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.mixaccord.record.ProjectForTests.hash;

import io.quarkus.test.common.QuarkusTestResource;
import io.quarkus.test.junit.QuarkusTest;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.mixaccord.PostgresForTests;
import org.mixaccord.accounts.ApprovalStays;

/** What comparing brings to the record: verdicts, moved places, approvals that hold on. */
@QuarkusTest
@QuarkusTestResource(PostgresForTests.class)
class ReviewEvidenceTest extends ReviewStage {
  /** Half a second cut from the head, the snare up in the chorus, all else as it was. */
  private static String comparison(String likeness, double snareDb) {
    return """
        {"likeness": "%s", "gainDb": 0.0, "onlyHere": [], "onlyThere": [],
         "timeMap": [{"from": 0.0, "to": 99.5, "otherFrom": 0.5, "otherTo": 100.0, "sure": 0.99}],
         "whole": {"residualDb": -70.5},
         "sections": [
           {"name": "Verse 1", "otherFrom": 0.5, "otherTo": 30, "difference": "unchanged",
            "elements": []},
           {"name": "Chorus 1", "otherFrom": 30, "otherTo": 60, "difference": "changed",
            "elements": [{"element": "snare", "gainChangeDb": %s, "plusMinusDb": 0.02}]}]}
        """
        .formatted(likeness, snareDb);
  }

  /** Mix 3 set beside Mix 2 shows nothing of what Mix 2 brought; it was called not seen once. */
  @Test
  void whatWasDoneInAnEarlierMixIsNotJudgedByALaterStep() {
    String change = asks("art", "snare", "up", "Chorus 1");
    String mix2 = projects.bounce(cast, hash(2));
    projects.compared(mix2, mix1, comparison("sections", 1.0));
    patch("eng", change, Map.of("state", "done", "doneIn", mix2)).statusCode(200);
    projects.send(cast, mix2);
    String mix3 = projects.bounce(cast, hash(3));
    projects.compared(mix3, mix2, comparison("sections", 0.0));
    get("eng", "/changes/" + change).body("verdicts.bounce", contains(mix2));
    projects.compared(mix3, mix1, comparison("sections", 1.1));
    get("eng", "/changes/" + change)
        .body("verdicts.bounce", contains(mix2, mix3))
        .body("verdicts.seen", contains("as-asked", "as-asked"));
  }

  /** More digits would only look exact; they once left as floating point had made them. */
  @Test
  void figuresLeaveWithFourDecimalsAndTimesWithoutTheirTails() {
    String change = asks("art", "snare", "up", "Chorus 1");
    String mix2 = projects.bounce(cast, hash(2));
    projects.compared(
        mix2,
        mix1,
        comparison("sections", 0.3200000007287172)
            .replace("\"sure\": 0.99", "\"sure\": 0.9993647428727597"));
    patch("eng", change, Map.of("state", "done", "doneIn", mix2)).statusCode(200);
    get("eng", "/changes/" + change)
        .body(containsString("\"measuredDb\":0.32,"))
        .body(containsString("\"deliveredDb\":0.32,"));
    get("eng", "/songs/" + cast.song() + "/sections?bounce=" + mix2)
        .body(containsString("\"sure\":0.9994}"));
    String late =
        asks(
            "art",
            Map.of(
                "element",
                "bass",
                "aspect",
                "level",
                "direction",
                "up",
                "where",
                Map.of("from", 80.1, "to", 87.39999999999999)));
    get("art", "/changes/" + late).body(containsString("{\"from\":80.1,\"to\":87.4}"));
    // A repeat under a key says the same as the first did.
    for (int i = 0; i < 2; i++) {
      as("eng")
          .header("Idempotency-Key", "figures")
          .body(Map.of("parts", List.of(Map.of(), Map.of())))
          .post("/api/v1/changes/" + late + "/splitting")
          .then()
          .statusCode(200)
          .body(containsString("{\"from\":80.1,\"to\":87.4}"));
    }
  }

  @Test
  void evidenceIsForTheEngineerAndMovesPlaces() {
    String change = asks("art", "snare", "up", "Chorus 1");
    post(
            "art",
            "/songs/" + cast.song() + "/notes",
            Map.of("text", "lovely", "bounce", mix1, "from", 40.5, "to", 42.5))
        .statusCode(201);
    String mix2 = projects.bounce(cast, hash(2));
    projects.compared(mix2, mix1, comparison("sections", 1.0));
    projects.send(cast, mix2);
    get("eng", "/changes/" + change)
        .body("verdicts", hasSize(1))
        .body("verdicts[0].bounce", equalTo(mix2))
        .body("verdicts[0].seen", equalTo("as-asked"))
        .body("verdicts[0].measuredDb", equalTo(1.0f));
    get("art", "/changes/" + change).body("verdicts", nullValue());
    get("art", "/songs/" + cast.song() + "/notes?bounce=" + mix2)
        .body("[1].from", equalTo(40.5f))
        .body("[1].shownFrom", equalTo(40.0f))
        .body("[1].shownTo", equalTo(42.0f))
        .body("[1].place", equalTo("exact"));
  }

  @Test
  void anApprovalThatWaitsTakesEffectOnceSeenAsAsked() {
    String change = asks("art", "snare", "up", "Chorus 1");
    post(
            "boss",
            "/bounces/" + mix1 + "/approvals",
            Map.of("decision", "approve", "pcmSha256", hash(1), "onceDone", List.of(change)))
        .statusCode(201)
        .body("state", equalTo("pending"));
    String mix2 = projects.bounce(cast, hash(2));
    patch("eng", change, Map.of("state", "done")).statusCode(200);
    projects.send(cast, mix2);
    get("boss", "/bounces/" + mix2 + "/approvals").body("", empty());
    projects.compared(mix2, mix1, comparison("sections", 1.0));
    get("boss", "/bounces/" + mix2 + "/approvals")
        .body("[0].state", equalTo("valid"))
        .body("[0].from", equalTo(mix1));
    get("art", "/changes/" + change).body("state", equalTo("good"));
    get("art", "/me/board").body("[0].approved", equalTo(true));
  }

  @Test
  void anApprovalStaysForACopyOnlyWhereTheProjectSaysSo() {
    Map<String, String> approve = Map.of("decision", "approve", "pcmSha256", hash(1));
    post("boss", "/bounces/" + mix1 + "/approvals", approve).statusCode(201);
    String copy = projects.bounce(cast, hash(2));
    projects.send(cast, copy);
    projects.compared(copy, mix1, comparison("requantised", 0));
    get("boss", "/bounces/" + copy + "/approvals").body("", empty());
    projects.approvalStays(cast, ApprovalStays.REQUANTISED);
    String second = projects.bounce(cast, hash(3));
    projects.send(cast, second);
    projects.compared(second, mix1, comparison("requantised", 0));
    get("boss", "/bounces/" + second + "/approvals").body("[0].state", equalTo("valid"));
    List<String> rows = projects.acts(cast, "boss", "approval-stays");
    assertEquals(1, rows.size());
    assertEquals(
        "boss’s approval holds for Mix 3 too: requantised, residual −70.5 dB."
            + " Heard "
            + hash(1)
            + ", now "
            + hash(3)
            + ".",
        rows.get(0));
  }
}
