package org.mixaccord.acceptance;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.microsoft.playwright.Locator;
import com.microsoft.playwright.assertions.PlaywrightAssertions;
import com.microsoft.playwright.options.BoundingBox;
import com.microsoft.playwright.options.Cookie;
import com.microsoft.playwright.options.FilePayload;
import io.quarkus.test.common.QuarkusTestResource;
import io.quarkus.test.common.http.TestHTTPResource;
import io.quarkus.test.junit.QuarkusTest;
import io.restassured.path.json.JsonPath;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import org.awaitility.Awaitility;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.mixaccord.PostgresForTests;
import org.mixaccord.acceptance.Screens.Screen;
import org.mixaccord.audio.midi.Smf;
import org.mixaccord.web.Chromium;

/** Setting the sections of a song on the page: by keys at a desk, by thumb on a phone. */
@QuarkusTest
@QuarkusTestResource(PostgresForTests.class)
class SectionsInBrowserTest {
  @TestHTTPResource String server;

  private Api engineer;
  private String song;
  private String bounce;

  @BeforeEach
  void aSongWithoutSections() {
    Chromium.orSkip();
    PlaywrightAssertions.setDefaultAssertionTimeout(20_000);
    engineer = Owner.signedIn();
    String project =
        engineer.make("/projects", Map.of("title", "Harbour Lights", "artist", "The Invented"));
    song = engineer.make("/projects/" + project + "/songs", Map.of("title", "Slack Tide"));
    bounce =
        engineer
            .as()
            .contentType("application/octet-stream")
            .body(SectionSourcesTest.marked(Takes.first().wav(), 4 * Takes.RATE, 10 * Takes.RATE))
            .post("/api/v1/songs/" + song + "/bounces?filename=marked.wav")
            .path("id");
    Awaitility.await()
        .atMost(Duration.ofSeconds(60))
        .until(
            () -> "ready".equals(engineer.get("/bounces/" + bounce + "/listening").path("state")));
  }

  private Screen signedIn(Screen screen) {
    screen
        .page
        .context()
        .addCookies(List.of(new Cookie("mixaccord_session", engineer.cookie()).setUrl(server)));
    screen.page.navigate("/songs/" + song);
    return screen;
  }

  private static Locator names(Screen screen) {
    return screen.page.locator(".sections-edit input");
  }

  private JsonPath kept() {
    return engineer.get("/songs/" + song + "/sections").jsonPath();
  }

  private List<?> sectionsInTheFigures(Screen screen) {
    screen.page.waitForFunction(
        "() => document.querySelector('page-song').evidence.data.value.lead?.sections.length > 1");
    return (List<?>)
        screen.page.evaluate(
            "() => document.querySelector('page-song').evidence.data.value.lead.sections"
                + ".map((s) => s.name)");
  }

  @Test
  void sectionsAreTappedByKeyNudgedAndKept() {
    try (Screens screens = new Screens(server)) {
      Screen desk = signedIn(screens.desk("engineer"));
      desk.button("Play and tap").click();
      desk.until("probe.phase === 'playing' && probe.elementTime > 1");
      desk.page.keyboard().press("b");
      assertThat(desk.page.locator(".tap-now strong")).hasText("Verse 1");
      desk.until("probe.elementTime > 2.5");
      desk.page.keyboard().press("b");
      assertThat(desk.page.locator(".tap-now strong")).hasText("Pre-chorus 1");
      String other = desk.page.locator(".calling button").nth(1).innerText().split("\n")[0].trim();
      assertEquals("Chorus 1", other.replaceAll(" ?2$", ""));
      desk.page.keyboard().press("2");
      assertThat(desk.page.locator(".tap-now strong")).hasText("Chorus 1");
      desk.button("Stop").click();
      assertThat(names(desk)).hasCount(3);

      Locator edge = desk.page.locator("[data-edge-at]");
      double tapped = seconds(edge.inputValue());
      assertTrue(tapped > 0.9 && tapped < 2.5, "" + tapped);
      desk.button("Start of Verse 1: 10 ms later").click();
      desk.button("Start of Verse 1: 50 ms earlier").click();
      assertEquals(tapped - 0.04, seconds(edge.inputValue()), 0.0011);
      Locator slider = desk.page.locator(".form-strip [role=slider][data-edge='1']");
      slider.focus();
      slider.press("ArrowRight");
      slider.press("Shift+ArrowRight");
      assertEquals(tapped + 0.02, seconds(edge.inputValue()), 0.0011);
      edge.fill("0:01.500");
      edge.press("Enter");
      assertThat(slider).hasAttribute("aria-valuenow", "1.500");
      desk.button("Hear this edge").click();
      desk.until(
          "state.loop && Math.abs(state.loop.from) < 0.001 && Math.abs(state.loop.to - 3) < 0.001");

      desk.button("Keep these sections").click();
      assertThat(desk.see(".saved", "Kept.")).isVisible();
      assertEquals(List.of("Intro", "Verse 1", "Chorus 1"), kept().getList("name"));
      assertEquals(1.5f, kept().getFloat("[1].from"));
      assertEquals(List.of("Intro", "Verse 1", "Chorus 1"), sectionsInTheFigures(desk));
      assertThat(desk.see("#main", "Chorus 1")).isVisible();
      assertEquals(List.of(), screens.complaints());
    }
  }

  @Test
  void anEdgeIsDraggedAndASectionDrawnByHand() {
    try (Screens screens = new Screens(server)) {
      engineer
          .put("/songs/" + song + "/sections", Map.of("sections", Takes.SECTIONS))
          .then()
          .statusCode(200);
      Screen desk = signedIn(screens.desk("engineer"));
      desk.see("summary", "Sections").click();
      desk.page.locator(".form-strip svg").scrollIntoViewIfNeeded();
      BoundingBox strip = desk.page.locator(".form-strip svg").boundingBox();
      double second = strip.width / 24;
      desk.page.mouse().move(strip.x + 10 * second, strip.y + 40);
      desk.page.mouse().down();
      desk.page.mouse().move(strip.x + 11 * second, strip.y + 40);
      desk.page.mouse().move(strip.x + 12 * second, strip.y + 40);
      desk.page.mouse().up();
      Locator edge = desk.page.locator(".form-strip [role=slider][data-edge='2']");
      assertEquals(12, Double.parseDouble(edge.getAttribute("aria-valuenow")), 0.05);
      assertThat(edge).hasAttribute("aria-label", "Start of Chorus 1");
      strip = desk.page.locator(".form-strip svg").boundingBox();
      desk.page.mouse().move(strip.x + 5 * second, strip.y + 40);
      desk.page.mouse().down();
      desk.page.mouse().move(strip.x + 7 * second, strip.y + 40);
      desk.page.mouse().up();
      assertThat(names(desk)).hasCount(6);
      assertThat(names(desk).nth(2)).hasValue("Pre-chorus 1");
      desk.button("Undo").click();
      assertThat(names(desk)).hasCount(4);
      desk.button("As they were").click();
      assertThat(edge).hasAttribute("aria-valuenow", "10.000");
      assertEquals(List.of(), screens.complaints());
    }
  }

  @Test
  void markersAndBarsAreTakenOnAPhone() {
    try (Screens screens = new Screens(server)) {
      Screen phone = signedIn(screens.phone("engineer"));
      phone.button("Play and tap").tap();
      phone.until("probe.phase === 'playing' && probe.elementTime > 0.5");
      phone.button("Verse 1 begins here").tap();
      phone.button("Bridge").tap();
      phone.button("Stop").tap();
      assertThat(names(phone).nth(1)).hasValue("Bridge");

      phone.button("Take the 2 markers of this file").tap();
      assertThat(names(phone).first()).hasValue("Verse");
      assertEquals(0, kept().getList("").size());
      phone.button("Keep these sections").tap();
      assertThat(phone.see(".saved", "Kept.")).isVisible();
      assertEquals(List.of("Verse", "Chorus"), kept().getList("name"));
      assertEquals(10f, kept().getFloat("[1].from"));

      phone.see("summary", "Bars from a MIDI file").tap();
      phone
          .page
          .getByLabel("MIDI file")
          .setInputFiles(new FilePayload("tempo.mid", "audio/midi", Smf.turning()));
      phone.button("Take its bars").tap();
      assertThat(phone.see("mix-section-sources p", "time signatures")).containsText("two tempos");
      phone.button("Start of Chorus: 0:10.000").tap();
      phone.button("Start of Chorus: 1 bar later").tap();
      assertThat(phone.page.locator("[data-edge-at]")).hasValue("0:12.000");
      phone.button("Start of Chorus: 1 beat later").tap();
      assertThat(phone.page.locator("[data-edge-at]")).hasValue("0:12.667");
      assertEquals(0, phone.overhang());
      assertEquals(List.of(), screens.complaints());
    }
  }

  @Test
  void aDraftOutlivesAReloadAndTellsOfSectionsKeptElsewhere() {
    try (Screens screens = new Screens(server)) {
      keep("Verse", "Chorus");
      Screen desk = signedIn(screens.desk("engineer"));
      desk.see("summary", "Sections").click();
      names(desk).nth(1).fill("Hook");
      names(desk).nth(1).press("Tab");
      assertThat(desk.see("p", "Not kept yet.")).isVisible();
      desk.page.reload();
      assertThat(names(desk).nth(1)).hasValue("Hook");
      assertThat(desk.see("p", "Somebody has kept")).hasCount(0);

      keep("Verse", "Refrain");
      assertThat(desk.see("p", "Somebody has kept other sections")).isVisible();
      desk.button("As they were").click();
      assertThat(names(desk).nth(1)).hasValue("Refrain");
      desk.page.reload();
      desk.see("summary", "Sections").click();
      assertThat(names(desk).nth(1)).hasValue("Refrain");

      // A press that ends a piece of work leaves the focus where the next press is looked for.
      names(desk).nth(1).fill("Hook");
      names(desk).nth(1).press("Tab");
      desk.button("Undo").click();
      assertThat(desk.see("p", "Not kept yet.")).hasCount(0);
      assertThat(desk.button("Undo")).isFocused();
      names(desk).nth(1).fill("Hook");
      names(desk).nth(1).press("Tab");
      desk.button("Keep these sections").click();
      assertThat(desk.see(".saved", "Kept.")).isVisible();
      assertThat(desk.button("Keep these sections")).isFocused();
      desk.button("Take Verse away").click();
      assertThat(desk.button("Take Hook away")).isFocused();
      assertEquals(List.of("Verse", "Hook"), kept().getList("name"));
      assertEquals(List.of(), screens.complaints());
    }
  }

  private void keep(String first, String second) {
    engineer
        .put(
            "/songs/" + song + "/sections",
            Map.of(
                "sections",
                List.of(
                    Map.of("name", first, "from", 4, "to", 10),
                    Map.of("name", second, "from", 10, "to", 20))))
        .then()
        .statusCode(200);
  }

  private static double seconds(String clock) {
    String[] parts = clock.split(":");
    return Integer.parseInt(parts[0]) * 60 + Double.parseDouble(parts[1]);
  }
}
