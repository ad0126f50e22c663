package org.mixaccord.acceptance;

import static io.restassured.RestAssured.given;
import static org.mixaccord.record.ProjectForTests.hash;

import io.restassured.http.ContentType;
import io.restassured.response.ValidatableResponse;
import io.restassured.specification.RequestSpecification;
import jakarta.inject.Inject;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.mixaccord.accounts.Role;
import org.mixaccord.record.ProjectForTests;

/** A song with its first mix sent, and people who call the server in their own names. */
abstract class ReviewStage {
  @Inject ProjectForTests projects;

  ProjectForTests.Cast cast;
  String mix1;

  @BeforeEach
  void aSentMix() {
    cast =
        projects.begin(
            Map.of(
                "art", Role.ARTIST,
                "drummer", Role.ARTIST,
                "boss", Role.MANAGER,
                "ear", Role.LISTENER));
    projects.approver(cast, "boss");
    projects.lastWord(cast, "art");
    mix1 = projects.bounce(cast, hash(1));
    projects.sections(cast, mix1);
    projects.send(cast, mix1);
  }

  RequestSpecification as(String who) {
    return given()
        .header("Authorization", "Bearer " + cast.token(who))
        .contentType(ContentType.JSON);
  }

  ValidatableResponse post(String who, String path, Object body) {
    return as(who).body(body).post("/api/v1" + path).then();
  }

  ValidatableResponse get(String who, String path) {
    return as(who).get("/api/v1" + path).then();
  }

  ValidatableResponse patch(String who, String change, Object body) {
    String etag = get(who, "/changes/" + change).statusCode(200).extract().header("ETag");
    return as(who).header("If-Match", etag).body(body).patch("/api/v1/changes/" + change).then();
  }

  /** Writes a note as corrected by its writer, so that the test does not hang on the reader. */
  String asks(String who, String element, String direction, String... sections) {
    return asks(
        who,
        Map.of(
            "element",
            element,
            "aspect",
            "level",
            "direction",
            direction,
            "where",
            List.of(sections)));
  }

  /** The same with all the fields of the change. */
  String asks(String who, Map<String, Object> change) {
    return post(
            who,
            "/songs/" + cast.song() + "/notes",
            Map.of(
                "text",
                change.get("element") + " " + change.get("direction"),
                "bounce",
                mix1,
                "reading",
                Map.of("changes", List.of(change))))
        .statusCode(201)
        .extract()
        .path("changes[0]");
  }
}
