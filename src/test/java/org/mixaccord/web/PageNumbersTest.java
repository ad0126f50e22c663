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
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.jar.JarEntry;
import java.util.jar.JarFile;
import java.util.stream.Stream;
import org.junit.jupiter.api.Assumptions;
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
    String script = bundle();
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

  /** Bundles the test's entry with the bundler that the build itself has fetched. */
  private static String bundle() throws IOException, InterruptedException {
    Path bundler = folder.resolve("esbuild");
    try (JarFile jar = new JarFile(bundlerJar().toFile())) {
      JarEntry program =
          jar.stream().filter(e -> e.getName().endsWith("/bin/esbuild")).findFirst().orElseThrow();
      try (InputStream in = jar.getInputStream(program)) {
        Files.copy(in, bundler);
      }
    }
    assertTrue(bundler.toFile().setExecutable(true));
    Path out = folder.resolve("numbers.js");
    Path log = folder.resolve("log");
    Process process =
        new ProcessBuilder(
                bundler.toString(),
                "src/test/web/numbers.ts",
                "--bundle",
                "--format=iife",
                "--outfile=" + out)
            .redirectErrorStream(true)
            .redirectOutput(log.toFile())
            .start();
    assertTrue(process.waitFor(60, TimeUnit.SECONDS), "the bundler did not end");
    assertEquals(0, process.exitValue(), () -> read(log));
    return Files.readString(out);
  }

  private static Path bundlerJar() throws IOException {
    Path versions =
        Path.of(System.getProperty("maven.repository"), "org/mvnpm/at/esbuild/linux-x64");
    Assumptions.assumeTrue(Files.isDirectory(versions), "the bundler for Linux x86-64 is not here");
    try (Stream<Path> files = Files.walk(versions)) {
      return files.filter(f -> f.toString().endsWith(".jar")).sorted().findFirst().orElseThrow();
    }
  }

  private static String read(Path file) {
    try {
      return Files.readString(file);
    } catch (IOException e) {
      return e.getMessage();
    }
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
}
