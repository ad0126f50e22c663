package org.mixaccord.acceptance;

import static org.hamcrest.Matchers.contains;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import io.quarkus.test.common.QuarkusTestResource;
import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.nio.charset.StandardCharsets;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import javax.sql.DataSource;
import org.junit.jupiter.api.Test;
import org.mixaccord.PostgresForTests;

/**
 * The record can be checked by whoever holds it: nothing here uses the product's hashing or its
 * JSON.
 */
@QuarkusTest
@QuarkusTestResource(PostgresForTests.class)
class HistoryChainTest extends UploadStage {
  private static final List<String> HASHED =
      List.of("act", "at", "by", "detail", "previousHash", "seq", "subject");
  private static final double[] TONE = Sound.sine(48000, 997, -20, 1);

  @Inject DataSource database;

  private String aSongWithAStory() {
    String mix = measured("mix.wav", Sound.wav(48000, TONE, TONE));
    band.engineer().post("/bounces/" + mix + "/sending", Map.of()).then().statusCode(200);
    for (String text :
        List.of(
            "“snare” up, \"please\" \\ / and\tlouder",
            "bass down\nin the second verse",
            "voix plus forte, naïve – 歌 🎤 \u2028 \u0001 \u007f",
            "<b>kick</b> & clap")) {
      band.artist()
          .post("/songs/" + band.song() + "/notes", Map.of("text", text, "bounce", mix))
          .then()
          .statusCode(201);
    }
    return mix;
  }

  private List<Map<String, Object>> rows(Api reader) {
    List<Map<String, Object>> rows = new ArrayList<>();
    String path = "/songs/" + band.song() + "/history?limit=3";
    while (path != null) {
      var answer = reader.get(path);
      answer.then().statusCode(200);
      rows.addAll(answer.jsonPath().<Map<String, Object>>getList(""));
      String link = answer.header("Link");
      path = link == null ? null : link.substring(link.indexOf("/songs"), link.indexOf('>'));
    }
    return rows;
  }

  @Test
  void everyRowCarriesTheHashOfTheOneBefore() {
    String mix = aSongWithAStory();
    List<Map<String, Object>> rows = rows(band.engineer());
    assertTrue(rows.size() > 8, rows.toString());
    String before = sha256(("song " + band.song()).getBytes(StandardCharsets.UTF_8));
    for (int i = 0; i < rows.size(); i++) {
      Map<String, Object> row = rows.get(i);
      assertEquals(i + 1, row.get("seq"));
      assertEquals(before, row.get("previousHash"), "row " + (i + 1));
      assertEquals(hash(row), row.get("hash"), "row " + (i + 1) + ": " + row);
      before = row.get("hash").toString();
    }
    String head =
        band.artist()
            .post("/bounces/" + mix + "/approvals", Map.of("decision", "not-yet"))
            .then()
            .statusCode(201)
            .extract()
            .path("head");
    List<Map<String, Object>> after = rows(band.engineer());
    assertEquals(head, after.get(after.size() - 1).get("hash"));
    assertEquals(rows, after.subList(0, rows.size()));
  }

  @Test
  void aReaderWhoSeesGapsCanStillCheckEachRow() {
    measured("private.wav", Sound.wav(48000, TONE));
    aSongWithAStory();
    List<Map<String, Object>> all = rows(band.engineer());
    List<Map<String, Object>> some = rows(band.artist());
    assertTrue(some.size() < all.size());
    for (Map<String, Object> row : some) {
      assertEquals(hash(row), row.get("hash"), row.toString());
      assertEquals(all.get((Integer) row.get("seq") - 1), row);
    }
  }

  @Test
  void theDatabaseRefusesToRewriteIt() throws SQLException {
    aSongWithAStory();
    List<Map<String, Object>> rows = rows(band.engineer());
    for (String attack :
        List.of(
            "update history set detail = 'nothing' where song = '%s' and seq = 2",
            "delete from history where song = '%s' and seq = 2", "truncate history")) {
      try (var connection = database.getConnection();
          var statement = connection.createStatement()) {
        assertThrows(
            SQLException.class, () -> statement.execute(attack.formatted(band.song())), attack);
      }
    }
    assertEquals(rows, rows(band.engineer()));
    band.engineer()
        .get("/songs/" + band.song() + "/history?limit=1&offset=1")
        .then()
        .body("seq", contains(2));
  }

  /** SHA-256 over the row's fields in the canonical form of RFC 8785. */
  private static String hash(Map<String, Object> row) {
    StringBuilder json = new StringBuilder("{");
    for (String field : HASHED) {
      json.append(json.length() == 1 ? "" : ",").append('"').append(field).append("\":");
      Object value = row.get(field);
      json.append(value instanceof String text ? quoted(text) : value.toString());
    }
    return sha256(json.append('}').toString().getBytes(StandardCharsets.UTF_8));
  }

  private static String quoted(String text) {
    StringBuilder out = new StringBuilder("\"");
    Stream<String> letters = text.codePoints().mapToObj(Character::toString);
    letters.forEach(
        c ->
            out.append(
                switch (c) {
                  case "\"" -> "\\\"";
                  case "\\" -> "\\\\";
                  case "\b" -> "\\b";
                  case "\t" -> "\\t";
                  case "\n" -> "\\n";
                  case "\f" -> "\\f";
                  case "\r" -> "\\r";
                  default ->
                      c.codePointAt(0) < 0x20 ? String.format("\\u%04x", c.codePointAt(0)) : c;
                }));
    return out.append('"').toString();
  }
}
