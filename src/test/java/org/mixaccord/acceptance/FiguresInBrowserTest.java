package org.mixaccord.acceptance;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.microsoft.playwright.Download;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.assertions.PlaywrightAssertions;
import com.microsoft.playwright.options.AriaRole;
import io.quarkus.test.common.QuarkusTestResource;
import io.quarkus.test.common.http.TestHTTPResource;
import io.quarkus.test.junit.QuarkusTest;
import io.restassured.path.json.JsonPath;
import java.io.IOException;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.nio.file.Files;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.awaitility.Awaitility;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.mixaccord.PostgresForTests;
import org.mixaccord.acceptance.Screens.Screen;
import org.mixaccord.web.Chromium;

/**
 * The figures on the page: an engineer reads them by key, press, table and file; an artist words.
 */
@QuarkusTest
@QuarkusTestResource(PostgresForTests.class)
class FiguresInBrowserTest {
  private static final Pattern POINT = Pattern.compile("[ML](-?[\\d.]+) (-?[\\d.]+)");

  private static final String TRUE_PEAK = "whole.truePeakDbtp";
  private static final String LOOP_FROM =
      "() => document.querySelector('page-song').player.state.loop.from";

  @TestHTTPResource String server;

  private Api owner;
  private String project;
  private String song;
  private String mix1;
  private String mix2;
  private Screen engineer;
  private JsonPath series;

  @BeforeEach
  void needsABrowser() {
    Chromium.orSkip();
    PlaywrightAssertions.setDefaultAssertionTimeout(20_000);
  }

  @Test
  void figuresAreReadByEngineersAndWordsByEverybody() throws IOException {
    aSongWithTwoMixes();
    try (Screens screens = new Screens(server)) {
      try {
        theEngineerOpensTheFigures(screens);
        arrowsMoveTheReading();
        theTableIsThePicture();
        theTablesComeAsFiles();
        bandsLieOverEachOther();
        deliveryIsSaidFigureByFigure();
        aPressGoesToThePlace();
        anAgreementIsFilledInFromAPreset();
        theArtistReadsWords(screens);
      } catch (Throwable t) {
        screens.pictures("figures-failed");
        throw t;
      }
      assertEquals(List.of(), screens.complaints());
    }
  }

  private void aSongWithTwoMixes() {
    owner = Owner.signedIn();
    project = owner.make("/projects", Map.of("title", "Harbour Lights", "artist", "The Invented"));
    song = owner.make("/projects/" + project + "/songs", Map.of("title", "Neap Tide"));
    mix1 = uploaded("first.wav", Takes.first());
    owner
        .put("/songs/" + song + "/sections", Map.of("sections", Takes.SECTIONS))
        .then()
        .statusCode(200);
    mix2 = uploaded("second.wav", Takes.second());
    double peak = owner.get("/bounces/" + mix2 + "/measurements").jsonPath().getDouble(TRUE_PEAK);
    owner
        .put(
            "/projects/" + project + "/delivery-spec",
            Map.of("ceilingDbtp", Math.floor(peak) - 1, "sampleRate", Takes.RATE, "bitDepth", 24))
        .then()
        .statusCode(200);
    for (String mix : List.of(mix1, mix2)) {
      owner.post("/bounces/" + mix + "/sending", Map.of()).then().statusCode(200);
    }
    Awaitility.await()
        .atMost(Duration.ofSeconds(60))
        .until(
            () ->
                owner
                        .get("/bounces/" + mix2 + "/measurements")
                        .jsonPath()
                        .getList("sections")
                        .size()
                    == 4);
    series = owner.get("/bounces/" + mix2 + "/series?points=600").jsonPath();
  }

  private void theEngineerOpensTheFigures(Screens screens) {
    engineer = screens.desk("engineer");
    engineer.page.navigate("/songs/" + song);
    engineer.page.getByLabel("E-mail").fill(Owner.EMAIL);
    engineer.page.getByLabel("Password").fill(Owner.PASSWORD);
    engineer.button("Sign in").click();
    engineer.link("figures").click();
    assertThat(engineer.see(".head", "Figures of Mix 2")).isVisible();
    assertThat(engineer.page.locator("figures-time .curves path.thick")).isAttached();
    assertThat(engineer.page.locator("figures-bands .curves path.thick")).isAttached();
    keep(engineer, "figures-1");
  }

  private Locator slider() {
    return engineer.page.locator("figures-time .curves");
  }

  /** What the page reads out at a step, as the server's numbers have it. */
  private String readingAt(int i) {
    return "short-term "
        + figure("shortTermLufs", i, 1, " LUFS")
        + "; momentary "
        + figure("momentaryLufs", i, 1, " LUFS")
        + "; true peak "
        + figure("truePeakDbtp", i, 1, " dBTP");
  }

  private String figure(String name, int i, int digits, String unit) {
    Object value = series.get(name + "[" + i + "]");
    if (value == null) {
      return "–";
    }
    return new BigDecimal(Double.parseDouble(value.toString()))
            .setScale(digits, RoundingMode.HALF_UP)
            .toPlainString()
            .replace('-', '−')
            .replaceFirst("^−(0(\\.0+)?)$", "$1")
        + unit;
  }

  private void arrowsMoveTheReading() {
    slider().focus();
    for (String[] press : new String[][] {{"Home", "0"}, {"ArrowRight", "1"}, {"PageDown", "21"}}) {
      engineer.page.keyboard().press(press[0]);
      int i = Integer.parseInt(press[1]);
      assertTrue(spoken().contains(readingAt(i)), press[0] + ": " + spoken() + ", " + readingAt(i));
      assertThat(engineer.page.locator("figures-time .reading"))
          .containsText(figure("shortTermLufs", i, 1, ""));
    }
    engineer.page.keyboard().press("ArrowLeft");
    assertTrue(spoken().contains(readingAt(20)), spoken());
    engineer.page.keyboard().press("ArrowDown");
    assertTrue(spoken().contains("Verse 1"), spoken());
    engineer.page.keyboard().press("ArrowDown");
    assertTrue(spoken().contains("Chorus 1"), spoken());
    engineer.page.keyboard().press("End");
    int last = series.getList("atSeconds").size() - 1;
    assertTrue(spoken().contains("true peak " + figure("truePeakDbtp", last, 1, " dBTP")));
    // The pointer reads as well.
    double width = slider().boundingBox().width;
    slider().hover(new Locator.HoverOptions().setPosition(44 + (width - 58) / 2, 100));
    double now = Double.parseDouble(slider().getAttribute("aria-valuenow"));
    assertEquals(series.getDouble("to") / 2, now, 0.1);
  }

  private String spoken() {
    return slider().getAttribute("aria-valuetext");
  }

  /** The curve's points, read back through the axis that is drawn beside it, are the table's. */
  private void theTableIsThePicture() {
    engineer.see("section:has(> #time-title) summary", "As a table").click();
    Locator rows = engineer.page.locator(".series-table tbody tr");
    int steps = series.getList("atSeconds").size();
    assertThat(rows).hasCount(steps);
    List<?> cells =
        (List<?>)
            rows.evaluateAll("rows => rows.map((r) => [...r.cells].map((c) => c.textContent))");
    List<Double> shown = new ArrayList<>();
    for (int i = 0; i < steps; i++) {
      List<?> row = (List<?>) cells.get(i);
      assertEquals(figure("shortTermLufs", i, 1, ""), row.get(2), "row " + i);
      assertEquals(figure("momentaryLufs", i, 1, ""), row.get(3), "row " + i);
      assertEquals(figure("truePeakDbtp", i, 1, ""), row.get(4), "row " + i);
      assertEquals(figure("samplePeakDbfs", i, 1, ""), row.get(5), "row " + i);
      if (!row.get(2).equals("–")) {
        shown.add(Double.valueOf(((String) row.get(2)).replace('−', '-')));
      }
    }
    List<?> ticks =
        (List<?>)
            engineer
                .page
                .locator("figures-time .curves text.tick.end")
                .evaluateAll("t => t.map((e) => [Number(e.getAttribute('y')), e.textContent])");
    double top = number(ticks, 0, 0);
    double topLufs = number(ticks, 0, 1);
    double perPixel = (number(ticks, 3, 1) - topLufs) / (number(ticks, 3, 0) - top);
    Matcher points =
        POINT.matcher(engineer.page.locator("figures-time .curves path.thick").getAttribute("d"));
    List<Double> drawn = new ArrayList<>();
    while (points.find()) {
      // A number stands 4 px under its line, which lies on half a pixel.
      drawn.add(topLufs + (Double.parseDouble(points.group(2)) + 4.5 - top) * perPixel);
    }
    assertEquals(shown.size(), drawn.size());
    for (int i = 0; i < drawn.size(); i++) {
      double lowest = topLufs - 36;
      assertEquals(Math.max(lowest, shown.get(i)), drawn.get(i), 0.2, "point " + i);
    }
  }

  private static double number(List<?> ticks, int i, int field) {
    return Double.parseDouble(((List<?>) ticks.get(i)).get(field).toString().replace('−', '-'));
  }

  private void theTablesComeAsFiles() throws IOException {
    Download curve = engineer.page.waitForDownload(() -> engineer.link("Curve as CSV").click());
    assertEquals("Mix 2 over time.csv", curve.suggestedFilename());
    List<String> lines = Files.readAllLines(curve.path());
    assertEquals(series.getList("atSeconds").size() + 1, lines.size());
    String[] middle = lines.get(301).split(",", -1);
    assertEquals(series.getDouble("atSeconds[300]"), Double.parseDouble(middle[0]), 1e-6);
    assertEquals(series.getDouble("truePeakDbtp[300]"), Double.parseDouble(middle[3]), 1e-4);
    Download figures = engineer.page.waitForDownload(() -> engineer.link("Figures as CSV").click());
    assertEquals("Mix 2 figures.csv", figures.suggestedFilename());
    List<String> sections = Files.readAllLines(figures.path());
    assertEquals(6, sections.size());
    assertTrue(sections.get(4).startsWith("Chorus 1,"), sections.get(4));
  }

  /** The second mix is the first one, louder: apart as they are, one line in shape. */
  private void bandsLieOverEachOther() {
    Locator reading = engineer.page.locator("figures-bands .reading");
    assertThat(reading).containsText("+2.6 dB");
    engineer.page.getByLabel("Shape only: each freed of its own loudness").check();
    assertThat(reading).containsText("First less second0.0 dB");
    engineer.page.locator("figures-bands .curves").focus();
    engineer.page.keyboard().press("ArrowRight");
    assertThat(reading).containsText("1.25 kHz");
  }

  private void deliveryIsSaidFigureByFigure() {
    assertThat(engineer.see(".delivery tbody tr", "True peak at most")).containsText("not met");
    assertThat(engineer.see(".delivery tbody tr", "Sample rate")).containsText("24 kHz");
    assertThat(engineer.page.locator(".delivery tbody tr").nth(1)).not().containsText("not met");
    assertThat(engineer.page.locator(".delivery tbody tr").nth(1)).containsText("met");
  }

  private void aPressGoesToThePlace() {
    JsonPath figures = owner.get("/bounces/" + mix2 + "/measurements").jsonPath();
    engineer.see(".loudest li", "Loudest 3 s").getByRole(AriaRole.LINK).click();
    engineer.until("state.loop && Math.abs(state.loop.to - state.loop.from - 3) < 0.02");
    double from = ((Number) engineer.page.evaluate(LOOP_FROM)).doubleValue();
    assertEquals(figures.getDouble("loudest.from"), from, 0.01);
    engineer.page.goBack();
    String loudest = figures.getString("loudest.section");
    String other = loudest.equals("Intro") ? "Outro" : "Intro";
    engineer.page.getByLabel("Hear " + other).first().click();
    loops(figures, other);
    // On the song page the loudest places are one press each.
    engineer.page.locator("p:has-text('Loudest:')").getByText(loudest).click();
    loops(figures, loudest);
  }

  private void loops(JsonPath figures, String section) {
    double from = figures.getDouble("sections.find { it.name == '" + section + "' }.from");
    engineer.until("state.loop && Math.abs(state.loop.from - " + from + ") < 0.02");
  }

  private void anAgreementIsFilledInFromAPreset() {
    engineer.page.navigate("/projects/" + project);
    engineer.page.locator("project-spec").getByText("Change").click();
    engineer.page.getByLabel("Fill in from").selectOption("aes-tracks");
    assertThat(engineer.page.locator("project-spec"))
        .containsText("AES TD1008, 0.2 LU of room, Sep");
    assertThat(engineer.page.getByLabel("Loudness at most, LUFS")).hasValue("-15.8");
    engineer.page.getByLabel("Fill in from").selectOption("premaster");
    assertThat(engineer.page.locator("project-spec")).containsText("only a habit");
    assertThat(engineer.page.getByLabel("Loudness at most, LUFS")).hasValue("");
    assertThat(engineer.page.getByLabel("Sample peak at most, dBFS")).hasValue("-3");
    keep(engineer, "figures-2-preset");
    String spec = "/projects/" + project + "/delivery-spec";
    assertTrue(owner.get(spec).path("ceilingDbfs") == null, "nothing is agreed before Keep");
    engineer.page.locator("project-spec button.main").click();
    assertThat(engineer.page.locator("project-spec dl")).containsText("−3.0 dBFS");
    assertEquals(-3f, (Float) owner.get(spec).path("ceilingDbfs"));
  }

  private void theArtistReadsWords(Screens screens) {
    owner.patch("/projects/" + project, Map.of("metersOpen", false)).then().statusCode(200);
    Screen artist = screens.phone("artist");
    artist.page.navigate("/join/" + Band.invite(owner, project, "artist"));
    artist.page.getByLabel("Your name").fill("Iris");
    artist.button("Play").click();
    Locator words = artist.see("section", "In words");
    assertThat(words).containsText("is the loudest");
    assertFalse(words.textContent().matches("(?s).*(dB|LUFS|\\d[.,]\\d).*"), words.textContent());
    assertThat(artist.page.getByText("Show figures")).hasCount(0);
    artist.page.navigate("/songs/" + song + "/figures");
    assertThat(artist.see("p", "The figures of this project are the engineer’s.")).isVisible();
    assertThat(artist.page.locator("figures-time")).hasCount(0);

    owner.patch("/projects/" + project, Map.of("metersOpen", true)).then().statusCode(200);
    artist.page.reload();
    artist.button("Show the figures").click();
    Locator chart = artist.page.locator("figures-time .curves");
    assertThat(chart.locator("path.thick")).isAttached();
    double width = chart.boundingBox().width;
    chart.tap(new Locator.TapOptions().setPosition(44 + (width - 58) / 4, 60));
    assertEquals(
        series.getDouble("to") / 4, Double.parseDouble(chart.getAttribute("aria-valuenow")), 0.15);
    keep(artist, "figures-3");
  }

  private static void keep(Screen screen, String moment) {
    assertEquals(0, screen.overhang(), moment);
    screen.picture(moment);
  }

  private String uploaded(String name, Takes takes) {
    String bounce =
        owner
            .as()
            .contentType("application/octet-stream")
            .body(takes.wav())
            .post("/api/v1/songs/" + song + "/bounces?kind=main&filename=" + name)
            .then()
            .statusCode(201)
            .extract()
            .path("id");
    Awaitility.await()
        .atMost(Duration.ofSeconds(30))
        .until(() -> "ready".equals(owner.get("/bounces/" + bounce).path("state")));
    return bounce;
  }
}
