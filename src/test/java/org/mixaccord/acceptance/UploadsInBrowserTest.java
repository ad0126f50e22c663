package org.mixaccord.acceptance;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.google.gson.JsonObject;
import com.microsoft.playwright.CDPSession;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Route;
import com.microsoft.playwright.assertions.PlaywrightAssertions;
import com.microsoft.playwright.options.Cookie;
import io.quarkus.test.common.QuarkusTestResource;
import io.quarkus.test.common.http.TestHTTPResource;
import io.quarkus.test.junit.QuarkusTest;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Queue;
import java.util.Set;
import java.util.concurrent.ConcurrentLinkedQueue;
import org.awaitility.Awaitility;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.mixaccord.PostgresForTests;
import org.mixaccord.acceptance.Screens.Screen;
import org.mixaccord.web.Chromium;

/** Files brought on the page: several at once, over a line that breaks, through a reload. */
@QuarkusTest
@QuarkusTestResource(PostgresForTests.class)
class UploadsInBrowserTest {
  private static final int SLOW_BYTES_PER_SECOND = 1_000_000;
  private static final double SECONDS = 9_000_000.0 / (2 * 3 * Takes.RATE);
  private static final int FILE_INPUT = 0;

  @TestHTTPResource String server;
  @TempDir Path disk;

  private Api engineer;
  private String song;

  @BeforeEach
  void aSong() {
    Chromium.orSkip();
    PlaywrightAssertions.setDefaultAssertionTimeout(30_000);
    engineer = Owner.signedIn();
    String project =
        engineer.make("/projects", Map.of("title", "Harbour Lights", "artist", "The Invented"));
    song = engineer.make("/projects/" + project + "/songs", Map.of("title", "Slack Tide"));
  }

  @Test
  void severalFilesGoTwoAtATimeAndOneIsCancelled() throws IOException {
    try (Screens screens = new Screens(server)) {
      Screen desk = signedIn(screens.desk("engineer"));
      Line line = new Line(desk);
      Queue<String> begun = new ConcurrentLinkedQueue<>();
      desk.page.onResponse(
          answer -> {
            String location = answer.headers().get("location");
            if (answer.status() == 201 && answer.url().endsWith("/uploads") && location != null) {
              begun.add(location);
            }
          });
      line.slow();
      Path[] files = {
        take("one.wav", 0), take("two.wav", 1), take("three.wav", 2), take("four.wav", 3)
      };
      choose(desk, files);
      assertThat(rows(desk, "sending")).hasCount(2);
      assertThat(rows(desk, "waiting")).hasCount(2);
      assertThat(desk.page.locator(".sending summary")).containsText("MB/s");
      assertThat(desk.page.locator(".sending summary")).containsText("left");
      desk.page.locator(".sending summary").click();
      desk.page.locator(".sending").getByLabel("Cancel: two.wav").click();
      assertThat(rows(desk, "sending")).hasCount(2);
      line.free();
      assertThat(rows(desk, "arrived")).hasCount(3);
      assertThat(desk.see(".sending summary", "Three files have arrived.")).isVisible();
      assertEquals(
          Set.of(sha256(files[0]), sha256(files[2]), sha256(files[3])), Set.copyOf(hashes()));
      // What was cancelled is gone from the server too, if it had got that far.
      Awaitility.await()
          .until(
              () ->
                  begun.stream()
                          .filter(
                              address ->
                                  engineer
                                          .as()
                                          .header("Tus-Resumable", "1.0.0")
                                          .head(address)
                                          .statusCode()
                                      != 404)
                          .count()
                      == 3);
      assertEquals(List.of(), screens.complaints());
    }
  }

  @Test
  void aLineThatIsCutGoesOnWhereItStopped() throws IOException {
    try (Screens screens = new Screens(server)) {
      Screen desk = signedIn(screens.desk("engineer"));
      Line line = new Line(desk);
      List<Long> offsets = offsets(desk);
      line.slow();
      Path file = take("one.wav", 0);
      choose(desk, file);
      sentMoreThan(desk, 1_500_000);
      line.cut();
      assertThat(desk.see(".sending summary", "The line is down.")).isVisible();
      // Inside the page one goes on; the line stays above every page.
      desk.link("All songs").click();
      assertThat(desk.see(".sending summary", "The line is down.")).isVisible();
      line.free();
      assertThat(desk.see(".sending summary", "One file has arrived.")).isVisible();
      assertEquals(List.of(sha256(file)), hashes());
      assertTrue(offsets.size() > 1 && offsets.get(offsets.size() - 1) > 500_000, "" + offsets);
    }
  }

  @Test
  void afterAReloadTheSameFileGoesOnWhereItStopped() throws IOException {
    try (Screens screens = new Screens(server)) {
      Screen desk = signedIn(screens.desk("engineer"));
      Line line = new Line(desk);
      line.slow();
      Path file = take("one.wav", 0);
      choose(desk, file);
      sentMoreThan(desk, 1_500_000);
      List<String> asked = new ArrayList<>();
      desk.page.onDialog(
          dialog -> {
            asked.add(dialog.type());
            dialog.accept();
          });
      desk.page.reload();
      assertEquals(List.of("beforeunload"), asked);
      line.free();
      assertThat(desk.see(".sending summary", "One file did not arrive completely.")).isVisible();
      desk.page.locator(".sending summary").click();
      assertThat(rows(desk, "left")).containsText("% of 9.0 MB is there");

      Path other = disk.resolve("other").resolve("one.wav");
      Files.createDirectories(other.getParent());
      Files.write(other, Files.readAllBytes(take("one again.wav", 1)));
      Locator again = desk.page.locator(".sending input[type=file]").nth(FILE_INPUT);
      again.setInputFiles(other);
      assertThat(desk.see(".sending", "is not the same file any more")).isVisible();

      List<Long> offsets = offsets(desk);
      again.setInputFiles(file);
      assertThat(desk.see(".sending summary", "One file has arrived.")).isVisible();
      assertEquals(List.of(sha256(file)), hashes());
      assertTrue(offsets.get(0) > 500_000, "" + offsets);
      desk.button("Put away").first().click();
      assertThat(desk.page.locator(".sending")).hasCount(0);
      desk.page.reload();
      assertThat(desk.see("h1", "Slack Tide")).isVisible();
      assertThat(desk.page.locator(".sending")).hasCount(0);
    }
  }

  @Test
  void aFileTheBrowserKnowsAgainGoesOnWithOnePress() {
    try (Screens screens = new Screens(server)) {
      Screen desk = screens.desk("engineer");
      // The browser's own disk stands in for the one its picker shows.
      desk.page.addInitScript(
          "window.showOpenFilePicker = async () => [await"
              + " (await navigator.storage.getDirectory()).getFileHandle('one.wav')]");
      signedIn(desk);
      String hash =
          (String)
              desk.page.evaluate(
                  "async () => { const bytes = new Uint8Array(6e6).map((_, i) => (i * i) >> 7);"
                      + " const disk = await navigator.storage.getDirectory();"
                      + " const out = await (await disk.getFileHandle('one.wav', {create: true}))"
                      + ".createWritable(); await out.write(bytes); await out.close();"
                      + " const hash = new Uint8Array(await crypto.subtle.digest('SHA-256', bytes));"
                      + " return [...hash].map((b) => b.toString(16).padStart(2, '0')).join(''); }");
      Line line = new Line(desk);
      line.slow();
      desk.page.locator("mix-upload:not([stems]) input[type=file]").click();
      desk.page.locator("mix-upload:not([stems]) .look-end .btn.main").click();
      sentMoreThan(desk, 1_500_000);
      desk.page.onDialog(dialog -> dialog.accept());
      desk.page.reload();
      line.free();
      List<Long> offsets = offsets(desk);
      desk.button("Go on with it").click();
      assertThat(desk.see(".sending summary", "One file has arrived.")).isVisible();
      assertEquals(List.of(hash), hashes());
      assertTrue(offsets.get(0) > 500_000, "" + offsets);
    }
  }

  @Test
  void whatPassesByWaitingIsWaitedForAndWhatDoesNotIsSaid() throws IOException {
    try (Screens screens = new Screens(server)) {
      Screen desk = signedIn(screens.desk("engineer"));
      List<String> answers =
          new ArrayList<>(List.of("429 slow-down Too many at once.", "413 too-large Too large."));
      desk.page.route(
          "**/api/v1/uploads",
          route -> {
            if (answers.isEmpty()) {
              route.resume();
              return;
            }
            String[] answer = answers.remove(0).split(" ", 3);
            route.fulfill(
                new Route.FulfillOptions()
                    .setStatus(Integer.parseInt(answer[0]))
                    .setHeaders(Map.of("Retry-After", "6"))
                    .setContentType("application/problem+json")
                    .setBody("{\"code\":\"" + answer[1] + "\",\"detail\":\"" + answer[2] + "\"}"));
          });
      Path file = take("one.wav", 0);
      choose(desk, file);
      assertThat(desk.see(".sending summary", "Too many at once. It goes on by itself."))
          .isVisible();
      assertThat(desk.see(".sending summary", "One file was not taken.")).isVisible();
      desk.page.locator(".sending summary").click();
      assertThat(desk.see(".sending li", "Too large.")).isVisible();
      Line line = new Line(desk);
      line.slow();
      desk.page.locator(".sending").getByLabel("Again: one.wav").click();
      sentMoreThan(desk, 1_500_000);

      // Signed out in the middle, and in again in another tab.
      desk.page.context().clearCookies();
      assertThat(desk.see(".sending summary", "You have been signed out.")).isVisible();
      line.free();
      cookie(desk);
      assertThat(desk.see(".sending summary", "One file has arrived.")).isVisible();
      assertEquals(List.of(sha256(file)), hashes());
    }
  }

  private Screen signedIn(Screen screen) {
    cookie(screen);
    screen.page.navigate("/songs/" + song);
    return screen;
  }

  private void cookie(Screen screen) {
    screen
        .page
        .context()
        .addCookies(List.of(new Cookie("mixaccord_session", engineer.cookie()).setUrl(server)));
  }

  private static void choose(Screen screen, Path... files) {
    screen.page.locator("mix-upload:not([stems]) input[type=file]").setInputFiles(files);
    screen.page.locator("mix-upload:not([stems]) .look-end .btn.main").click();
  }

  private static Locator rows(Screen screen, String phase) {
    return screen.page.locator(".sending [data-phase=" + phase + "]");
  }

  /** Nine megabytes on the disk, each number another tone of the same length. */
  private Path take(String name, int number) throws IOException {
    double[] tone = Sound.sine(Takes.RATE, 200 + 50 * number, -20, SECONDS);
    return Files.write(disk.resolve(name), Sound.wav(Takes.RATE, tone, tone));
  }

  private static String sha256(Path file) throws IOException {
    return UploadStage.sha256(Files.readAllBytes(file));
  }

  private List<String> hashes() {
    return engineer.get("/songs/" + song + "/bounces").jsonPath().getList("file.sha256");
  }

  private static void sentMoreThan(Screen screen, int bytes) {
    screen.page.waitForFunction(
        "(bytes) => document.querySelector('mix-sending').queue.items.value.some((one) =>"
            + " one.sent > bytes)",
        bytes);
  }

  /** The offsets at which pieces were sent from now on. */
  private static List<Long> offsets(Screen screen) {
    List<Long> offsets = new ArrayList<>();
    screen.page.onRequest(
        request -> {
          if (request.method().equals("PATCH") && request.url().contains("/uploads/")) {
            offsets.add(Long.parseLong(request.headers().get("upload-offset")));
          }
        });
    return offsets;
  }

  /** The way from a browser to the server. */
  private static final class Line {
    private final CDPSession session;

    Line(Screen screen) {
      session = screen.page.context().newCDPSession(screen.page);
      session.send("Network.enable");
    }

    void slow() {
      is(false, SLOW_BYTES_PER_SECOND);
    }

    void cut() {
      is(true, -1);
    }

    void free() {
      is(false, -1);
    }

    private void is(boolean offline, int uploadBytesPerSecond) {
      JsonObject conditions = new JsonObject();
      conditions.addProperty("offline", offline);
      conditions.addProperty("latency", 0);
      conditions.addProperty("downloadThroughput", -1);
      conditions.addProperty("uploadThroughput", uploadBytesPerSecond);
      session.send("Network.emulateNetworkConditions", conditions);
    }
  }
}
