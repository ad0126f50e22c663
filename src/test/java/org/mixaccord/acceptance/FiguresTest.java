package org.mixaccord.acceptance;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import io.quarkus.test.common.QuarkusTestResource;
import io.quarkus.test.junit.QuarkusTest;
import io.restassured.path.json.JsonPath;
import io.restassured.path.json.config.JsonPathConfig;
import io.restassured.path.json.config.JsonPathConfig.NumberReturnType;
import io.restassured.response.Response;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.mixaccord.PostgresForTests;

/** Figures over time, as tables, in words and against the agreement, from outside. */
@QuarkusTest
@QuarkusTestResource(PostgresForTests.class)
class FiguresTest extends UploadStage {
  private static final int RATE = 48000;
  private static final String TRAP = "=HYPERLINK(\"x\"), \"hop\"";

  /** Four seconds at −30, then four at −20. */
  private String tone() {
    double[] quiet = Sound.sine(RATE, 997, -30, 4);
    double[] x = Arrays.copyOf(quiet, 8 * RATE);
    System.arraycopy(Sound.sine(RATE, 997, -20, 4), 0, x, 4 * RATE, 4 * RATE);
    String bounce = measured("tone.wav", Sound.wav(RATE, x, x));
    band.engineer()
        .put(
            "/songs/" + band.song() + "/sections",
            Map.of(
                "bounce", bounce, "sections", List.of(section("Verse", 0, 4), section(TRAP, 4, 8))))
        .then()
        .statusCode(200);
    return bounce;
  }

  private static Map<String, Object> section(String name, double from, double to) {
    return Map.of("name", name, "from", from, "to", to);
  }

  @Test
  void seriesSaysLoudnessPeaksAndCorrelationOverTime() {
    String bounce = tone();
    JsonPath series = ok("/bounces/" + bounce + "/series?points=80").jsonPath();
    assertEquals("centre", series.getString("windowsAt"));
    assertEquals(0.1, series.getDouble("stepSeconds"));
    assertEquals(0.05, series.getDouble("atSeconds[0]"));
    for (String name :
        List.of(
            "atSeconds",
            "momentaryLufs",
            "shortTermLufs",
            "truePeakDbtp",
            "samplePeakDbfs",
            "correlation")) {
      assertEquals(80, series.getList(name).size(), name);
    }
    assertNull(series.get("shortTermLufs[0]"));
    assertEquals(-30, series.getDouble("shortTermLufs[20]"), 0.02);
    assertEquals(-20, series.getDouble("shortTermLufs[60]"), 0.02);
    assertEquals(-30, series.getDouble("truePeakDbtp[10]"), 0.03);
    assertEquals(-20, series.getDouble("samplePeakDbfs[70]"), 0.03);
    assertEquals(1, series.getDouble("correlation[50]"));
    JsonPath whole = figures(bounce);
    assertEquals(
        whole.getDouble("whole.maxMomentaryLufs"),
        series.getList("momentaryLufs", Double.class).stream()
            .filter(v -> v != null)
            .mapToDouble(v -> v)
            .max()
            .getAsDouble(),
        0.005);

    JsonPath part = ok("/bounces/" + bounce + "/series?from=5&to=6&points=10").jsonPath();
    assertEquals(5.0, part.getDouble("from"));
    assertEquals(6.0, part.getDouble("to"));
    assertEquals(10, part.getList("truePeakDbtp").size());
    for (String odd : List.of("points=0", "points=5001", "from=3&to=2", "from=-1", "from=NaN")) {
      refused(get("/bounces/" + bounce + "/series?" + odd), 422, "invalid");
    }
  }

  @Test
  void tablesHoldTheSameNumbers() {
    String bounce = tone();
    Response answer = ok("/bounces/" + bounce + "/measurements.csv");
    assertEquals("text/csv;charset=UTF-8;header=present", answer.contentType());
    assertEquals(
        "attachment; filename=\"Pass 1 figures.csv\"; filename*=UTF-8''Pass%201%20figures.csv",
        answer.header("Content-Disposition"));
    List<List<String>> rows = strict(answer.asString());
    assertEquals(4, rows.size());
    JsonPath json = exact(ok("/bounces/" + bounce + "/measurements"));
    Map<String, String> columns =
        Map.of(
            "integrated loudness, gated (LUFS)", "integratedLufs",
            "loudness, ungated (LUFS)", "ungatedLufs",
            "loudness range (LU)", "loudnessRangeLu",
            "loudest 3 s (LUFS)", "maxShortTermLufs",
            "true peak (dBTP)", "truePeakDbtp",
            "true peak at (s)", "truePeakAt",
            "least true peak to loudest 3 s (dB)", "minPeakToShortTermDb",
            "correlation", "correlation",
            "lost in mono (dB)", "monoLossDb",
            "third octave 1000.0 Hz (dB)", "bands[17].levelDb");
    columns.forEach(
        (column, field) -> {
          int at = rows.get(0).indexOf(column);
          assertTrue(at >= 0, column);
          same(json.get("whole." + field), rows.get(1).get(at), column);
          same(json.get("sections[0]." + field), rows.get(2).get(at), column);
          same(json.get("sections[1]." + field), rows.get(3).get(at), column);
        });
    assertEquals("", rows.get(1).get(0));
    assertEquals("Verse", rows.get(2).get(0));
    // Opened in a spreadsheet, the name stays a name.
    assertEquals("'" + TRAP, rows.get(3).get(0));
    assertEquals(List.of("4.0", "8.0"), rows.get(3).subList(1, 3));

    JsonPath series = exact(ok("/bounces/" + bounce + "/series?points=40"));
    List<List<String>> lines =
        strict(ok("/bounces/" + bounce + "/series.csv?points=40").asString());
    assertEquals(41, lines.size());
    List<String> names =
        List.of(
            "atSeconds",
            "momentaryLufs",
            "shortTermLufs",
            "truePeakDbtp",
            "samplePeakDbfs",
            "correlation");
    for (int i = 0; i < 40; i++) {
      for (int c = 0; c < names.size(); c++) {
        same(series.get(names.get(c) + "[" + i + "]"), lines.get(i + 1).get(c), names.get(c));
      }
    }
  }

  /** Read as doubles: the usual floats lose the digits that are compared. */
  private static JsonPath exact(Response answer) {
    return answer.jsonPath(new JsonPathConfig(NumberReturnType.DOUBLE));
  }

  private static void same(Object json, String cell, String what) {
    if (json == null) {
      assertEquals("", cell, what);
    } else {
      assertEquals(((Number) json).doubleValue(), Double.parseDouble(cell), what);
      assertTrue(cell.matches("-?\\d+(\\.\\d{1,4})?"), cell);
    }
  }

  /** RFC 4180 to the letter: every line ends in CRLF, quotes only where the whole cell has them. */
  private static List<List<String>> strict(String text) {
    List<List<String>> rows = new ArrayList<>();
    int i = 0;
    while (i < text.length()) {
      List<String> row = new ArrayList<>();
      while (true) {
        StringBuilder cell = new StringBuilder();
        if (text.charAt(i) == '"') {
          i++;
          while (text.charAt(i) != '"' || (i + 1 < text.length() && text.charAt(i + 1) == '"')) {
            cell.append(text.charAt(i));
            i += text.charAt(i) == '"' ? 2 : 1;
          }
          i++;
        } else {
          while (",\r".indexOf(text.charAt(i)) < 0) {
            assertTrue(text.charAt(i) != '"' && text.charAt(i) != '\n', "bare at " + i);
            cell.append(text.charAt(i++));
          }
        }
        row.add(cell.toString());
        if (text.charAt(i++) == '\r') {
          assertEquals('\n', text.charAt(i++));
          break;
        }
      }
      assertTrue(rows.isEmpty() || rows.get(0).size() == row.size(), "ragged: " + row);
      rows.add(row);
    }
    return rows;
  }

  @Test
  void bandsComeAsTheyAreAndFreedOfLevel() {
    String bounce = tone();
    JsonPath bands = ok("/bounces/" + bounce + "/bands").jsonPath();
    assertEquals(31, bands.getList("whole").size());
    assertEquals("Verse", bands.getString("sections[0].name"));
    // The two sections are the same tone at two levels.
    assertEquals(-33.01, bands.getDouble("sections[0].bands[17].levelDb"), 0.1);
    assertEquals(-23.01, bands.getDouble("sections[1].bands[17].levelDb"), 0.1);
    assertEquals(-3.01, bands.getDouble("sections[0].bands[17].shapeDb"), 0.1);
    assertEquals(-3.01, bands.getDouble("sections[1].bands[17].shapeDb"), 0.1);
  }

  @Test
  void wordsAreForEverybodyAndHaveNoFigure() {
    String bounce = tone();
    agreeOn(Map.of("ceilingDbtp", -1));
    band.artist().get("/bounces/" + bounce + "/words").then().statusCode(404);
    band.engineer().post("/bounces/" + bounce + "/sending", Map.of()).then().statusCode(200);
    JsonPath said = band.artist().get("/bounces/" + bounce + "/words").jsonPath();
    assertEquals(
        TRAP + " is the loudest spot; it stays under the agreed ceiling.", said.getString("words"));
    assertEquals(TRAP, said.getString("section"));
    assertEquals(4.0, said.getDouble("from"));
    assertEquals(8.0, said.getDouble("to"));
  }

  @Test
  void everyAgreedFigureIsHeldAgainstTheBounce() {
    String bounce = tone();
    assertEquals(List.of(), ok("/bounces/" + bounce + "/delivery-check").path(""));
    agreeOn(Map.of("ceilingDbtp", -1, "minLufs", -19, "sampleRate", 44100, "bitDepth", 24));
    JsonPath check = ok("/bounces/" + bounce + "/delivery-check").jsonPath();
    assertEquals(
        List.of("ceilingDbtp", "minLufs", "sampleRate", "bitDepth"), check.getList("field"));
    assertEquals(List.of(true, false, false, true), check.getList("met"));
    assertEquals(-1.0, check.getDouble("agreed[0]"));
    assertEquals(figures(bounce).getDouble("whole.truePeakDbtp"), check.getDouble("found[0]"));
    assertEquals(figures(bounce).getDouble("whole.integratedLufs"), check.getDouble("found[1]"));
    assertEquals(48000.0, check.getDouble("found[2]"));
    assertEquals("The mix is quieter than agreed.", check.getString("words[1]"));
    List<String> standing =
        ok("/bounces/" + bounce + "/findings").jsonPath().getList("standing", String.class);
    assertTrue(standing.contains("agreement"), standing.toString());

    band.engineer().post("/bounces/" + bounce + "/sending", Map.of()).then().statusCode(200);
    band.engineer()
        .patch("/projects/" + band.project(), Map.of("metersOpen", false))
        .then()
        .statusCode(200);
    JsonPath words = band.artist().get("/bounces/" + bounce + "/delivery-check").jsonPath();
    assertEquals(List.of(true, false, false, true), words.getList("met"));
    assertNull(words.get("found[0]"), "figures stay closed");
    band.artist().get("/bounces/" + bounce + "/series").then().statusCode(403);
  }

  @Test
  void presetsNameSourceDateAndStanding() {
    JsonPath presets = ok("/delivery-presets").jsonPath();
    JsonPath programme = presets.setRootPath("find { it.id == 'ebu-programme' }");
    assertEquals("EBU R 128, version 5", programme.getString("figures[0].source"));
    assertEquals("2023-11", programme.getString("figures[0].date"));
    assertEquals("recommendation", programme.getString("figures[0].standing"));
    assertEquals(-23.2, programme.getDouble("figures[0].value"), 1e-6);
    JsonPath habit = presets.setRootPath("find { it.id == 'premaster' }");
    assertEquals("habit", habit.getString("figures[0].standing"));
    assertNull(habit.get("figures[0].date"));
  }

  private void agreeOn(Map<String, Object> spec) {
    band.engineer()
        .put("/projects/" + band.project() + "/delivery-spec", spec)
        .then()
        .statusCode(200);
  }

  private Response get(String path) {
    return band.engineer().get(path);
  }

  private Response ok(String path) {
    Response answer = get(path);
    answer.then().statusCode(200);
    return answer;
  }
}
