package org.mixaccord.acceptance;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.junit.jupiter.api.Assertions.assertEquals;

import com.microsoft.playwright.Locator;
import com.microsoft.playwright.assertions.PlaywrightAssertions;
import com.microsoft.playwright.options.LoadState;
import io.quarkus.test.common.QuarkusTestResource;
import io.quarkus.test.common.http.TestHTTPResource;
import io.quarkus.test.junit.QuarkusTest;
import java.time.Duration;
import java.util.List;
import org.awaitility.Awaitility;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.mixaccord.PostgresForTests;
import org.mixaccord.acceptance.Screens.Screen;
import org.mixaccord.web.Chromium;

/** Listening without names on a phone, and the engineer's own test and recall at a desk. */
@QuarkusTest
@QuarkusTestResource(PostgresForTests.class)
class BlindPickInBrowserTest extends TwoMixesStage {
  @TestHTTPResource String server;

  private Screens screens;

  @BeforeEach
  void twoSentMixes() {
    Chromium.orSkip();
    PlaywrightAssertions.setDefaultAssertionTimeout(20_000);
    twoMixes();
    Awaitility.await()
        .atMost(Duration.ofSeconds(60))
        .until(
            () ->
                band.engineer().get("/bounces/" + two + "/recall?with=" + one).statusCode() == 200);
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
    desk.page.navigate("/songs/" + band.song());
    return desk;
  }

  @Test
  void theEngineerOffersAndEverybodyHearsBothAndPicksOnce() {
    Screen desk = desk();
    desk.page.getByText("Let people choose without names").click();
    Locator form = desk.page.locator("mix-blind form");
    form.getByLabel("Where").selectOption("Chorus 1");
    desk.button("Offer it").click();
    assertThat(desk.see("mix-blind", "Not picked yet:")).isVisible();

    Screen phone = screens.phoneBehind("artist", server, band.artist().cookie());
    phone.page.navigate("/songs/" + band.song());
    Locator part = phone.page.locator("mix-blind");
    assertThat(part).containsText("Chorus 1");
    assertThat(part).not().containsText("Mix 1");
    assertThat(phone.button("No difference to me")).isDisabled();
    phone.page.getByText("Hear the first").click();
    assertThat(part.locator("[aria-pressed=true]")).containsText("sounding");
    assertThat(phone.button("No difference to me")).isDisabled();
    phone.page.getByText("Hear the second").click();
    assertThat(part.locator("[aria-pressed=true]")).containsText("second");
    assertThat(phone.button("The second")).isEnabled();
    part.scrollIntoViewIfNeeded();
    screens.pictures("blind-pick");
    assertEquals(0, phone.overhang());
    phone.button("The second").click();
    assertThat(part).containsText("You picked the second. That stays.");
    // The artist has the last word, so now they are told, and nobody else is.
    assertThat(part).containsText("Only you, with the last word, see this");
    assertThat(part.locator(".picked li")).hasCount(1);
    assertThat(desk.see("mix-blind", "Not picked yet: Owner and Milo.")).isVisible();
    assertThat(desk.page.locator("mix-blind .picked")).hasCount(0);
    screens.pictures("blind-picked");
    assertEquals(0, phone.overhang());
    assertEquals(List.of(), screens.complaints());
  }

  @Test
  void recallIsReadAndHeardAndAListeningTestEndsWithItsScore() {
    Screen desk = desk();
    Locator recall = desk.page.locator("mix-recall");
    assertThat(recall).containsText("The same except Chorus 1 (0:09–0:17): ");
    recall.getByText("Before", new Locator.GetByTextOptions().setExact(true)).click();
    desk.until("player.playing && state.loop && state.sounding === state.other.id");
    recall.getByText("After", new Locator.GetByTextOptions().setExact(true)).click();
    desk.until("player.playing && state.sounding === state.lead.id");

    desk.page.evaluate("document.querySelector('page-song').player.setLoop({from: 3, to: 6})");
    desk.page.getByText("Can you hear the difference?").click();
    Locator test = desk.page.locator("mix-abx");
    assertThat(test.getByLabel("Where").locator("option:checked"))
        .hasText("what goes round now, 0:03 to 0:06");
    test.getByLabel("How many times, 5 to 50").fill("5");
    test.getByText("Begin", new Locator.GetByTextOptions().setExact(true)).click();
    for (int trial = 1; trial <= 5; trial++) {
      assertThat(test.locator("h3")).hasText("0:03 to 0:06: " + trial + " of 5");
      test.getByText("X", new Locator.GetByTextOptions().setExact(true)).click();
      assertThat(test.locator("[aria-pressed=true]")).containsText("sounding");
      // Only one thing plays at a time.
      desk.until("!player.playing");
      assertThat(test).not().containsText("right");
      if (trial == 2) {
        screens.pictures("abx");
      }
      desk.button("X is A").click();
    }
    assertThat(test).containsText("of 5 right. By guessing alone");
    desk.page.waitForLoadState(LoadState.NETWORKIDLE);
    desk.page.setViewportSize(390, 844);
    assertEquals(0, desk.overhang());
    screens.pictures("abx-over");
    assertEquals(List.of(), screens.complaints());
  }
}
