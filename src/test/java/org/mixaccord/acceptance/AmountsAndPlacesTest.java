package org.mixaccord.acceptance;

import static org.hamcrest.Matchers.containsString;
import static org.hamcrest.Matchers.empty;
import static org.hamcrest.Matchers.equalTo;
import static org.hamcrest.Matchers.nullValue;

import io.quarkus.test.common.QuarkusTestResource;
import io.quarkus.test.junit.QuarkusTest;
import io.restassured.response.ValidatableResponse;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.mixaccord.PostgresForTests;

/** How much and where can be asked for at most; the words of a note stay whatever they ask. */
@QuarkusTest
@QuarkusTestResource(PostgresForTests.class)
class AmountsAndPlacesTest extends ReviewStage {
  private void refused(String change, String body, String field, String words) {
    String etag = get("art", "/changes/" + change).extract().header("ETag");
    as("art")
        .header("If-Match", etag)
        .body(body.replace('\'', '"'))
        .patch("/api/v1/changes/" + change)
        .then()
        .statusCode(422)
        .contentType("application/problem+json")
        .body("code", equalTo("invalid"))
        .body("field", equalTo(field))
        .body("detail", containsString(words));
  }

  private ValidatableResponse written(String text) {
    String id =
        post("art", "/songs/" + cast.song() + "/notes", Map.of("text", text, "bounce", mix1))
            .statusCode(201)
            .extract()
            .path("changes[0]");
    return get("art", "/changes/" + id);
  }

  @Test
  void amountsHaveBounds() {
    String change = asks("art", "bass", "up");
    for (String value : List.of("1e300", "300", "60.01")) {
      refused(change, "{'amount': {'value': " + value + ", 'unit': 'dB'}}", "amount", "60 dB");
    }
    refused(change, "{'amount': {'value': 0, 'unit': 'dB'}}", "amount", "more than nothing");
    refused(change, "{'amount': {'value': 0.001, 'unit': 'dB'}}", "amount", "0.01 dB");
    refused(change, "{'amount': {'value': 401, 'unit': '%'}}", "amount", "400 %");
    refused(change, "{'amount': {'value': 3, 'to': 2, 'unit': 'dB'}}", "amount", "smaller");
    refused(change, "{'amount': {'value': 3, 'to': 'x', 'unit': 'dB'}}", "amount", "An amount is");
    refused(change, "{'amount': {'word': '-3 db'}}", "amount", "without plus or minus");
    patch("art", change, Map.of("amount", Map.of("value", 0.123456789, "unit", "dB")))
        .statusCode(200)
        .body("amount.value", equalTo(0.12f));
    patch("art", change, Map.of("amount", Map.of("value", 60, "unit", "dB"))).statusCode(200);
  }

  @Test
  void fieldsCannotBeEmptied() {
    String change = asks("art", "bass", "up");
    for (String field : List.of("element", "aspect", "direction")) {
      refused(change, "{'" + field + "': ''}", field, "empty");
      refused(change, "{'" + field + "': '  '}", field, "empty");
    }
  }

  @Test
  void placesAreThoseOfTheSong() {
    String change = asks("art", "bass", "up");
    refused(change, "{'where': {'from': 1, 'to': 1000000}}", "where", "past the end of the mix");
    refused(change, "{'where': {'from': 9, 'to': 5}}", "where", "does not end before it begins");
    refused(change, "{'where': {'from': -1, 'to': 5}}", "where", "0:00 or later");
    refused(change, "{'where': {'from': 'NaN', 'to': 5}}", "where", "{from, to}");
    refused(change, "{'where': ['Nowhere']}", "where", "Verse 1, Chorus 1 and Verse 2");
    patch("art", change, Map.of("where", List.of("chorus 1")))
        .statusCode(200)
        .body("where", equalTo(List.of("Chorus 1")));
  }

  @Test
  void linesMadeOfOneAndReadingsSentAreHeldToTheSame() {
    String change = asks("art", "bass", "up");
    Map<String, Object> far = Map.of("where", Map.of("from", 1, "to", 1_000_000));
    post("eng", "/changes/" + change + "/splitting", Map.of("parts", List.of(Map.of(), far)))
        .statusCode(422)
        .body("field", equalTo("where"));
    for (Map<String, Object> wrong :
        List.of(far, Map.<String, Object>of("amount", Map.of("value", 300, "unit", "dB")))) {
      Map<String, Object> fields = new java.util.HashMap<>(wrong);
      fields.putAll(Map.of("element", "bass", "aspect", "level", "direction", "up"));
      post(
              "art",
              "/songs/" + cast.song() + "/notes",
              Map.of(
                  "text", "bass up", "bounce", mix1, "reading", Map.of("changes", List.of(fields))))
          .statusCode(422);
    }
    get("art", "/songs/" + cast.song() + "/changes")
        .body("findAll { it.id != '" + change + "' }", empty());
  }

  /** A number was once kept as its digits. */
  @Test
  void aTextIsAText() {
    for (Object text : List.of(5, 0.5, true)) {
      post("art", "/songs/" + cast.song() + "/notes", Map.of("text", text, "bounce", mix1))
          .statusCode(400)
          .contentType("application/problem+json")
          .body("code", equalTo("malformed"));
    }
    get("art", "/songs/" + cast.song() + "/notes").body("", empty());
  }

  /** What the reader found in the writer's own words goes through, and is sent back unharmed. */
  @Test
  void wordsPastAllBoundsStayAsTheyWereWritten() {
    written("bass up 300 dB")
        .body("amount.word", equalTo("300 db"))
        .body("amount.value", nullValue());
    String late = written("keys louder at 50:00").extract().path("id");
    patch("art", late, Map.of("element", "pad", "where", Map.of("from", 3000, "to", 3000)))
        .statusCode(200)
        .body("element", equalTo("pad"))
        .body("where.from", equalTo(3000f));
    Map<String, Object> reading =
        post("art", "/note-readings", Map.of("text", "keys louder at 50:00", "bounce", mix1))
            .statusCode(200)
            .extract()
            .path("$");
    post(
            "art",
            "/songs/" + cast.song() + "/notes",
            Map.of("text", "keys louder at 50:00", "bounce", mix1, "reading", reading))
        .statusCode(201);
  }
}
