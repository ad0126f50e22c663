package org.mixaccord.acceptance;

import static io.restassured.RestAssured.given;
import static org.hamcrest.Matchers.contains;
import static org.hamcrest.Matchers.empty;
import static org.hamcrest.Matchers.equalTo;
import static org.hamcrest.Matchers.hasItem;
import static org.hamcrest.Matchers.hasSize;
import static org.hamcrest.Matchers.not;
import static org.hamcrest.Matchers.nullValue;
import static org.hamcrest.Matchers.startsWith;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.mixaccord.record.ProjectForTests.hash;

import io.quarkus.test.common.QuarkusTestResource;
import io.quarkus.test.junit.QuarkusTest;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.mixaccord.PostgresForTests;

/** Notes, changes and approval over HTTP, with bounces that are measured already. */
@QuarkusTest
@QuarkusTestResource(PostgresForTests.class)
class ReviewRoundTest extends ReviewStage {
  @Test
  void aWishGoesRoundUntilTheSongIsApproved() {
    String song = "/songs/" + cast.song();
    Map<String, Object> note =
        post(
                "art",
                song + "/notes",
                Map.of("text", "lead vocal up 1 dB in Chorus 1", "bounce", mix1))
            .statusCode(201)
            .extract()
            .path("");
    String change = ((List<?>) note.get("changes")).get(0).toString();
    get("eng", song + "/changes")
        .statusCode(200)
        .body("id", contains(change))
        .body("[0].element", equalTo("lead vocal"))
        .body("[0].where", contains("Chorus 1"))
        .body("[0].amount.value", equalTo(1.0f))
        .body("[0].state", equalTo("asked"));
    post("eng", song + "/rounds/current/closing", Map.of())
        .statusCode(200)
        .body("round", equalTo(2));
    String mix2 = projects.bounce(cast, hash(2));
    patch("eng", change, Map.of("state", "done")).statusCode(200).body("doneIn", equalTo(mix2));
    get("art", "/changes/" + change)
        .body("state", equalTo("asked"))
        .body("doneIn", nullValue())
        .body("answer", nullValue());
    assertEquals(List.of(), projects.acts(cast, "art", "change-done"));
    post("art", "/changes/" + change + "/hearing", Map.of("bounce", mix1, "says", "good"))
        .statusCode(409)
        .body("code", equalTo("wrong-state"));
    projects.send(cast, mix2);
    assertEquals(1, projects.acts(cast, "art", "change-done").size());
    get("art", "/changes/" + change).body("state", equalTo("done")).body("doneIn", equalTo(mix2));
    get("boss", "/me/board")
        .body("[0].waitsForMe", equalTo(true))
        .body("[0].waitingOn.person", equalTo(cast.person("boss")))
        .body("[0].approved", equalTo(false));
    get("boss", "/bounces/" + mix2 + "/open-points").statusCode(200).body("", empty());
    post("boss", "/bounces/" + mix2 + "/approvals", Map.of("decision", "approve", "pcmSha256", "x"))
        .statusCode(409)
        .body("code", equalTo("hash-differs"));
    post(
            "boss",
            "/bounces/" + mix2 + "/approvals",
            Map.of("decision", "approve", "pcmSha256", hash(2)))
        .statusCode(201)
        .body("state", equalTo("valid"))
        .body("head", equalTo(projects.head(cast)));
    get("art", "/changes/" + change).body("state", equalTo("good"));
    get("boss", "/me/board")
        .body("[0].approved", equalTo(true))
        .body("[0].waitingOn", nullValue())
        .body("[0].approvedBy", contains("boss"));
    String same = projects.bounce(cast, hash(2));
    projects.send(cast, same);
    get("boss", "/bounces/" + same + "/approvals")
        .body("[0].state", equalTo("valid"))
        .body("[0].from", equalTo(mix2));
    String other = projects.bounce(cast, hash(3));
    projects.send(cast, other);
    get("boss", "/bounces/" + other + "/approvals").body("", empty());
    get("boss", "/me/board")
        .body("[0].approved", equalTo(false))
        .body("[0].waitingOn.code", equalTo("approve"))
        .body("[0].waitsForMe", equalTo(true));
    post(
            "boss",
            "/bounces/" + same + "/approvals",
            Map.of("decision", "approve", "pcmSha256", hash(2)))
        .statusCode(201);
    get("boss", "/me/board").body("[0].approved", equalTo(true));
  }

  @Test
  void whatContradictsIsSettledByTheLastWord() {
    String up = asks("art", "snare", "up", "Chorus 1");
    String down = asks("drummer", "snare", "down");
    asks("boss", "bass", "down");
    get("eng", "/changes/" + up).body("conflictsWith", contains(down));
    get("boss", "/bounces/" + mix1 + "/open-points")
        .body("code", contains("no-open-question", "no-open-change"))
        .body("passable", contains(true, true));
    post("drummer", "/changes/" + down + "/settlement", Map.of()).statusCode(403);
    post("art", "/changes/" + up + "/settlement", Map.of("reason", "it is a loud song"))
        .statusCode(200)
        .body("state", equalTo("asked"))
        .body("conflictsWith", empty());
    get("drummer", "/changes/" + down)
        .body("state", equalTo("left"))
        .body("reason", startsWith("settled by art"));
    patch("drummer", down, Map.of("state", "asked", "reason", "no")).statusCode(403);
    post("art", "/changes/" + up + "/settlement", Map.of()).statusCode(409);
  }

  @Test
  void theSameWishTwiceIsWorkedOnce() {
    String one = asks("art", "bass", "up", "Verse 1");
    String two = asks("drummer", "bass", "up", "Verse 1");
    get("eng", "/changes/" + one).body("mergedWith", contains(two));
    post(
            "eng",
            "/songs/" + cast.song() + "/changes/marking",
            Map.of("changes", List.of(one), "state", "left", "answer", "tried"))
        .statusCode(200)
        .body("state", contains("left"));
    get("drummer", "/changes/" + two)
        .body("state", equalTo("left"))
        .body("answer", equalTo("tried"));
  }

  @Test
  void afterHearingANextChangeFollows() {
    String change = asks("art", "bass", "up", "Verse 1");
    patch("eng", change, Map.of("state", "done", "doneIn", mix1)).statusCode(200);
    String next =
        post("art", "/changes/" + change + "/hearing", Map.of("bounce", mix1, "says", "halfway"))
            .statusCode(200)
            .body("state", equalTo("followed"))
            .extract()
            .path("next");
    get("art", "/changes/" + next)
        .body("follows", equalTo(change))
        .body("direction", equalTo("down"))
        .body("where", contains("Verse 1"))
        .body("amount.word", equalTo("half of it"))
        .body("state", equalTo("asked"));
  }

  @Test
  void aWriteHasToSayWhatItHasSeen() {
    String change = asks("art", "bass", "up");
    String path = "/api/v1/changes/" + change;
    as("eng").body(Map.of("state", "done")).patch(path).then().statusCode(428);
    String etag = get("eng", "/changes/" + change).extract().header("ETag");
    patch("eng", change, Map.of("state", "left", "answer", "cannot")).statusCode(200);
    as("eng")
        .header("If-Match", etag)
        .body(Map.of("state", "done"))
        .patch(path)
        .then()
        .statusCode(412)
        .body("code", equalTo("changed-meanwhile"));
    assertNotEquals(etag, get("eng", "/changes/" + change).extract().header("ETag"));
  }

  @Test
  void whatTheEngineerDoesInPrivateMakesNobodyStale() {
    String change = asks("art", "bass", "up");
    String etag = get("art", "/changes/" + change).extract().header("ETag");
    projects.bounce(cast, hash(4));
    patch("eng", change, Map.of("state", "done")).statusCode(200);
    as("art")
        .header("If-Match", etag)
        .body(Map.of("state", "withdrawn"))
        .patch("/api/v1/changes/" + change)
        .then()
        .statusCode(200)
        .body("state", equalTo("withdrawn"));
  }

  @Test
  void badNotesAreRefusedAndNothingIsKept() {
    String notes = "/songs/" + cast.song() + "/notes";
    post("art", notes, Map.of("text", "a".repeat(200_000), "bounce", mix1))
        .statusCode(413)
        .body("code", equalTo("note-too-long"));
    post("art", notes, "{\"text\": \"no\\u0000thing\", \"bounce\": \"" + mix1 + "\"}")
        .statusCode(422)
        .body("code", equalTo("bad-text"));
    post("art", notes, "{\"text\": \"half \\ud800 a sign\", \"bounce\": \"" + mix1 + "\"}")
        .statusCode(422)
        .body("code", equalTo("bad-text"));
    post("art", notes, Map.of("text", "  ", "bounce", mix1)).statusCode(422);
    post("art", notes, Map.of("text", "louder", "bounce", mix1, "from", 500)).statusCode(422);
    get("eng", notes).body("", empty());
  }

  @Test
  void gatheredNotesAreHiddenFromTheEngineerUntilHandedOver() {
    projects.gather(cast);
    String change = asks("drummer", "bass", "up");
    get("eng", "/songs/" + cast.song() + "/changes").statusCode(200).body("", empty());
    get("eng", "/changes/" + change).statusCode(404);
    get("art", "/songs/" + cast.song() + "/changes").body("id", contains(change));
    asks("art", "bass", "up");
    asks("drummer", "kick", "up");
    get("eng", "/songs/" + cast.song()).body("writing", equalTo(2));
    get("ear", "/songs/" + cast.song()).body("writing", equalTo(0));
    assertEquals(List.of(), projects.acts(cast, "eng", "note-written"));
    String sending = "/songs/" + cast.song() + "/rounds/current/notes-sending";
    post("drummer", sending, Map.of()).statusCode(403);
    post("art", sending, Map.of()).statusCode(200).body("notes", hasSize(3));
    get("eng", "/songs/" + cast.song() + "/changes").body("id[0]", equalTo(change));
    get("eng", "/songs/" + cast.song()).body("writing", equalTo(0));
    assertEquals(3, projects.acts(cast, "eng", "note-written").size());
  }

  @Test
  void aStopHoldsUntilItIsLifted() {
    String approvals = "/bounces/" + mix1 + "/approvals";
    String stop =
        post("drummer", approvals, Map.of("decision", "stop", "comment", "wrong words"))
            .statusCode(201)
            .extract()
            .path("id");
    Map<String, Object> approve =
        Map.of(
            "decision",
            "approve",
            "pcmSha256",
            hash(1),
            "despite",
            List.of("no-stop"),
            "reason",
            "late");
    post("boss", approvals, approve)
        .statusCode(409)
        .body("code", equalTo("open-points"))
        .body("openPoints.code", hasItem("no-stop"));
    as("art").delete("/api/v1/approvals/" + stop).then().statusCode(403);
    as("boss").delete("/api/v1/approvals/" + stop).then().statusCode(422);
    as("boss").delete("/api/v1/approvals/" + stop + "?reason=checked").then().statusCode(200);
    post("boss", approvals, Map.of("decision", "approve", "pcmSha256", hash(1))).statusCode(201);
    get("art", approvals)
        .body("decision", contains("stop", "approve"))
        .body("state", contains("withdrawn", "valid"));
  }

  @Test
  void openPointsArePassedByNameAndReason() {
    asks("art", "bass", "up");
    String approvals = "/bounces/" + mix1 + "/approvals";
    post("boss", approvals, Map.of("decision", "approve", "pcmSha256", hash(1))).statusCode(409);
    post("art", approvals, Map.of("decision", "approve", "pcmSha256", hash(1))).statusCode(403);
    post(
            "boss",
            approvals,
            Map.of(
                "decision", "approve", "pcmSha256", hash(1), "despite", List.of("no-open-change")))
        .statusCode(422);
    post(
            "boss",
            approvals,
            Map.of(
                "decision",
                "approve",
                "pcmSha256",
                hash(1),
                "despite",
                List.of("no-open-change"),
                "reason",
                "the date"))
        .statusCode(201);
  }

  @Test
  void aQuestionGoesBackToItsAuthorAndItsAnswerIsRead() {
    Map<String, Object> note =
        post(
                "art",
                "/songs/" + cast.song() + "/notes",
                Map.of("text", "fix the thing at the end", "bounce", mix1))
            .statusCode(201)
            .extract()
            .path("");
    List<?> questions = (List<?>) note.get("questions");
    assertEquals(1, questions.size(), note.toString());
    String path = "/questions/" + questions.get(0);
    get("eng", "/songs/" + cast.song() + "/questions?open=true")
        .body("id", contains(questions.get(0)))
        .body("[0].to", equalTo(cast.person("art")));
    post("eng", path + "/answer", Map.of("text", "snare up")).statusCode(403);
    post("art", path + "/answer", Map.of("text", "snare up 1 dB"))
        .statusCode(200)
        .body("changes[0].state", equalTo("asked"));
    get("eng", "/songs/" + cast.song() + "/changes")
        .body("[0].element", equalTo("snare"))
        .body("[0].direction", equalTo("up"));
    post("art", path + "/answer", Map.of("skip", true)).statusCode(409);
  }

  @Test
  void strangersSeeNothingAndListenersOnlyListen() {
    String change = asks("art", "bass", "up");
    String song = "/songs/" + cast.song();
    for (String path :
        List.of(
            song + "/notes",
            song + "/changes",
            song + "/keeps",
            song + "/questions",
            "/changes/" + change,
            "/bounces/" + mix1 + "/open-points",
            "/bounces/" + mix1 + "/approvals")) {
      get("stranger", path).statusCode(404);
      given().get("/api/v1" + path).then().statusCode(401);
    }
    get("ear", song + "/changes").statusCode(403);
    post("ear", song + "/notes", Map.of("text", "hm", "bounce", mix1)).statusCode(403);
    post("ear", "/bounces/" + mix1 + "/approvals", Map.of("decision", "fine-by-me"))
        .statusCode(403);
    post("stranger", song + "/notes", Map.of("text", "hm", "bounce", mix1)).statusCode(404);
    projects.remove(cast, "drummer");
    get("drummer", song + "/changes").statusCode(404);
    get("drummer", "/me/board").statusCode(200).body("song", not(hasItem(cast.song())));
  }

  @Test
  void aReadingIsShownWithoutKeepingAnything() {
    post(
            "art",
            "/note-readings",
            Map.of(
                "text",
                "vox +1 in the chorus, leave the verse alone",
                "sections",
                List.of(Map.of("name", "Chorus 1", "from", 10, "to", 20))))
        .statusCode(200)
        .body("changes[0].element", equalTo("vocals"))
        .body("changes[0].where", contains("Chorus 1"))
        .body("changes[0].amount.unit", equalTo("dB"));
  }
}
