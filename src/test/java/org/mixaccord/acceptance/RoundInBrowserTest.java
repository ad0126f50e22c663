package org.mixaccord.acceptance;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.microsoft.playwright.Locator;
import com.microsoft.playwright.assertions.PlaywrightAssertions;
import com.microsoft.playwright.options.FilePayload;
import io.quarkus.test.common.QuarkusTestResource;
import io.quarkus.test.common.http.TestHTTPResource;
import io.quarkus.test.junit.QuarkusTest;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.regex.Pattern;
import org.awaitility.Awaitility;
import org.junit.jupiter.api.BeforeEach;
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
  private static final String DONE = "Vocal up in the chorus, nothing else.";

  @TestHTTPResource String server;

  private Screens screens;
  private Api owner;
  private String project;
  private String song;
  private Screen engineer;
  private Screen artist;
  private Screen manager;

  @BeforeEach
  void needsABrowser() {
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
        String change = theEngineerSeesTheNoteComeIn();
        String mix3 = theNextPassIsPrivate(change);
        theEngineerSendsItWithOneLine(mix3);
        theArtistHearsBeforeAndAfter(change, mix2, mix3);
        theManagerApproves(mix3);
        theSameAudioStaysApproved(mix3);
        oneAlteredSampleAsksAgain();
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
    keep(artist, "0-invited");
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
    artist.until("probe.sounding === '" + mix1 + "' && probe.way === 'clock' && state.levels");
    artist.until("probe.positionFrame['" + mix1 + "'] > 0");
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
                    + "   gainDb: player.state.levels.gainsDb[0],"
                    + "   otherGainDb: player.state.levels.gainsDb[1],"
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

  private String theEngineerSeesTheNoteComeIn() {
    engineer = screens.desk("engineer");
    engineer.page.navigate("/songs/" + song);
    engineer.page.getByLabel("E-mail").fill(Owner.EMAIL);
    engineer.page.getByLabel("Password").fill(Owner.PASSWORD);
    engineer.button("Sign in").click();
    assertThat(engineer.see("ul.sum", "Nobody has asked for anything.")).isVisible();
    engineer.button("Set the two against each other").click();
    assertThat(engineer.page.locator(".even .level"))
        .containsText("Mix 2 plays quieter so that both are equal. −2.6 dB over the song");
    engineer.page.evaluate("() => { window.sameDocument = true; }");

    if (!(boolean) artist.page.evaluate("document.querySelector('page-song').player.playing")) {
      // On a busy machine the song has ended meanwhile.
      artist.button("Play").click();
    }
    pressStripAt(artist, 11.5);
    artist.until("player.position() > 13 && probe.phase === 'playing'");
    artist.page.evaluate(
        "() => document.addEventListener('input', () => {"
            + " window.typedAt = document.querySelector('page-song').player.position(); },"
            + " {capture: true, once: true})");
    artist.page.locator("mix-note textarea").pressSequentially(ASK);
    String reading = artist.see("mix-note ul.read li", "Lead vocal").textContent();
    String place = artist.page.locator("#note-place").textContent();
    double typedAt = ((Number) artist.page.evaluate("() => window.typedAt")).doubleValue();
    keep(artist, "1-writes");
    artist.button("Send note").click();
    assertThat(artist.see("mix-note", "Sent.")).isVisible();
    assertEquals("playing", artist.probe().words("phase"));

    List<Map<String, Object>> notes = owner.get("/songs/" + song + "/notes").path("");
    assertEquals(List.of(ASK), notes.stream().map(n -> n.get("text")).toList());
    double from = number(notes.get(0), "from");
    assertEquals(typedAt - 2, from, 0.05);
    String clock = "0:%02d".formatted((int) from);
    assertEquals("At Chorus 1, " + clock, place);
    assertTrue(reading.contains("Lead vocal up, 2 dB at " + clock), reading);

    Locator ask = engineer.page.locator("tr#s-chorus-1 .ask");
    assertThat(ask).containsText("Up, 2 dB");
    assertThat(ask).containsText("Iris");
    engineer.see("summary", "One note, as written").click();
    assertThat(engineer.see("ul.lines li", ASK)).containsText("Chorus 1, " + clock);
    assertEquals(true, engineer.page.evaluate("() => window.sameDocument"), "no reload");
    keep(engineer, "2-note-came");
    List<String> changes = owner.get("/songs/" + song + "/changes").path("id");
    assertEquals(1, changes.size());
    return changes.get(0);
  }

  /** Brought in by the engineer, and marked as what was asked for. */
  private String theNextPassIsPrivate(String change) {
    String mix3 = broughtInOnThePage("third.wav", "Pass 3", Takes.third().wav());
    engineer.button("Done in Pass 3").click();
    assertThat(engineer.see(".told", "is marked as done in Pass 3.")).isVisible();
    assertEquals("done", owner.get("/changes/" + change).path("state"));

    Api iris = Api.with(artist.cookie());
    for (String path : List.of("", "/audio", "/listening", "/measurements")) {
      iris.get("/bounces/" + mix3 + path).then().statusCode(404);
    }
    List<String> heard = iris.get("/songs/" + song + "/bounces").path("label");
    assertEquals(List.of("Mix 1", "Mix 2"), heard);
    assertEquals("asked", iris.get("/changes/" + change).path("state"));
    artist.page.reload();
    assertThat(artist.page.locator("tr#s-chorus-1, li#s-chorus-1")).containsText("asked");
    artist.until("state.lead.label === 'Mix 2' && state.mapped");
    assertThat(artist.page.locator("body")).not().containsText("Pass 3");
    return mix3;
  }

  private void theEngineerSendsItWithOneLine(String mix3) {
    assertThat(engineer.see("section", "Send as Mix 3"))
        .containsText("One change will show as done");
    engineer.page.getByLabel("What was done, in one line").fill(DONE);
    keep(engineer, "3-before-sending");
    engineer.button("Send Mix 3").click();
    assertThat(engineer.see(".told", "Sent.")).isVisible();
    assertEquals(DONE, owner.get("/bounces/" + mix3).path("message"));
  }

  private void theArtistHearsBeforeAndAfter(String change, String mix2, String mix3) {
    assertThat(artist.see(".slip", DONE)).isVisible();
    artist.see(".turn button", "Before").click();
    artist.until("probe.sounding === '" + mix2 + "' && probe.phase === 'playing' && state.loop");
    // Crossing over before the first sample is due has no frame to tell.
    artist.until("probe.positionFrame['" + mix2 + "'] > 0");
    assertThat(artist.see(".turn button", "Before")).containsText("Mix 2, sounding");
    artist.see(".turn button", "After").click();
    artist.until("probe.sounding === '" + mix3 + "' && probe.phase === 'playing'");
    assertThat(artist.see(".turn button", "After")).containsText("Mix 3, sounding");
    Probe crossing = artist.probe().lastSwitch();
    assertEquals(mix2, crossing.words("from"));
    assertEquals(crossing.frameOf(mix2), crossing.frameOf(mix3));
    double second = crossing.frameOf(mix3) / (double) Takes.RATE + Takes.LATE_SECONDS;
    assertTrue(second >= Takes.CHORUS_FROM && second < Takes.CHORUS_TO, "chorus: " + second);
    keep(artist, "4-before-and-after");
    artist.button("Good").click();
    assertThat(artist.page.locator(".ask-done")).hasCount(0);
    assertThat(artist.page.locator("li#s-chorus-1")).containsText("Lead vocal, yours: good");
    assertEquals("good", owner.get("/changes/" + change).path("state"));
  }

  private void theManagerApproves(String mix3) {
    manager = screens.desk("manager");
    manager.page.navigate(invitation("manager"));
    manager.page.getByLabel("Your name").fill("Milo");
    manager.button("Play").click();
    manager.until("probe.phase === 'playing' && probe.elementTime > 0.3");
    manager.page.navigate("/");
    assertThat(manager.see("tr", "Slack Tide")).containsText("You approve Mix 3");
    keep(manager, "5-board");
    manager.link("Slack Tide").click();
    assertThat(manager.see("approve-decide", "Everything asked for is done")).isVisible();
    keep(manager, "6-approve");
    manager.button("Approve Mix 3").click();
    assertThat(manager.see("approve-decide ul.lines li", "You approved it"))
        .containsText("heard lossless");
    Map<String, Object> approval = onlyApprovalOf(mix3);
    assertEquals("valid", approval.get("state"));
    assertEquals(owner.get("/bounces/" + mix3).path("file.pcmSha256"), approval.get("pcmSha256"));
    keep(manager, "7-approved");
  }

  private void theSameAudioStaysApproved(String mix3) {
    String mix4 = broughtInOnThePage("third.aiff", "Pass 4", Takes.third().aiff());
    sent("Mix 4");
    manager.page.navigate("/");
    assertThat(manager.see("tr", "Slack Tide")).containsText("Mix 4 approved");
    manager.link("Slack Tide").click();
    manager.link("approval").click();
    assertThat(manager.see("approve-decide ul.lines li", "You approved it")).isVisible();
    assertThat(manager.page.locator(".decide")).containsText("You have decided on Mix 4");
    assertThat(manager.page.locator("main")).containsText("It is the very same audio.");
    assertEquals(mix3, onlyApprovalOf(mix4).get("from"));
    assertThat(manager.button("Approve Mix 4")).hasCount(0);
    keep(manager, "8-stays-approved");
  }

  private void oneAlteredSampleAsksAgain() {
    String mix5 = broughtInOnThePage("third again.wav", "Pass 5", Takes.third().oneStepOff().wav());
    sent("Mix 5");
    manager.page.navigate("/");
    assertThat(manager.see("tr", "Slack Tide")).containsText("You approve Mix 5");
    manager.link("Slack Tide").click();
    assertThat(manager.button("Approve Mix 5")).isEnabled();
    assertThat(manager.page.locator("main")).not().containsText("You approved it");
    assertEquals(List.of(), owner.get("/bounces/" + mix5 + "/approvals").path(""));
    keep(manager, "9-asked-again");
  }

  /** Through the page, as its engineer does; opens it and returns its id. */
  private String broughtInOnThePage(String name, String pass, byte[] bytes) {
    engineer
        .page
        .locator("mix-upload:not([stems]) input[type=file]")
        .setInputFiles(new FilePayload(name, "audio/wav", bytes));
    engineer.button("Bring this file").click();
    assertThat(engineer.see(".newer", pass + " is here.")).containsText("It is private.");
    engineer.button("Open " + pass).click();
    engineer.until("state.lead.label === '" + pass + "' && state.mapped");
    return (String)
        engineer.page.evaluate("() => document.querySelector('page-song').player.state.lead.id");
  }

  /** The words about the mix before may still stand there, so the mix itself is looked at. */
  private void sent(String mix) {
    engineer.button("Send " + mix).click();
    assertThat(engineer.button("Send " + mix)).hasCount(0);
    assertThat(engineer.page.locator("body")).containsText(Pattern.compile(mix + "\\s*sent today"));
  }

  private Map<String, Object> onlyApprovalOf(String bounce) {
    List<Map<String, Object>> given = owner.get("/bounces/" + bounce + "/approvals").path("");
    assertEquals(1, given.size());
    return given.get(0);
  }

  /** A picture of a moment that matters; nothing may stick out at the side. */
  private static void keep(Screen screen, String moment) {
    assertEquals(0, screen.overhang(), moment);
    screen.picture(moment);
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
