package org.mixaccord.acceptance;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.microsoft.playwright.Download;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.assertions.PlaywrightAssertions;
import com.microsoft.playwright.options.AriaRole;
import io.quarkus.test.common.QuarkusTestResource;
import io.quarkus.test.common.http.TestHTTPResource;
import io.quarkus.test.junit.QuarkusTest;
import java.io.IOException;
import java.nio.file.Files;
import java.util.List;
import java.util.Map;
import java.util.regex.Pattern;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.mixaccord.PostgresForTests;
import org.mixaccord.acceptance.Screens.Screen;
import org.mixaccord.web.Chromium;

/** From words on a phone to a list worked to its end. */
@QuarkusTest
@QuarkusTestResource(PostgresForTests.class)
class ListInBrowserTest extends UploadStage {
  @TestHTTPResource String server;

  private Screens screens;
  private String mix;

  @BeforeEach
  void aSentMix() {
    Chromium.orSkip();
    PlaywrightAssertions.setDefaultAssertionTimeout(20_000);
    mix = measured("Ebb mix 1.wav", Takes.first().wav());
    band.engineer()
        .put(
            "/songs/" + band.song() + "/sections",
            Map.of("bounce", mix, "sections", Takes.SECTIONS))
        .then()
        .statusCode(200);
    band.engineer().post("/bounces/" + mix + "/sending", Map.of()).then().statusCode(200);
    screens = new Screens(server);
  }

  @AfterEach
  void close() {
    if (screens != null) {
      screens.close();
    }
  }

  private Screen desk() {
    Screen desk = screens.deskBehind("engineer", band.engineer().cookie());
    desk.page.navigate("/songs/" + band.song() + "/list");
    return desk;
  }

  private void writes(Screen phone, String words) {
    phone.page.locator("mix-note textarea").fill(words);
    phone.button("Send note").click();
    assertThat(phone.see("mix-note", "Sent.")).isVisible();
    assertThat(phone.page.locator("mix-note textarea")).hasValue("");
  }

  private static Locator line(Screen screen, String words) {
    return screen.see(".chg", words);
  }

  @Test
  void notesFromAPhoneAreSettledAndWorkedToDone() throws IOException {
    Screen phone = screens.phoneBehind("artist", server, band.artist().cookie());
    phone.page.navigate("/songs/" + band.song());
    phone.until("state.lead?.id === '" + mix + "'");
    writes(phone, "bass up 1 dB in verse 1 and chorus 1");
    writes(phone, "drums up a touch in the chorus");
    writes(phone, "can you fix the thing at the end");
    // One question at a time, answered with a press.
    Locator question = phone.see(".slip", "thing at the end");
    assertThat(question).isVisible();
    question.locator("button").first().click();
    assertThat(question).isHidden();
    // Somebody else wants the opposite; the artist has the last word.
    band.manager()
        .post(
            "/songs/" + band.song() + "/notes",
            Map.of("text", "drums down a touch in the chorus", "bounce", mix))
        .then()
        .statusCode(201);
    Locator against = phone.see(".slip", "Drums in Chorus 1");
    assertThat(against).isVisible();
    assertEquals(0, phone.overhang());
    against.locator("button", new Locator.LocatorOptions().setHasText("say")).first().click();
    assertThat(against).isHidden();

    Screen desk = desk();
    // One line becomes two, moves, and is put in other fields; the words stay.
    Locator bass = line(desk, "Bass: up, 1 dB");
    bass.locator(".tools summary").click();
    bass.getByText("Split…").click();
    bass.getByText("One line for each section").click();
    assertThat(desk.page.locator(".chg", new Page.LocatorOptions().setHasText("Bass: up, 1 dB")))
        .hasCount(2);
    Locator second = desk.see(".sect:has(h2:has-text('Chorus 1')) .chg", "Bass: up, 1 dB");
    second.locator(".tools summary").click();
    second.getByText("Edit…").click();
    second.getByLabel("How much").fill("2 dB");
    second.getByText("Keep it so").click();
    assertThat(line(desk, "Bass: up, 2 dB")).containsText("bass up 1 dB in verse 1 and chorus 1");
    // A time takes the place of the sections, what is no time is said at the field, and a section
    // takes the place of the time.
    Locator timed = line(desk, "Bass: up, 2 dB");
    timed.locator(".tools summary").click();
    timed.getByText("Edit…").click();
    timed.getByLabel("or at").fill("soon");
    timed.getByText("Keep it so").click();
    assertEquals(
        "A time like 1:05, or two like 1:05 to 1:20.",
        timed.getByLabel("or at").evaluate("e => e.validationMessage"));
    timed.getByLabel("or at").fill("0:02 to 0:03");
    timed.getByText("Keep it so").click();
    assertThat(line(desk, "Bass: up, 2 dB")).containsText("0:02 to 0:03");
    timed.locator(".tools summary").click();
    timed.getByText("Edit…").click();
    assertThat(timed.getByLabel("or at")).hasValue("0:02 to 0:03");
    timed.getByLabel("Chorus 1").check();
    assertThat(timed.getByLabel("or at")).hasValue("");
    timed.getByText("Keep it so").click();
    assertThat(desk.see(".sect:has(h2:has-text('Chorus 1')) .chg", "Bass: up, 2 dB")).isVisible();

    // A line of the engineer's own, and one written down for somebody.
    desk.page.getByText("Add a line").click();
    Locator own = desk.page.locator("mix-own-line form");
    own.locator("textarea").fill("keys down 1 dB in the outro");
    own.getByText("Put it on the list").click();
    assertThat(line(desk, "Keys: down, 1 dB")).isVisible();
    // What lies after the end of the song is said so.
    own.locator("textarea").fill("strings up at 5:00");
    own.getByText("Put it on the list").click();
    assertThat(line(desk, "Strings: up")).containsText("after the end of the mix (5:00)");
    // What the reader makes nothing of is a line too.
    own.locator("textarea").fill("call the studio about the headphones");
    own.getByText("Put it on the list").click();
    assertThat(line(desk, "call the studio about the headphones").locator("input").first())
        .isVisible();

    desk.page.getByText("Paste a conversation").click();
    desk.page
        .locator("mix-conversation textarea")
        .fill(
            "[13/05/2031, 14:05] Asta: guitars down a bit in verse 1\n"
                + "[13/05/2031, 14:06] Nobody Known: fine\n> tom louder\n");
    desk.button("Take it apart").click();
    // Put off, it is still there; quoted words can be taken in.
    desk.button("Not now").click();
    assertThat(desk.page.locator("mix-conversation textarea"))
        .hasValue(Pattern.compile("Nobody Known: fine"));
    desk.button("Take it apart").click();
    desk.see("mix-conversation summary", "One line left out").click();
    desk.see("mix-conversation button", "Take these words in").click();
    assertThat(desk.see("mix-conversation li", "tom louder"))
        .containsText("quoted by Nobody Known");
    desk.page.locator("mix-conversation li input").nth(2).uncheck();
    assertThat(desk.button("Keep two messages as notes")).isDisabled();
    desk.page.locator("mix-conversation li input").nth(1).uncheck();
    desk.button("Keep one message as notes").click();
    assertThat(desk.see("mix-conversation", "One note kept")).isVisible();
    assertThat(line(desk, "Guitars: down, a bit")).containsText("usually");

    desk.page.getByLabel("Asked by").selectOption("Asta");
    assertThat(line(desk, "Keys: down, 1 dB")).isHidden();
    desk.page.getByLabel("Asked by").selectOption("anybody");
    screens.pictures("list");

    // Two are worked as one, all of it is done with one press.
    for (String words : List.of("Guitars: down, a bit", "Bass: up, 2 dB")) {
      line(desk, words).locator("input[type=checkbox]").first().check();
    }
    desk.button("Work them as one").click();
    Locator joined = desk.see(".chg", "guitars down a bit in verse 1");
    assertThat(joined).containsText("bass up 1 dB in verse 1 and chorus 1");
    // Its row names both parts with their places.
    assertThat(joined).containsText("Guitars: down, a bit");
    assertThat(joined).containsText("Bass: up, 2 dB");
    assertThat(joined).containsText("Verse 1");
    assertThat(joined).containsText("Chorus 1");
    assertThat(joined.locator("a.loop")).hasCount(2);
    for (Locator box : desk.page.locator(".chg input[type=checkbox][aria-label^='Tick']").all()) {
      box.check();
    }
    // Nothing is done in the very mix it was asked on; the ticks wait for the next one.
    assertThat(desk.see(".act", "Mix 1 has been sent. Bring in the next mix")).isVisible();
    assertThat(desk.button("Done in Mix 1")).hasCount(0);
    int ticked = desk.page.locator(".chg input[type=checkbox]:checked").count();
    measured("Ebb mix 2.wav", Takes.second().wav());
    desk.page.reload();
    assertThat(desk.see(".act", ticked + " ticked")).isVisible();
    desk.page
        .getByRole(AriaRole.BUTTON, new Page.GetByRoleOptions().setName("Done in Pass 2"))
        .click();
    assertThat(desk.see(".tabs", "0 open")).isVisible();
    assertThat(desk.page.locator(".chg input[type=checkbox]:checked")).hasCount(0);

    desk.page.getByText("Take the list along").click();
    assertThat(desk.page.locator("mix-take-along textarea"))
        .hasValue(Pattern.compile("Done\n\u2013 [\\s\\S]*Keys: down, 1 dB"));
    Download pdf = desk.page.waitForDownload(() -> desk.link("Sheet to print").click());
    assertEquals("%PDF", new String(Files.readAllBytes(pdf.path()), 0, 4));
    assertEquals(0, desk.overhang());
    assertEquals(List.of(), screens.complaints());
  }

  @Test
  void aSpokenNoteIsListenedToAndWrittenDown() {
    Screen phone = screens.phoneBehind("artist", server, band.artist().cookie());
    phone.page.navigate("/songs/" + band.song());
    phone.until("state.lead?.id === '" + mix + "'");
    Locator speak = phone.page.locator("mix-memo button").first();
    // While the line is away the memo stays on the phone, also through a reload.
    phone.page.route("**/voice-memos*", route -> route.abort());
    speak.click();
    assertThat(speak).containsText("Recording, 0:02");
    speak.click();
    assertThat(phone.see("mix-memo", "waits here for the line")).isVisible();
    phone.page.unroute("**/voice-memos*");
    phone.page.reload();
    assertThat(phone.see("mix-memo", "It is kept as you spoke it")).isVisible();
    assertEquals(
        1, band.artist().get("/songs/" + band.song() + "/notes").jsonPath().getList("").size());

    Screen desk = desk();
    assertThat(desk.see(".sect", "To listen to")).isVisible();
    Number length =
        (Number)
            desk.page.evaluate(
                "async () => { const sound = document.querySelector('audio.memo-sound');"
                    + " sound.muted = true; await sound.play(); sound.pause(); return sound.duration; }");
    assertTrue(length.doubleValue() > 1.5 && length.doubleValue() < 60, "seconds " + length);
    desk.page.locator(".sect input[name=text]").fill("snare up 1 dB in verse 1");
    desk.button("Write it down").click();
    assertThat(line(desk, "Snare: up, 1 dB")).containsText("Asta");
    assertThat(desk.see(".sect h2", "To listen to")).isHidden();
    assertEquals(
        List.of(), screens.complaints().stream().filter(c -> !c.contains("voice-memos")).toList());
  }

  @Test
  void theListIsTakenAlongOnTheMixPeopleHeard() {
    String pass = measured("Ebb mix 2.wav", Takes.second().wav());
    Screen desk = desk();
    desk.page.getByText("Take the list along").click();
    Locator on = desk.page.getByLabel("With the places as they lie on");
    assertThat(on).hasValue(mix);
    Locator answer = desk.page.locator("mix-take-along textarea");
    on.selectOption(pass);
    assertThat(answer).hasValue(Pattern.compile("Slack Tide, Pass 2[\\s\\S]*"));
    on.selectOption(mix);
    assertThat(answer).hasValue(Pattern.compile("Slack Tide, Mix 1[\\s\\S]*"));
    on.selectOption(pass);
    assertThat(desk.link("Markers").first())
        .hasAttribute("href", Pattern.compile("work-sheet\\.mid\\?bounce=" + pass));
    Download silent = desk.page.waitForDownload(() -> desk.link("Markers alone").click());
    assertThat(desk.see(".fold", "Pass 2")).isVisible();
    assertTrue(silent.suggestedFilename().endsWith(".wav"), silent.suggestedFilename());
    assertEquals(List.of(), screens.complaints());
  }

  @Test
  void whatIsTypedStaysWhenSomebodyElseChangesTheLine() {
    band.artist()
        .post(
            "/songs/" + band.song() + "/notes",
            Map.of("text", "drums up a touch in the chorus", "bounce", mix))
        .then()
        .statusCode(201);
    Screen one = desk();
    Screen other = screens.deskBehind("engineer-2", band.engineer().cookie());
    other.page.navigate("/songs/" + band.song() + "/list");
    for (Screen screen : List.of(one, other)) {
      Locator drums = line(screen, "Drums: up, a touch");
      drums.locator(".tools summary").click();
      drums.getByText("Edit…").click();
    }
    Locator typed = other.page.getByLabel("How much");
    typed.fill("6 dB");
    one.page.getByLabel("How much").fill("4 dB");
    one.button("Keep it so").click();
    assertThat(line(one, "Drums: up, 4 dB")).isVisible();
    assertThat(other.see(".tools", "Somebody has changed this line meanwhile")).isVisible();
    assertThat(typed).hasValue("6 dB");
    other.button("Keep it so").click();
    assertThat(other.see(".chg [role=alert]", "changed")).isVisible();
    assertThat(typed).hasValue("6 dB");
    other.button("Begin with that").click();
    assertThat(typed).hasValue("4 dB");
    typed.fill("6 dB");
    other.button("Keep it so").click();
    assertThat(line(one, "Drums: up, 6 dB")).isVisible();
  }

  private Screen phoneOfABandThatGathers() {
    band.engineer()
        .patch("/projects/" + band.project(), Map.of("gatherNotes", true))
        .then()
        .statusCode(200);
    Screen phone = screens.phoneBehind("artist", server, band.artist().cookie());
    phone.page.navigate("/songs/" + band.song());
    phone.until("state.lead?.id === '" + mix + "'");
    return phone;
  }

  @Test
  void theBandsNotesAreSentByTheLastWordWithOnePress() {
    Screen phone = phoneOfABandThatGathers();
    phone.page.locator("mix-note textarea").fill("drums up a touch in the chorus");
    phone.button("Send note").click();
    assertThat(phone.see("mix-note", "Kept with the band’s notes. You send them")).isVisible();
    Locator waiting = phone.see("#band-notes", "Notes of one person wait to be sent.");
    assertThat(waiting).isVisible();
    assertEquals(0, phone.overhang());
    screens.pictures("band-notes");
    waiting.locator("button").click();
    assertThat(waiting).isHidden();
    assertEquals(
        1, band.engineer().get("/songs/" + band.song() + "/changes").jsonPath().getList("").size());
    assertEquals(List.of(), screens.complaints());
  }

  @Test
  void aGatheredMemoMayBeForTheEngineerAlone() {
    Screen phone = phoneOfABandThatGathers();
    phone.page.locator("mix-memo input[name=memo-only]").check();
    Locator speak = phone.page.locator("mix-memo button").first();
    speak.click();
    assertThat(speak).containsText("Recording, 0:02");
    speak.click();
    assertThat(phone.see("mix-memo", "It is kept as you spoke it")).isVisible();
    assertEquals(
        List.of(true),
        band.engineer().get("/songs/" + band.song() + "/notes").jsonPath().getList("engineerOnly"));
    assertEquals(List.of(), screens.complaints());
  }
}
