package org.mixaccord.acceptance;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import io.quarkus.test.common.QuarkusTestResource;
import io.quarkus.test.common.http.TestHTTPResource;
import io.quarkus.test.junit.QuarkusTest;
import java.io.IOException;
import java.net.URI;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.awaitility.Awaitility;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.mixaccord.PostgresForTests;
import org.mixaccord.acceptance.Screens.Screen;
import org.mixaccord.web.Chromium;
import org.mixaccord.web.SlowLine;

/** Listening on a phone over a line of 300 kbit/s, 400 ms round trip and 2 % loss. */
@QuarkusTest
@QuarkusTestResource(PostgresForTests.class)
class SlowLineInBrowserTest extends UploadStage {
  private static final int BITS_PER_SECOND = 300_000;
  private static final int ROUND_TRIP_MILLIS = 400;
  private static final double LOSS = 0.02;
  private static final int VISITORS = 3;
  private static final int FIRST_OPENING_MILLIS = 90_000;

  @TestHTTPResource String server;

  @BeforeEach
  void needsABrowser() {
    Chromium.orSkip();
  }

  @Test
  void theLightCopyStartsAtOnceAndPlaysToTheEndWithoutAStall() throws IOException {
    String mix = measured("first.wav", Takes.first().wav());
    String listening = "/bounces/" + mix + "/listening";
    Awaitility.await().until(() -> band.engineer().get(listening).path("state").equals("ready"));
    band.engineer().post("/bounces/" + mix + "/sending", Map.of()).then().statusCode(200);

    try (SlowLine line =
            new SlowLine(
                URI.create(server).getPort(), BITS_PER_SECOND, ROUND_TRIP_MILLIS, LOSS, 5);
        Screens screens = new Screens(server)) {
      String address = "http://localhost:" + line.port();
      List<Double> atOnce = new ArrayList<>();
      for (int visitor = 0; visitor < VISITORS; visitor++) {
        Screen phone = screens.phoneBehind("slow-" + visitor, address, band.artist().cookie());
        phone.page.setDefaultTimeout(FIRST_OPENING_MILLIS);
        phone.page.setDefaultNavigationTimeout(FIRST_OPENING_MILLIS);
        opened(phone);
        atOnce.add(pressed(phone));
        assertEquals("light", phone.probe().words("copy"));
        if (visitor == 0) {
          assertThat(phone.page.locator("details.copy summary")).hasText("Light copy");
          phone.until("probe.elementTime > 23");
          phone.until("!player.playing && state.phase === 'ready'");
          assertEquals(List.of(), phone.probe().list("stalls"));
          comesBack(phone);
          screens.pictures("slow-line");
        }
        // The next one is to have the line alone.
        phone.page.navigate("about:blank");
      }
      // Which packets are lost is chance; three of the first 23 are enough to be heard as a wait.
      double begun = atOnce.stream().sorted().toList().get(VISITORS / 2);
      assertTrue(begun < 3, "seconds from the press to the first sound, each visitor: " + atOnce);
      assertTrue(line.lostShare() > 0.005, "share of lost packets: " + line.lostShare());
    }
    assertEquals(
        "light", band.artist().get("/bounces/" + mix + "/hearing").path("quality").toString());
  }

  /**
   * The second visit finds the page in the browser's store and sees next to nothing of the line.
   */
  private void comesBack(Screen phone) {
    opened(phone);
    assertEquals("light", phone.probe().words("copy"));
    phone.until("player.plain.element.readyState >= HTMLMediaElement.HAVE_METADATA");
    assertEquals("ready", phone.probe().words("phase"), "nobody has pressed yet");
    double again = pressed(phone);
    assertTrue(again < 3, "seconds from the press to the first sound, second visit: " + again);
    assertEquals("light", phone.probe().words("copy"));
  }

  private void opened(Screen phone) {
    phone.page.navigate("/songs/" + band.song());
    phone.until("state.phase === 'ready'");
  }

  /** Seconds from the press on Play until the place moves. */
  private static double pressed(Screen phone) {
    phone.page.evaluate(
        "() => { const player = document.querySelector('page-song').player;"
            + " const begun = document.querySelector('button.play');"
            + " window.startedAfter = new Promise((tell) => begun.addEventListener('click', () => {"
            + "   const pressed = performance.now();"
            + "   const look = () => player.probe().elementTime > 0"
            + "     ? tell((performance.now() - pressed) / 1000) : requestAnimationFrame(look);"
            + "   look(); }, { once: true })); }");
    phone.button("Play").click();
    return ((Number) phone.page.evaluate("startedAfter")).doubleValue();
  }
}
