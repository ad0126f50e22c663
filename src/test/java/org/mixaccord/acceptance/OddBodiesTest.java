package org.mixaccord.acceptance;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import io.quarkus.test.common.QuarkusTestResource;
import io.quarkus.test.junit.QuarkusTest;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.mixaccord.PostgresForTests;

/** Whatever a body says or leaves out, it is never the server that fails. */
@QuarkusTest
@QuarkusTestResource(PostgresForTests.class)
class OddBodiesTest extends MeasuredStage {
  /** Keeps numbers that no double holds. */
  private static final ObjectMapper JSON =
      new ObjectMapper().enable(DeserializationFeature.USE_BIG_DECIMAL_FOR_FLOATS);

  private static final List<String> INSTEAD =
      List.of(
          "null",
          "\"\"",
          "\"x\"",
          "true",
          "-1",
          "0.5",
          "99999999999999999999",
          "1e308",
          "1e400",
          "\"NaN\"",
          "\"-Infinity\"",
          "{}",
          "{\"x\": null}",
          "[]",
          "[null]",
          "[[1]]");

  /** Bodies with more in them than the table of rights needs. */
  private static final List<RightsTable.Row> FULL =
      List.of(
          full(
              "POST",
              "/note-readings",
              "{'text': 'snare up in bar 3', 'sections': [{'name': 'A', 'from': 0, 'to': 1}],"
                  + " 'tempoBpm': 120, 'beatsPerBar': 4, 'firstBarSeconds': 0, 'elements': ['snare']}"),
          full(
              "POST",
              "/songs/{s}/notes",
              "{'text': 'snare up', 'bounce': '{b}', 'from': 0.5, 'to': 1, 'behalfOf': '{m}',"
                  + " 'engineerOnly': false, 'reading': {'changes': [{'element': 'snare',"
                  + " 'aspect': 'level', 'direction': 'up', 'amount': {'value': 1, 'unit': 'dB'},"
                  + " 'where': ['All'], 'text': 'snare up'}], 'keeps': [{'element': 'bass',"
                  + " 'where': {'from': 0, 'to': 1}, 'text': 'bass'}]}}"),
          full(
              "POST",
              "/bounces/{b}/approvals",
              "{'decision': 'stop', 'pcmSha256': 'x', 'comment': 'c', 'despite': ['no-open-change'],"
                  + " 'reason': 'r', 'onceDone': ['{c}']}"),
          full(
              "POST",
              "/projects/{p}/songs",
              "{'title': 'T', 'tempoBpm': 120, 'beatsPerBar': 4, 'firstBarSeconds': 0.1,"
                  + " 'due': '2031-04-30'}"),
          full(
              "PUT",
              "/projects/{p}/delivery-spec",
              "{'ceilingDbtp': -1, 'ceilingDbfs': -0.1, 'minLufs': -20, 'maxLufs': -8,"
                  + " 'sampleRate': 48000, 'bitDepth': 24, 'includedRounds': 3}"),
          full(
              "PATCH",
              "/projects/{p}",
              "{'title': 'T', 'artist': 'A', 'gatherNotes': false, 'downloads': false,"
                  + " 'metersOpen': true, 'approvalStays': 'identical'}"),
          full(
              "PATCH",
              "/projects/{p}/members/{m}",
              "{'role': 'artist', 'lastWord': false, 'approver': false, 'mayWrite': true}"),
          full(
              "POST",
              "/projects/{p}/invitations",
              "{'email': 'a@example.org', 'role': 'artist', 'people': 1}"),
          full(
              "PATCH",
              "/changes/{c}",
              "{'state': 'done', 'doneIn': '{b}', 'answer': 'differently', 'reason': 'r'}"),
          full(
              "PATCH",
              "/changes/{c}",
              "{'element': 'e', 'aspect': 'level', 'direction': 'up',"
                  + " 'amount': {'value': 1, 'unit': 'dB', 'to': 2}, 'where': {'from': 0, 'to': 1},"
                  + " 'round': 1}"),
          full(
              "POST",
              "/songs/{s}/changes/marking",
              "{'changes': ['{c}'], 'state': 'done', 'doneIn': '{b}', 'answer': 'as-asked',"
                  + " 'reason': 'r'}"),
          full("POST", "/bounces/{b:private}/sending", "{'label': '3a', 'message': 'louder'}"),
          full(
              "PATCH",
              "/me",
              "{'name': 'N', 'email': 'n-odd@example.org', 'password': 'x', 'oldPassword': 'y'}"),
          full("POST", "/questions/{q}/answer", "{'choice': 'c', 'text': 't', 'skip': false}"));

  private static RightsTable.Row full(String method, String path, String body) {
    return new RightsTable.Row(0, method, path, Map.of("eng", 200), body.replace('\'', '"'));
  }

  private static List<RightsTable.Row> rows() {
    List<RightsTable.Row> rows = new ArrayList<>(FULL);
    for (RightsTable.Row row : RightsTable.rows()) {
      if (row.body().startsWith("{")) {
        // Failed sign-ins are counted by address, so these have one of their own.
        String body = row.body().replace("nobody-here", "odd");
        rows.add(new RightsTable.Row(row.line(), row.method(), row.path(), row.expected(), body));
      }
    }
    return rows;
  }

  /** Somebody who may do it, so that it is the body that is looked at. */
  private static String able(RightsTable.Row row) {
    return RightsTable.CALLERS.stream()
        .filter(who -> row.expected().getOrDefault(who, 999) < 300)
        .findFirst()
        .orElse("eng");
  }

  /** Taken, or refused in words. */
  private static boolean fair(RightsStage.Answer answer) {
    return answer.status() < 400
        || (answer.status() < 500
            && answer.type().startsWith("application/problem+json")
            && answer.body().contains("\"detail\":"));
  }

  @Test
  void aBodyThatSaysNothingIsRefused() {
    RightsStage stage = stage();
    List<String> wrong = new ArrayList<>();
    for (RightsTable.Row row : rows()) {
      for (String body : List.of(" ", "null", "[]", "{}", "\"x\"", "{\"x\": 1}", "[null]", "{")) {
        RightsStage.Answer answer = stage.call(able(row), row, stage.filled(row.path()), body);
        if (!fair(answer)) {
          wrong.add(row + " with " + body + ": " + answer);
        }
      }
    }
    assertEquals(List.of(), wrong, String.join("\n", wrong));
  }

  @Test
  void aFieldThatHoldsSomethingElseIsRefused() throws JsonProcessingException {
    List<String> wrong = new ArrayList<>();
    for (RightsTable.Row row : rows()) {
      RightsStage stage = stage();
      JsonNode whole = JSON.readTree(stage.filled(row.body()));
      for (String body : changed(whole)) {
        RightsStage.Answer answer = stage.call(able(row), row, stage.filled(row.path()), body);
        if (!fair(answer)) {
          wrong.add(row + " with " + body + ": " + answer);
        }
      }
    }
    assertEquals(List.of(), wrong, String.join("\n", wrong));
  }

  @Test
  void whatIsNoNumberIsNotKeptAsOne() {
    RightsStage stage = stage();
    for (String number : List.of("1e400", "-1e400", "\"NaN\"", "\"Infinity\"")) {
      for (RightsTable.Row row :
          List.of(
              full("PUT", "/projects/{p}/delivery-spec", "{'ceilingDbtp': " + number + "}"),
              full("PATCH", "/songs/{s}", "{'tempoBpm': " + number + "}"),
              full("PATCH", "/songs/{s}", "{'firstBarSeconds': " + number + "}"),
              full(
                  "PUT",
                  "/songs/{s}/sections",
                  "{'bounce': '{b}', 'sections': [{'name': 'A', 'from': 0, 'to': "
                      + number
                      + "}]}"),
              full(
                  "POST",
                  "/songs/{s}/notes",
                  "{'text': 't', 'bounce': '{b}', 'from': " + number + "}"))) {
        RightsStage.Answer answer =
            stage.call("eng", row, stage.filled(row.path()), stage.filled(row.body()));
        assertEquals(400, answer.status(), row.toString());
        assertTrue(answer.body().contains("\"malformed\""), answer.body());
      }
    }
  }

  /** The body over and over, each time with another of its values exchanged. */
  private static List<String> changed(JsonNode whole) throws JsonProcessingException {
    List<String> bodies = new ArrayList<>();
    change(whole, whole, bodies);
    return bodies;
  }

  private static void change(JsonNode whole, JsonNode at, List<String> bodies)
      throws JsonProcessingException {
    if (at instanceof ObjectNode object) {
      List<String> names = new ArrayList<>();
      object.fieldNames().forEachRemaining(names::add);
      for (String name : names) {
        JsonNode was = object.get(name);
        for (String value : INSTEAD) {
          object.set(name, JSON.readTree(value));
          bodies.add(whole.toString());
        }
        object.set(name, was);
        change(whole, was, bodies);
      }
    } else if (at instanceof ArrayNode array) {
      for (int i = 0; i < array.size(); i++) {
        JsonNode was = array.get(i);
        for (String value : INSTEAD) {
          array.set(i, JSON.readTree(value));
          bodies.add(whole.toString());
        }
        array.set(i, was);
        change(whole, was, bodies);
      }
    }
  }
}
