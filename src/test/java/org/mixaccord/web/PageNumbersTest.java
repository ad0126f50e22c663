package org.mixaccord.web;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.microsoft.playwright.Browser;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.Playwright;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * The page's geometry and its player, judged by numbers in a real browser: the sources are bundled
 * as the build bundles them, and crossings between two mixes are rendered through the player's own
 * sound path.
 */
class PageNumbersTest {
  /** One step of a 24-bit file; what floating point alone may leave. */
  private static final double ONE_STEP = 1.0 / (1 << 21);

  @TempDir static Path folder;
  private static JsonNode numbers;

  @BeforeAll
  static void measureInTheBrowser() throws IOException, InterruptedException {
    if (!Chromium.toBeUsed()) {
      return;
    }
    String script = PageScript.bundle(folder);
    try (Playwright playwright = Playwright.create();
        Browser chromium = Chromium.open(playwright)) {
      Page page = chromium.newPage();
      page.addScriptTag(new Page.AddScriptTagOptions().setContent(script));
      numbers =
          new ObjectMapper()
              .readTree((String) page.evaluate("async () => JSON.stringify(await numbers())"));
    }
  }

  @BeforeEach
  void needsABrowser() {
    Chromium.orSkip();
  }

  private static JsonNode geometry(String name) {
    return numbers.at("/geometry/" + name);
  }

  private static JsonNode player(String name) {
    return numbers.at("/player/" + name);
  }

  @Test
  void crossingOverLandsOnTheSameSample() {
    for (String pair : List.of("same", "offset", "cut")) {
      assertEquals(20, player(pair + "/crossings").asInt(), pair);
      assertFalse(player(pair + "/interpolated").asBoolean(), pair);
      assertTrue(player(pair + "/stray").asDouble() < ONE_STEP, () -> pair + player(pair));
    }
  }

  @Test
  void anotherRateOrDriftIsLaidOntoTheLeadingClock() {
    for (String pair : List.of("otherRate", "drift")) {
      assertEquals(20, player(pair + "/crossings").asInt(), pair);
      assertTrue(player(pair + "/interpolated").asBoolean(), pair);
      assertTrue(player(pair + "/stray").asDouble() < 1e-5, () -> pair + player(pair));
    }
  }

  @Test
  void crossingBeginsAtItsFrameAndTakesTenMilliseconds() {
    JsonNode edges = player("edges");
    assertEquals(edges.get("asked").asInt(), edges.get("began").asInt());
    assertEquals(1, edges.get("firstChanged").asInt() - edges.get("began").asInt(), 1);
    assertEquals(480, edges.get("lastChanging").asInt() - edges.get("began").asInt(), 2);
  }

  @Test
  void loopIsSampleExactAndFetchesOnlyItsSegments() {
    assertTrue(player("loop/stray").asDouble() < ONE_STEP, () -> player("loop").toString());
    assertEquals(1, player("loop/fetched").asInt());
    assertEquals(4, player("loop/segments").asInt());
  }

  @Test
  void differenceOfOneMixAtTwoLevelsIsSilence() {
    assertTrue(
        player("difference/rest").asDouble() < ONE_STEP, () -> player("difference").toString());
  }

  @Test
  void sectionsStandInTheOrderOfTime() {
    assertEquals("Intro,Verse 1,Chorus 1", geometry("order").asText());
    assertEquals("Chorus 1", geometry("at").asText());
    assertEquals("", geometry("gap").asText());
    assertEquals(8, geometry("bars").asInt());
    assertTrue(geometry("noBars").isNull());
    assertEquals("Chorus 1, bar 2 of 8", geometry("place").asText());
  }

  @Test
  void keysStepByBarAndBySection() {
    assertEquals(3.0, geometry("stepOn").asDouble(), 1e-9);
    assertEquals(3.0, geometry("stepBack").asDouble(), 1e-9);
    assertEquals(3.0, geometry("stepPlain").asDouble(), 1e-9);
    assertEquals(59.95, geometry("stepEnd").asDouble(), 1e-9);
    assertEquals(22.5, geometry("stepAnchored").asDouble(), 1e-9);
    assertEquals("Verse 1", geometry("sectionOn").asText());
    assertEquals("Verse 1", geometry("sectionOwnStart").asText());
    assertEquals("Intro", geometry("sectionBefore").asText());
  }

  @Test
  void noteBelongsTwoSecondsBeforeTypingBegan() {
    assertEquals(81.4, geometry("notePlace").asDouble(), 1e-9);
    assertEquals(0, geometry("noteStart").asDouble());
    assertEquals(20, geometry("noteLoop").asDouble());
  }

  @Test
  void aCheckSaysWhatItsLimitStandsOn() {
    // Every limit was once called agreed, and clipped peaks were counted as "2782.0 runs".
    assertEquals(
        "[\"2.1 dBTP, limit 0.0 dBTP, ITU-R BS.1770\",\"a habit, no standard\","
            + "\"\u22120.5 dBTP, limit \u22121.0 dBTP, agreed on\","
            + "\"0.5 dBTP, limit 0.0 dBTP, ITU-R BS.1770\",\"\"]",
        numbers.at("/checks/said").toString());
    assertEquals("[[2.071,0.5],[2782],[-0.52],[0.03]]", numbers.at("/checks/kinds").toString());
  }

  @Test
  void marksOfManyAlikeNamesAreLetters() {
    JsonNode marks = numbers.at("/marks");
    assertEquals("PN", marks.at("/first").asText());
    assertEquals("PNa", marks.at("/second").asText());
    // Past z they once ran on into brackets and signs that cannot be printed.
    assertEquals("PNz", marks.at("/z").asText());
    assertEquals("PNaa", marks.at("/after").asText());
    assertEquals("PNbg", marks.at("/last").asText());
    assertEquals("C2", marks.at("/chorus").asText());
    assertEquals("\uD83C\uDFB5\uD83C\uDFB5", marks.at("/signs").asText());
  }

  @Test
  void barsOfATempoMapWinOverTheOneTempo() {
    assertEquals("[2,3]", geometry("mappedBars").toString());
    assertEquals(
        "[\"Verse, bar 1 of 2\",\"Verse, bar 2 of 2\",\"Chorus, bar 1 of 3\","
            + "\"Chorus, bar 2 of 3\",\"Chorus, bar 3 of 3\"]",
        geometry("mappedPlaces").toString());
    // Just after a barline back means the bar before; past the last one the one tempo counts.
    assertEquals("[20,21.5,20,21.5,18,30.5]", geometry("mappedSteps").toString());
  }

  @Test
  void stripTurnsTimeIntoPixelsAndBack() {
    assertEquals(696, geometry("x").asDouble(), 1e-9);
    assertEquals(1392, geometry("xPast").asDouble(), 1e-9);
    assertEquals(30, geometry("time").asDouble(), 1e-9);
    assertEquals(0, geometry("noLength").asDouble());
    assertTrue(geometry("press").isNull());
    assertEquals(10, geometry("drag/from").asDouble(), 1e-9);
    assertEquals(30, geometry("drag/to").asDouble(), 1e-9);
    double[] half = {0.5, 0.5, 8, 16, 16};
    for (int i = 0; i < half.length; i++) {
      assertEquals(half[i], geometry("half/" + i).asDouble(), 1e-9);
    }
    assertEquals(100, geometry("box/1/0").asDouble(), 1e-9);
    assertEquals(200, geometry("box/2/1").asDouble(), 1e-9);
    assertEquals("a,c", geometry("room").asText());
  }

  private static String sections(String name) {
    return numbers.at("/sections/" + name).asText();
  }

  private static void assertList(String name, String... expected) {
    List<String> found = new ArrayList<>();
    numbers.at("/sections/" + name).forEach(n -> found.add(n.asText()));
    assertEquals(List.of(expected), found, name);
  }

  /** Drawn are A from 0 to 4, B from 4 to 8 and, behind a gap, C from 9 to 12. */
  @Test
  void edgesMoveAsFarAsTheirNeighboursLetThem() {
    assertEquals("0:>0 4:0>1 8:1> 9:>2 12:2>", sections("edges"));
    assertEquals("A 0-4.01, B 4.01-8, C 9-12", sections("shared"));
    assertEquals("A 0-7.9, B 7.9-8, C 9-12", sections("stopped"));
    assertEquals("A 0-4, B 4-8, C 8-12", sections("closed"));
    assertEquals("A 0-4, B 4-9, C 9-12", sections("gap"));
    assertEquals("A 0-4, B 4-8, C 9-12", sections("last"));
    assertEquals(2, numbers.at("/sections/near").asInt());
    assertTrue(numbers.at("/sections/far").isNull());
  }

  @Test
  void aBoundaryCutsASectionOrBeginsOneInAGap() {
    assertEquals("A 0-4, B 4-6, N 6-8, C 9-12", sections("cut"));
    assertEquals("A 0-4, B 4-8, N 8.5-9, C 9-12", sections("cutGap"));
    assertTrue(numbers.at("/sections/cutNear").isNull());
    assertEquals("N 3-12", sections("cutFirst"));
    assertEquals("A 0-4, B 4-5, C 9-12", sections("ended"));
    assertTrue(numbers.at("/sections/endedGap").isNull());
  }

  @Test
  void whatIsDrawnPushesTheOthersBack() {
    assertEquals("A 0-3, N 3-10, C 10-12", sections("drawn"));
    assertEquals("A 0-4, B 4-5, N 5-6, R 6-8, C 9-12", sections("within"));
    assertEquals("A 0-4, B 4-8, C 9-12", sections("drawnShort"));
    assertEquals("A 0-8, C 9-12", sections("away"));
    assertEquals("A 0-4, B 4-8", sections("awayGap"));
    assertEquals("B 4-8, C 9-12", sections("awayFirst"));
  }

  @Test
  void closeUpStaysWithinTheSong() {
    List<String> windows = new ArrayList<>();
    numbers.at("/sections/around").forEach(w -> windows.add(w.get("from") + "-" + w.get("to")));
    assertEquals(List.of("0-8", "26-34", "52-60", "0-5"), windows);
  }

  /**
   * Bars of 3 at 120 from 0.25 s on; and a map of two bars of half seconds, then one of seconds.
   */
  @Test
  void edgesStepByTimeBeatAndBar() {
    assertEquals(
        "1:0.25/0.75/1.25 2:1.75/2.25/2.75 3:3.25/3.75/4.25 4:4.75/5.25/5.75", sections("grid"));
    assertEquals(0, numbers.at("/sections/noGrid").asInt());
    assertList("steps", "1.51", "0", "2", "1.5", "3", "1.5", "null");
    assertList("bars", "bar 3", "bar 3, beat 2", "bar 3 \u2212 40 ms", "");
    assertEquals("2 - - 3", sections("lines"));
  }

  @Test
  void theNextNameIsALikelyOneAndUnlikeAllOthers() {
    assertEquals(
        "Intro, Verse 1, Pre-chorus 1, Chorus 1, Verse 2, Pre-chorus 2, Chorus 2, Bridge, Chorus 3,"
            + " Outro",
        sections("grown"));
    assertEquals("Chorus 2", sections("learnt"));
    assertEquals("Drop 2", sections("own"));
    assertEquals("Verse 3", sections("taken"));
    assertEquals("Verse 2, Chorus 1, Bridge, Solo, Break, Outro", sections("others"));
    assertList("unlike", "Verse 1", "Verse 2", "Bridge", "Bridge 2", "Chorus 2", "Chorus 3");
    assertEquals("Verse 1, Chorus 1, verse 2, Bridge, Chorus 2", sections("ordered"));
    assertList("millis", "1:23.441", "1:00.000", "0:00.000");
  }

  @Test
  void timeMapSaysWhereTheOtherMixHasNothing() {
    assertEquals(2.5, geometry("toOther").asDouble(), 1e-9);
    assertTrue(geometry("toGap").isNull());
    assertEquals(7, geometry("fromOther").asDouble(), 1e-9);
    assertEquals(5, geometry("nearest").asDouble(), 1e-9);
  }

  @Test
  void timesAndLevelsAreWrittenAsMusiciansReadThem() {
    assertEquals(83.4, geometry("parsed/0").asDouble(), 1e-9);
    assertEquals(83.4, geometry("parsed/1").asDouble(), 1e-9);
    assertNull(geometry("parsed/2").numberValue());
    assertNull(geometry("parsed/3").numberValue());
    assertEquals("[\"1:23\",\"0:00\",\"1:24.0\",\"1:00.0\"]", geometry("clock").toString());
    assertEquals(
        "[\"\u221214.6 LUFS\",\"0.0 dB\",\"–\",\"+0.8 dB\",\"\u22120.5 dB\"]",
        geometry("figures").toString());
  }

  private static String curves(String name) {
    return numbers.at("/curves/" + name).toString();
  }

  @Test
  void curvesLieWhereTheirValuesSay() {
    assertEquals("[200,110,20,20,200]", curves("pixel"));
    assertEquals("[-36,-18,-36]", curves("value"));
    assertEquals(
        "[{\"low\":-48,\"high\":-12},{\"low\":-36,\"high\":0},{\"low\":-48,\"high\":-12}]",
        curves("levels"));
    // A gap breaks the line; a value alone is a dash.
    assertEquals("\"M10 200L20 110M40 110h1M60 20L70 20\"", curves("line"));
    assertEquals("\"M-2 200V110h4V200\"", curves("pillars"));
    assertEquals("[0,300,599,0,-1]", curves("steps"));
  }

  @Test
  void axesHaveRoundNumbers() {
    assertEquals(
        "[[0,10,20,30,40,50,60,70,80,90,100,110,120,130,140,150]," + "[61.5,62,62.5,63]]",
        curves("times"));
    assertEquals("[[0,-6,-12,-18,-24],[-12,-24,-36]]", curves("ticks"));
  }

  @Test
  void overALimitIsWhatReadsAsOver() {
    assertEquals("[3,5]", curves("above"));
  }

  @Test
  void linkToASongMayAskForAStretch() {
    assertEquals("[{\"from\":61.2,\"to\":64.2},null,null]", curves("wish"));
    assertEquals(
        "[\"/songs/s?mix=m&loop=Chorus%201%20%26%202\","
            + "\"/songs/s?mix=m&with=o&from=61.20&to=64.20\"]",
        curves("href"));
  }

  private static String sending(String name) {
    return numbers.at("/sending/" + name).toString();
  }

  @Test
  void aSignSaysWhichWayAndNoFigureHasAnExponent() {
    assertEquals(
        "[\"down, 3 dB\",\"up, 3 dB\",\"up, 3 dB\",\"up, 1.5 dB\",\"up, 1 to 2 dB\",\"down, 2%\","
            + "\"up, a touch\",\"up, -3 horses\"]",
        geometry("amounts").toString());
    assertEquals("[\"earlier, 20 ms\",\"centre, -3 db\"]", geometry("elsewhere").toString());
    List<String> places = new ArrayList<>();
    geometry("places").forEach(place -> places.add(place.asText()));
    // The moment a line had stays exact while its words stay; what is no time is none.
    assertEquals(
        List.of(
            "1:05 to 1:20 {\"from\":65,\"to\":80}",
            "1:05 to 1:20 {\"from\":65,\"to\":80}",
            "at 1:05 {\"from\":65,\"to\":65}",
            "at 1:23 {\"from\":83.5,\"to\":83.5}",
            "Whole song []",
            "at 1:05 {\"from\":65.4,\"to\":65.4}",
            "null",
            "null",
            "null",
            "null"),
        places);
    assertEquals(
        "[\"1.25\",\"3\",\"0.3\",\"10000000000000\",\"1000000000000000000000\"]",
        geometry("plain").toString());
  }

  @Test
  void speedAndTimeLeftAreSaidNoFinerThanTheyAreKnown() {
    assertEquals("[null,null,1000000,1000000,500000,null]", sending("speeds"));
    assertEquals("[1048576,262144,400000,33554432]", sending("pieces"));
    assertEquals("[\"1 kB\",\"640 kB\",\"1.0 MB\",\"48.2 MB\",\"3.91 GB\"]", sending("sizes"));
    assertEquals("[\"38 kB/s\",\"3.1 MB/s\"]", sending("paces"));
    assertEquals(
        "[\"a few seconds left\",\"40 s left\",\"1 min left\",\"3 min left\",\"2 h 10 min left\"]",
        sending("left"));
    assertEquals("[\"0 %\",\"43 %\",\"99 %\"]", sending("percent"));
  }

  @Test
  void whatPassesIsWaitedForAndWhatDoesNotEndsTheUpload() {
    assertEquals(
        "[\"line 1\",\"line 30\",\"signed-out Infinity\",\"slow-down 45\",\"server 4\",\"server 1\","
            + "\"server 2\",\"ends\",\"ends\",\"ends\",\"ends\",\"ends\",\"ends\"]",
        sending("waits"));
  }

  @Test
  void aLineIsAsFastAsWhatCameWhileAnythingCame() {
    assertEquals(
        "{\"inTurn\":300000,\"sideBySide\":300000,\"nested\":300000,\"tooLittle\":null,"
            + "\"atOnce\":null,\"remembered\":280000,\"forgotten\":[null,null,null,null]}",
        numbers.at("/line").toString());
  }
}
