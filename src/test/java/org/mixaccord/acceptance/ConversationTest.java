package org.mixaccord.acceptance;

import static org.hamcrest.Matchers.contains;
import static org.hamcrest.Matchers.equalTo;
import static org.hamcrest.Matchers.hasSize;
import static org.hamcrest.Matchers.nullValue;

import io.quarkus.test.common.QuarkusTestResource;
import io.quarkus.test.junit.QuarkusTest;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.mixaccord.PostgresForTests;

/** A pasted thread becomes notes of the people who wrote it, each once. */
@QuarkusTest
@QuarkusTestResource(PostgresForTests.class)
class ConversationTest extends ReviewStage {
  private static final String THREAD =
      """
      [13/05/2031, 14:05] art: bass up 1 dB in verse 1
      [13/05/2031, 14:06] Drum mer: ok thanks
      [13/05/2031, 14:07] drummer: snare down a touch
      > bass up
      [13/05/2031, 14:09] drummer: <photo omitted>
      """;

  private String path(String rest) {
    return "/songs/" + cast.song() + rest;
  }

  @Test
  void messagesBecomeNotesOfWhoSaidThem() {
    post("eng", path("/conversation-readings"), Map.of("text", THREAD))
        .statusCode(200)
        .body("messages.sender", contains("art", "Drum mer", "drummer"))
        .body("messages.at[0]", equalTo("2031-05-13T14:05:00"))
        .body("messages[0].person", equalTo(cast.person("art")))
        .body("messages[1].person", nullValue())
        .body("messages[2].person", equalTo(cast.person("drummer")))
        .body("messages.known", contains(false, false, false))
        .body("leftOut.why", contains("quoted", "notice"))
        .body("datesUnsure", equalTo(false));
    get("art", path("/notes")).body("", hasSize(0));

    Map<String, Object> kept =
        Map.of(
            "messages",
            List.of(
                said("art", "[13/05/2031, 14:05]", "bass up 1 dB in verse 1"),
                said("drummer", "[13/05/2031, 14:07]", "snare down a touch")));
    post("eng", path("/conversations"), kept)
        .statusCode(201)
        .body("notes", hasSize(2))
        .body("already", equalTo(0));
    get("art", path("/notes"))
        .body("author", contains(cast.person("art"), cast.person("drummer")))
        .body("saidWhen", contains("[13/05/2031, 14:05]", "[13/05/2031, 14:07]"));
    get("art", path("/changes"))
        .body("element", contains("bass", "snare"))
        .body("author", contains(cast.person("art"), cast.person("drummer")));
    // Each is theirs: the drummer may take it back, the engineer may not.
    String snare = get("drummer", path("/changes")).extract().path("id[1]");
    patch("drummer", snare, Map.of("state", "withdrawn")).statusCode(200);

    post("eng", path("/conversations"), kept)
        .statusCode(201)
        .body("notes", hasSize(0))
        .body("already", equalTo(2));
    post("eng", path("/conversation-readings"), Map.of("text", THREAD))
        .body("messages.known", contains(true, false, true));
  }

  private Map<String, Object> said(String who, String when, String text) {
    Map<String, Object> said = new HashMap<>(Map.of("person", cast.person(who), "text", text));
    said.put("when", when);
    return said;
  }

  @Test
  void nothingIsKeptUnlessAllOfItCanBe() {
    post("eng", path("/conversation-readings"), Map.of("text", " ")).statusCode(422);
    post("eng", path("/conversation-readings"), Map.of("text", "x".repeat(300_001)))
        .statusCode(422);
    post("eng", path("/conversations"), Map.of("messages", List.of())).statusCode(422);
    post(
            "eng",
            path("/conversations"),
            Map.of(
                "messages",
                List.of(said("art", null, "bass up"), Map.of("person", "nobody", "text", "x"))))
        .statusCode(422)
        .body("field", equalTo("person"));
    post(
            "eng",
            path("/conversations"),
            Map.of("messages", List.of(said("art", null, "bass up"), said("art", null, " "))))
        .statusCode(422);
    get("art", path("/notes")).body("", hasSize(0));
  }
}
