package org.mixaccord.acceptance;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.microsoft.playwright.Locator;
import com.microsoft.playwright.assertions.PlaywrightAssertions;
import io.quarkus.test.common.QuarkusTestResource;
import io.quarkus.test.common.http.TestHTTPResource;
import io.quarkus.test.junit.QuarkusTest;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import org.awaitility.Awaitility;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.mixaccord.PostgresForTests;
import org.mixaccord.acceptance.Screens.Probe;
import org.mixaccord.acceptance.Screens.Screen;
import org.mixaccord.web.Chromium;

/** A whole round of review on the page: an engineer and a manager at desks, an artist's phone. */
@QuarkusTest
@QuarkusTestResource(PostgresForTests.class)
class RoundInBrowserTest {
  private static final String ASK = "lead vocal up 2 dB";

  @TestHTTPResource String server;

  private Screens screens;
  private Api owner;
  private String project;
  private String song;
  private Screen engineer;
  private Screen artist;
  private Screen manager;

  @BeforeAll
  static void needsABrowser() {
    Chromium.orSkip();
    PlaywrightAssertions.setDefaultAssertionTimeout(20_000);
  }

  @Test
  void aRoundFromTheFirstMixToAnApprovalThatHolds() {
    try (Screens all = new Screens(server)) {
      screens = all;
      try {
        String mix1 = aSongWithItsFirstMix();
        theArtistHearsItInTwoPresses();
        String mix2 = theSecondMixComesWhileItPlays();
        crossingLandsOnTheSameSample(mix1, mix2);
        theEngineerSeesTheNoteComeIn();
      } catch (Throwable t) {
        all.pictures("failed");
        throw t;
      }
      assertEquals(List.of(), all.complaints());
    }
  }

  private String aSongWithItsFirstMix() {
    owner = Owner.signedIn();
    project = owner.make("/projects", Map.of("title", "Harbour Lights", "artist", "The Invented"));
    song =
        owner.make(
            "/projects/" + project + "/songs",
            Map.of("title", "Slack Tide", "tempoBpm", 120, "beatsPerBar", 4, "firstBarSeconds", 0));
    String mix1 = uploaded("first.wav", Takes.first());
    owner
        .put("/songs/" + song + "/sections", Map.of("sections", Takes.SECTIONS))
        .then()
        .statusCode(200);
    send(mix1);
    return mix1;
  }

  private void theArtistHearsItInTwoPresses() {
    artist = screens.phone("artist");
    artist.page.addInitScript("window.unasked = new AudioContext().state;");
    artist.page.navigate(invitation("artist"));
    assertThat(artist.page.locator("h1")).hasText("Somebody would like you to hear something.");
    artist.page.getByLabel("Your name").click();
    artist.page.keyboard().type("Iris");
    artist.button("Play").click();
    assertEquals("suspended", artist.page.evaluate("unasked"), "the browser waits for a press");
    artist.until("probe.phase === 'playing' && probe.elementTime > 0.3");
    double soon = artist.probe().number("elementTime");
    artist.until("probe.elementTime > " + (soon + 1));
    artist.button("Loop Chorus 1").click();
    artist.until("probe.way === 'clock' && probe.phase === 'playing' && probe.contextTime > 0.2");
    Probe one = artist.probe();
    artist.until("probe.contextFrame > " + (one.number("contextFrame") + Takes.RATE / 2.0));
    assertEquals(Takes.RATE, artist.probe().number("sampleRate"));
  }

  private String theSecondMixComesWhileItPlays() {
    String mix2 = uploaded("second.wav", Takes.second());
    send(mix2);
    artist.button("Open Mix 2").click();
    artist.until("state.lead.label === 'Mix 2' && state.other.label === 'Mix 1' && state.mapped");
    artist.until("probe.phase === 'playing'");
    return mix2;
  }

  private void crossingLandsOnTheSameSample(String mix1, String mix2) {
    artist.button("Set the two against each other").click();
    artist.until("probe.sounding === '" + mix1 + "' && probe.way === 'clock' && state.match");
    for (String to : List.of(mix2, mix1, mix2)) {
      String from = to.equals(mix2) ? mix1 : mix2;
      String label = to.equals(mix2) ? "Mix 2" : "Mix 1";
      artist.see("fieldset.pair label", label).click();
      artist.until("probe.sounding === '" + to + "' && probe.phase === 'playing'");
      Probe crossing = artist.probe().lastSwitch();
      assertEquals(from, crossing.words("from"));
      assertEquals(to, crossing.words("to"));
      assertEquals(crossing.frameOf(mix2) + Takes.LATE_FRAMES, crossing.frameOf(mix1));
    }
    Probe now = artist.probe();
    assertEquals(now.frameOf(mix2) + Takes.LATE_FRAMES, now.frameOf(mix1));
    assertThat(artist.page.locator(".even .level strong"))
        .hasText("Mix 2 plays quieter so that both are equal.");
    soundsLikeTheFilesThemselves();
  }

  /** What leaves the desk round a crossing, against the samples that were uploaded. */
  private void soundsLikeTheFilesThemselves() {
    Takes before = Takes.second();
    Takes after = Takes.first();
    Map<String, Object> heard =
        Screens.map(
            artist.page.evaluate(
                "async () => { const player = document.querySelector('page-song').player;"
                    + " const r = await player.rendering("
                    + "   {from: 12, seconds: 0.2, switches: [0.1]});"
                    + " return {start: r.startFrame, at: r.switchedAt[0],"
                    + "   gainDb: player.state.match.gainDb,"
                    + "   otherGainDb: player.state.match.otherGainDb,"
                    + "   channels: r.channels.map((c) => [...c])}; }"));
    assertEquals(-Takes.LOUDER_DB, number(heard, "gainDb"), 0.01);
    assertEquals(0, number(heard, "otherGainDb"), 0);
    double gain = Math.pow(10, number(heard, "gainDb") / 20);
    int start = (int) number(heard, "start");
    int at = (int) number(heard, "at");
    int crossed = at + Takes.RATE / 100;
    assertEquals(12 * Takes.RATE, start);
    List<?> channels = (List<?>) heard.get("channels");
    for (int side = 0; side < 2; side++) {
      List<?> sounds = (List<?>) channels.get(side);
      for (int i = 0; i < sounds.size(); i++) {
        double sample = ((Number) sounds.get(i)).doubleValue();
        if (i <= at) {
          assertEquals(before.at(side, start + i) * gain, sample, 1e-6, "before, frame " + i);
        } else if (i > crossed) {
          assertEquals(
              after.at(side, start + i + Takes.LATE_FRAMES), sample, 1e-6, "after, frame " + i);
        }
      }
    }
  }

  private void theEngineerSeesTheNoteComeIn() {
    engineer = screens.desk("engineer");
    engineer.page.navigate("/songs/" + song);
    engineer.page.getByLabel("E-mail").fill(Owner.EMAIL);
    engineer.page.getByLabel("Password").fill(Owner.PASSWORD);
    engineer.button("Sign in").click();
    assertThat(engineer.see("ul.sum", "Nobody has asked for anything.")).isVisible();
    engineer.page.evaluate("() => { window.sameDocument = true; }");

    pressStripAt(artist, 11.5);
    artist.until("player.position() > 13.5 && probe.phase === 'playing'");
    artist.page.evaluate(
        "() => document.addEventListener('input', () => {"
            + " window.typedAt = document.querySelector('page-song').player.position(); },"
            + " {capture: true, once: true})");
    artist.page.locator("mix-note textarea").pressSequentially(ASK);
    String reading = artist.see("mix-note ul.read li", "Lead vocal").textContent();
    String place = artist.page.locator("#note-place").textContent();
    double typedAt = ((Number) artist.page.evaluate("() => window.typedAt")).doubleValue();
    artist.picture("writes");
    artist.button("Send note").click();
    assertThat(artist.see("mix-note", "Sent.")).isVisible();
    assertEquals("playing", artist.probe().words("phase"));

    List<Map<String, Object>> notes = owner.get("/songs/" + song + "/notes").path("");
    assertEquals(List.of(ASK), notes.stream().map(n -> n.get("text")).toList());
    double from = number(notes.get(0), "from");
    assertEquals(typedAt - 2, from, 0.05);
    assertEquals("At Chorus 1, 0:" + (int) from, place);
    assertTrue(reading.contains("Lead vocal up, 2 dB at 0:" + (int) from), reading);

    Locator ask = engineer.page.locator("tr#s-chorus-1 .ask");
    assertThat(ask).containsText("Up, 2 dB");
    assertThat(ask).containsText("Iris");
    engineer.see("summary", "One note, as written").click();
    assertThat(engineer.see("ul.lines li", ASK)).containsText("Chorus 1, 0:" + (int) from);
    assertEquals(true, engineer.page.evaluate("() => window.sameDocument"), "no reload");
    engineer.picture("note-came");
  }

  private void pressStripAt(Screen screen, double seconds) {
    Locator strip = screen.page.locator("canvas.strip");
    double width = strip.boundingBox().width;
    double length =
        ((Number)
                screen.page.evaluate(
                    "() => document.querySelector('page-song').player.state.seconds"))
            .doubleValue();
    strip.click(new Locator.ClickOptions().setPosition(width * seconds / length, 10));
  }

  private String invitation(String role) {
    return "/join/" + Band.invite(owner, project, role);
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

  private void send(String bounce) {
    owner.post("/bounces/" + bounce + "/sending", Map.of()).then().statusCode(200);
  }

  private static double number(Map<String, Object> of, String name) {
    return ((Number) of.get(name)).doubleValue();
  }
}
