package org.mixaccord.acceptance;

import static io.restassured.RestAssured.given;
import static org.hamcrest.Matchers.contains;
import static org.hamcrest.Matchers.containsString;
import static org.hamcrest.Matchers.equalTo;
import static org.hamcrest.Matchers.hasItem;
import static org.hamcrest.Matchers.hasItems;
import static org.hamcrest.Matchers.hasSize;
import static org.hamcrest.Matchers.not;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;

import io.quarkus.test.common.QuarkusTestResource;
import io.quarkus.test.junit.QuarkusTest;
import io.restassured.http.ContentType;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.mixaccord.PostgresForTests;

@QuarkusTest
@QuarkusTestResource(PostgresForTests.class)
class PeopleTest {
  @Test
  void whoIsNotSignedInIsToldSo() {
    given()
        .get("/api/v1/me")
        .then()
        .statusCode(401)
        .contentType("application/problem+json")
        .body("code", equalTo("not-signed-in"))
        .body("type", equalTo("/problems/not-signed-in"));
  }

  @Test
  void aWrongPasswordIsRefusedAndTooManyWait() {
    Owner.signedIn();
    Map<String, String> wrong = Map.of("email", "nobody@example.org", "password", "not this one");
    for (int i = 0; i < 8; i++) {
      Api.nobody()
          .post("/session", wrong)
          .then()
          .statusCode(401)
          .body("code", equalTo("wrong-credentials"));
    }
    Api.nobody().post("/session", wrong).then().statusCode(429).body("code", equalTo("slow-down"));
  }

  @Test
  void everyRoleSeesTheProjectAndAStrangerDoesNot() {
    Band band = Band.assemble();
    for (Api someone : List.of(band.engineer(), band.artist(), band.manager(), band.listener())) {
      someone.get("/projects/" + band.project()).then().statusCode(200);
      someone
          .get("/songs/" + band.song())
          .then()
          .statusCode(200)
          .body("title", equalTo("Slack Tide"));
    }
    band.stranger().get("/projects/" + band.project()).then().statusCode(404);
    band.stranger().get("/songs/" + band.song()).then().statusCode(404);
    Api.nobody().get("/songs/" + band.song()).then().statusCode(401);
  }

  @Test
  void rightsAreSaidToThePage() {
    Band band = Band.assemble();
    band.engineer()
        .get("/songs/" + band.song())
        .then()
        .body("may", hasItems("send", "hear-private", "work-list", "manage-people"))
        .body("may", not(hasItem("settle")));
    band.artist()
        .get("/songs/" + band.song())
        .then()
        .body("may", hasItems("write-note", "settle", "see-figures", "upload-rough"))
        .body("may", not(hasItem("hear-private")))
        .body("you.lastWord", equalTo(true));
    band.listener().get("/songs/" + band.song()).then().body("may", hasSize(0));
  }

  @Test
  void anInvitationIsUsedUpByAcceptingAlone() {
    Band band = Band.assemble();
    String token = Band.invite(band.engineer(), band.project(), "artist");
    given().get("/api/v1/invitations/" + token + "/acceptance").then().statusCode(405);
    Api.join(token, "Bo");
    Api.nobody()
        .post("/invitations/" + token + "/acceptance", Map.of("name", "Cy"))
        .then()
        .statusCode(410)
        .body("code", equalTo("invitation-used"));
    Api.nobody()
        .post("/invitations/" + "x".repeat(40) + "/acceptance", Map.of("name", "Cy"))
        .then()
        .statusCode(404);
  }

  @Test
  void aBandLinkLetsSeveralIn() {
    Band band = Band.assemble();
    String token =
        band.engineer()
            .post(
                "/projects/" + band.project() + "/invitations",
                Map.of("role", "artist", "people", 2))
            .then()
            .statusCode(201)
            .body("link", containsString("http://localhost"))
            .body("thisComputerOnly", equalTo(true))
            .extract()
            .path("token");
    Api.join(token, "One");
    Api.join(token, "Two");
    Api.nobody()
        .post("/invitations/" + token + "/acceptance", Map.of("name", "Three"))
        .then()
        .statusCode(410);
  }

  @Test
  void anUnknownRoleIsRefused() {
    Band band = Band.assemble();
    band.engineer()
        .post("/projects/" + band.project() + "/invitations", Map.of("role", "drummer"))
        .then()
        .statusCode(422)
        .body("code", equalTo("unknown-role"));
  }

  @Test
  void anAddressWithAnAccountHasToSignInFirst() {
    Band band = Band.assemble();
    String token =
        band.engineer()
            .post(
                "/projects/" + band.project() + "/invitations",
                Map.of("role", "artist", "email", "owner@example.org"))
            .then()
            .extract()
            .path("token");
    Api.nobody()
        .post("/invitations/" + token + "/acceptance", Map.of("name", "Impostor"))
        .then()
        .statusCode(401)
        .body("code", equalTo("sign-in-first"));
  }

  @Test
  void whoIsRemovedIsOutAtOnceAndSigningOutKillsTheSession() {
    Band band = Band.assemble();
    String member = band.artist().get("/songs/" + band.song()).path("you.member");
    band.engineer()
        .delete("/projects/" + band.project() + "/members/" + member)
        .then()
        .statusCode(204);
    band.artist().get("/songs/" + band.song()).then().statusCode(404);
    band.artist().get("/me").then().statusCode(200);
    band.manager().delete("/session").then().statusCode(204);
    band.manager().get("/me").then().statusCode(401);
  }

  @Test
  void nobodyChangesTheirOwnRoleAndTheLastWhoManagesStays() {
    Api engineer = Owner.signedIn();
    String project = engineer.make("/projects", Map.of("title", "Alone", "artist", "One"));
    String me = engineer.get("/projects/" + project).path("you.member");
    engineer
        .patch("/projects/" + project + "/members/" + me, Map.of("role", "manager"))
        .then()
        .statusCode(403);
    engineer
        .delete("/projects/" + project + "/members/" + me)
        .then()
        .statusCode(409)
        .body("code", equalTo("wrong-state"));
  }

  @Test
  void onlyEngineersAndManagersManagePeople() {
    Band band = Band.assemble();
    for (Api one : List.of(band.artist(), band.listener())) {
      one.post("/projects/" + band.project() + "/invitations", Map.of("role", "artist"))
          .then()
          .statusCode(403)
          .body("code", equalTo("not-allowed"));
    }
    band.manager()
        .post("/projects/" + band.project() + "/invitations", Map.of("role", "artist"))
        .then()
        .statusCode(201);
  }

  @Test
  void theLastWordMovesAndTheMembersSayWhoHasIt() {
    Band band = Band.assemble();
    String manager = band.manager().get("/songs/" + band.song()).path("you.member");
    band.engineer()
        .patch("/projects/" + band.project() + "/members/" + manager, Map.of("lastWord", true))
        .then()
        .statusCode(200)
        .body("lastWord", equalTo(true));
    band.artist()
        .get("/projects/" + band.project() + "/members")
        .then()
        .body("findAll { it.lastWord }.name", contains("Milo"))
        .body("find { it.name == 'Asta' }.identity", containsString("link-from:"));
  }

  @Test
  void aSignInLinkWorksOnceOnAnotherDevice() {
    Band band = Band.assemble();
    String member = band.artist().get("/songs/" + band.song()).path("you.member");
    String link =
        band.artist()
            .post("/projects/" + band.project() + "/members/" + member + "/sign-in-links")
            .then()
            .statusCode(201)
            .extract()
            .path("link");
    String token = link.substring(link.lastIndexOf('/') + 1);
    String cookie =
        given()
            .post("/api/v1/sign-in-links/" + token + "/use")
            .then()
            .statusCode(204)
            .extract()
            .cookie("mixaccord_session");
    assertNotEquals(band.artist().cookie(), cookie);
    given()
        .post("/api/v1/sign-in-links/" + token + "/use")
        .then()
        .statusCode(410)
        .body("code", equalTo("link-used"));
  }

  @Test
  void accessTokensSignScriptsInUntilTheyAreDropped() {
    Api owner = Owner.signedIn();
    var made =
        owner.post("/access-tokens", Map.of("name", "script")).then().statusCode(201).extract();
    String token = made.path("token");
    given()
        .header("Authorization", "Bearer " + token)
        .get("/api/v1/me")
        .then()
        .statusCode(200)
        .body("owner", equalTo(true));
    owner.delete("/access-tokens/" + made.path("id")).then().statusCode(204);
    given().header("Authorization", "Bearer " + token).get("/api/v1/me").then().statusCode(401);
  }

  @Test
  void callsFromOtherSitesAreRefused() {
    Band band = Band.assemble();
    band.engineer()
        .as()
        .header("Sec-Fetch-Site", "cross-site")
        .get("/api/v1/me")
        .then()
        .statusCode(403)
        .body("code", equalTo("cross-site"));
    band.engineer()
        .as()
        .header("Origin", "https://elsewhere.example")
        .get("/api/v1/me")
        .then()
        .statusCode(403);
    band.engineer()
        .as()
        .header("Sec-Fetch-Site", "same-origin")
        .get("/api/v1/me")
        .then()
        .statusCode(200);
  }

  @Test
  void textThatCannotBeKeptIsRefusedAndSoIsALargeBody() {
    Api owner = Owner.signedIn();
    owner
        .post("/projects", "{\"title\":\"a\\u0000b\",\"artist\":\"x\"}")
        .then()
        .statusCode(422)
        .body("code", equalTo("bad-text"));
    owner
        .post("/projects", "{\"title\":\"a\\ud800b\",\"artist\":\"x\"}")
        .then()
        .statusCode(422)
        .body("code", equalTo("bad-text"));
    owner
        .post("/projects", "{\"title\":")
        .then()
        .statusCode(400)
        .body("code", equalTo("malformed"));
    owner
        .post("/projects", Map.of("title", "x".repeat(1_000_001), "artist", "y"))
        .then()
        .statusCode(413)
        .body("code", equalTo("too-large"));
  }

  @Test
  void aWriteWithAnIdempotencyKeyHappensOnce() {
    Api owner = Owner.signedIn();
    Map<String, String> body = Map.of("title", "Once", "artist", "Only");
    String first =
        owner
            .json(body)
            .header("Idempotency-Key", "k-once")
            .post("/api/v1/projects")
            .then()
            .statusCode(201)
            .extract()
            .path("id");
    String second =
        owner
            .json(body)
            .header("Idempotency-Key", "k-once")
            .post("/api/v1/projects")
            .then()
            .statusCode(201)
            .extract()
            .path("id");
    assertEquals(first, second);
  }

  @Test
  void anotherMediaTypeIsRefusedInTheSameForm() {
    Owner.signedIn()
        .as()
        .contentType(ContentType.TEXT)
        .body("hello")
        .post("/api/v1/projects")
        .then()
        .statusCode(415)
        .contentType("application/problem+json");
    Owner.signedIn()
        .get("/nothing-here")
        .then()
        .statusCode(404)
        .contentType("application/problem+json");
  }

  @Test
  void theSpecificationIsKept() {
    Band band = Band.assemble();
    band.manager()
        .put(
            "/projects/" + band.project() + "/delivery-spec",
            Map.of("ceilingDbtp", -1.0, "includedRounds", 3))
        .then()
        .statusCode(200);
    band.artist()
        .put("/projects/" + band.project() + "/delivery-spec", Map.of("ceilingDbtp", 0.0))
        .then()
        .statusCode(403);
    band.artist()
        .get("/projects/" + band.project() + "/delivery-spec")
        .then()
        .body("ceilingDbtp", equalTo(-1.0f))
        .body("includedRounds", equalTo(3));
    band.engineer()
        .put("/projects/" + band.project() + "/delivery-spec", Map.of("sampleRate", 12))
        .then()
        .statusCode(422);
  }
}
