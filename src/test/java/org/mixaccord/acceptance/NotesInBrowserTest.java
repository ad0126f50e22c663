package org.mixaccord.acceptance;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.junit.jupiter.api.Assertions.assertEquals;

import com.microsoft.playwright.Locator;
import com.microsoft.playwright.assertions.PlaywrightAssertions;
import io.quarkus.test.common.QuarkusTestResource;
import io.quarkus.test.common.http.TestHTTPResource;
import io.quarkus.test.junit.QuarkusTest;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import org.awaitility.Awaitility;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.mixaccord.PostgresForTests;
import org.mixaccord.acceptance.Screens.Screen;
import org.mixaccord.web.Chromium;

/** Words somebody has begun to write are never lost, and never arrive twice. */
@QuarkusTest
@QuarkusTestResource(PostgresForTests.class)
class NotesInBrowserTest extends UploadStage {
  private static final String WORDS = "snare up 1 dB in the second verse";

  @TestHTTPResource String server;

  private Screens screens;
  private Screen phone;
  private String mix1;

  @BeforeEach
  void aPhoneWithASong() {
    Chromium.orSkip();
    PlaywrightAssertions.setDefaultAssertionTimeout(20_000);
    mix1 = sent("one.wav", 440);
    screens = new Screens(server);
    phone = screens.phoneBehind("artist", server, band.artist().cookie());
    phone.page.navigate("/songs/" + band.song());
  }

  @AfterEach
  void close() {
    if (screens != null) {
      screens.close();
    }
  }

  /** A control that turns writing round once turned the closing quotation mark round as well. */
  @Test
  void somebodysWordsTurnNothingRoundBesideThem() {
    String turned = "say \u202Ebass up 1 dB";
    band.artist()
        .post("/songs/" + band.song() + "/notes", Map.of("text", turned, "bounce", mix1))
        .then()
        .statusCode(201);
    phone.page.navigate("/songs/" + band.song() + "/list");
    Locator words = phone.page.locator(".said bdi").first();
    assertThat(words).isVisible();
    assertEquals("isolate", words.evaluate("e => getComputedStyle(e).unicodeBidi"));
    // The words as stored stay.
    assertEquals(
        turned,
        band.artist().get("/songs/" + band.song() + "/notes").jsonPath().getString("[0].text"));
  }

  /** What is said beside the wishes of a note is on the list too. */
  @Test
  void wordsBesideAWishStayOnTheList() {
    String text = "bass up 1 dB. It reminds me of the sea at night";
    band.artist()
        .post("/songs/" + band.song() + "/notes", Map.of("text", text, "bounce", mix1))
        .then()
        .statusCode(201);
    assertEquals(
        List.of("It reminds me of the sea at night"),
        band.artist().get("/songs/" + band.song() + "/notes").jsonPath().getList("[0].unread"));
    phone.page.navigate("/songs/" + band.song() + "/list");
    assertThat(phone.page.locator(".remarks")).containsText("It reminds me of the sea at night");
    assertThat(phone.page.locator(".remarks")).not().containsText("bass up");
  }

  @Test
  void aHalfWrittenNoteSurvivesAReloadWithItsPlaceAndIsHiddenFromOthers() {
    phone.until("state.phase === 'ready'");
    phone.page.evaluate("() => document.querySelector('page-song').player.seek(5.5)");
    write(WORDS);
    assertThat(place()).containsText("0:03");
    phone.page.reload();
    assertThat(field()).hasValue(WORDS);
    assertThat(place()).containsText("0:03");

    phone.reopen();
    signedInAs(band.manager());
    phone.page.navigate("/songs/" + band.song());
    assertThat(field()).hasValue("");
    assertThat(phone.page.locator("body")).not().containsText(WORDS);
    signedInAs(band.artist());
    phone.page.navigate("/songs/" + band.song());
    assertThat(field()).hasValue(WORDS);
    phone.button("Send note").click();
    assertThat(phone.see("mix-note", "Sent.")).isVisible();
    assertEquals(3.5, (Float) notes().get(0).get("from"), 0.01);
  }

  @Test
  void aNoteGoesOutOnceWhenTheLineIsBackForTheMixItWasWrittenOn() {
    write(WORDS);
    phone.page.context().setOffline(true);
    phone.button("Send note").click();
    assertThat(phone.see(".unsent li", WORDS))
        .containsText("as soon as the line is back, on Mix 1");
    assertEquals(List.of(), notes());
    phone.page.close();
    String mix2 = sent("two.wav", 550);

    phone.page.context().setOffline(false);
    phone.reopen();
    phone.page.navigate("/");
    Awaitility.await().atMost(Duration.ofSeconds(20)).until(() -> notes().size() == 1);
    phone.page.navigate("/songs/" + band.song());
    assertThat(phone.page.locator(".unsent")).hasCount(0);
    phone.until("state.lead?.label === 'Mix 2'");
    assertEquals(1, notes().size());
    assertEquals(mix1, notes().get(0).get("bounce"));
    assertEquals(WORDS, notes().get(0).get("text"));
    assertEquals(0, notesOn(mix2).stream().filter(n -> n.get("bounce").equals(mix2)).count());
  }

  /** The words are read anew a moment after typing; whoever sends sooner keeps the corrections. */
  @Test
  void aCorrectionHoldsWhenMoreIsTypedAndSentAtOnce() {
    write(WORDS);
    phone.page.locator("mix-note .read").getByText("Change").click();
    phone.button("I did not ask for this").click();
    write(WORDS + ", thanks!");
    phone.button("Send note").click();
    assertThat(phone.see("mix-note", "Sent.")).isVisible();
    assertEquals(WORDS + ", thanks!", notes().get(0).get("text"));
    assertEquals(
        List.of(),
        band.engineer().get("/songs/" + band.song() + "/changes").jsonPath().getList(""));
  }

  /** The answer gets lost, not the note: the page tries again, and the server knows it already. */
  @Test
  void aNoteWhoseAnswerWasLostIsNotWrittenTwice() {
    boolean[] lost = {false};
    phone.page.route(
        "**/api/v1/songs/*/notes",
        route -> {
          if (!route.request().method().equals("POST") || lost[0]) {
            route.resume();
            return;
          }
          lost[0] = true;
          route.fetch();
          route.abort("connectionreset");
        });
    write(WORDS);
    phone.button("Send note").click();
    assertThat(phone.see(".unsent li", "Not sent yet.")).isVisible();
    assertThat(phone.see("mix-note", "Sent.")).isVisible();
    assertThat(phone.page.locator(".unsent")).hasCount(0);
    assertEquals(1, notes().size());
  }

  @Test
  void aNoteBegunOnOneMixStaysThereWhenANewerOneIsOpened() {
    write(WORDS);
    sent("two.wav", 550);
    phone.button("Open Mix 2").click();
    phone.until("state.lead?.label === 'Mix 2'");
    assertThat(field()).hasValue(WORDS);
    assertThat(place()).containsText("on Mix 1");
    phone.page.reload();
    phone.until("state.lead?.label === 'Mix 2'");
    assertThat(field()).hasValue(WORDS);
    phone.button("Send note").click();
    assertThat(phone.see("mix-note", "Sent.")).isVisible();
    assertEquals(mix1, notes().get(0).get("bounce"));
  }

  @Test
  void whatIsRefusedForGoodSaysWhyAndKeepsTheWords() {
    String tooLong = "a".repeat(102_401);
    field().fill(tooLong);
    phone.button("Send note").click();
    assertThat(phone.see("mix-note .refused", "")).isVisible();
    assertThat(field()).hasValue(tooLong);
    field().fill(WORDS);
    phone.page.context().setOffline(true);
    phone.button("Send note").click();
    assertThat(phone.see(".unsent li", WORDS)).isVisible();

    String member =
        band.engineer()
            .get("/projects/" + band.project() + "/members")
            .path("find { it.name == 'Asta' }.id");
    band.engineer().delete("/projects/" + band.project() + "/members/" + member);
    phone.page.context().setOffline(false);
    phone.reopen();
    phone.page.navigate("/");
    assertThat(phone.see(".unsent li", WORDS)).containsText("Not sent.");
    assertEquals(List.of(), notes());
    phone.button("Don’t send it").click();
    assertThat(phone.page.locator(".unsent")).hasCount(0);
  }

  /** The engineer's bulk address answered the artist 403, so the two could not be put aside. */
  @Test
  void theLastWordSettlesThatNeitherOfTheTwoIsWanted() {
    asks(band.artist(), "up");
    asks(band.manager(), "down");
    phone.page.reload();
    phone.button("Neither of them").click();
    assertThat(phone.page.getByText("Neither of them")).hasCount(0);
    assertThat(phone.page.locator(".refused")).hasCount(0);
    List<Map<String, Object>> changes =
        band.engineer().get("/songs/" + band.song() + "/changes").path("");
    assertEquals(
        List.of("withdrawn", "withdrawn"), changes.stream().map(c -> c.get("state")).toList());
    assertEquals(
        List.of("settled: neither of them", "settled: neither of them"),
        changes.stream().map(c -> c.get("reason")).toList());
  }

  private void asks(Api who, String direction) {
    Map<String, Object> change =
        Map.of("element", "snare", "aspect", "level", "direction", direction, "where", List.of());
    who.post(
            "/songs/" + band.song() + "/notes",
            Map.of(
                "text",
                "snare " + direction,
                "bounce",
                mix1,
                "reading",
                Map.of("changes", List.of(change), "keeps", List.of())))
        .then()
        .statusCode(201);
  }

  private void write(String words) {
    field().fill(words);
  }

  private Locator field() {
    return phone.page.locator("mix-note textarea");
  }

  private Locator place() {
    return phone.page.locator("#note-place");
  }

  private void signedInAs(Api who) {
    phone
        .page
        .context()
        .addCookies(
            List.of(
                new com.microsoft.playwright.options.Cookie("mixaccord_session", who.cookie())
                    .setUrl(server)
                    .setHttpOnly(true)));
  }

  private List<Map<String, Object>> notes() {
    return band.engineer().get("/songs/" + band.song() + "/notes").path("");
  }

  private List<Map<String, Object>> notesOn(String mix) {
    return band.engineer().get("/songs/" + band.song() + "/notes?bounce=" + mix).path("");
  }

  private String sent(String name, double hz) {
    String mix = measured(name, Sound.wav(48_000, Sound.sine(48_000, hz, -20, 8)));
    band.engineer().post("/bounces/" + mix + "/sending", Map.of()).then().statusCode(200);
    return mix;
  }
}
