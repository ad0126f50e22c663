package org.mixaccord.acceptance;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.junit.jupiter.api.Assertions.assertEquals;

import com.microsoft.playwright.Locator;
import com.microsoft.playwright.assertions.PlaywrightAssertions;
import com.microsoft.playwright.options.Cookie;
import io.quarkus.test.common.QuarkusTestResource;
import io.quarkus.test.common.http.TestHTTPResource;
import io.quarkus.test.junit.QuarkusTest;
import io.restassured.path.json.JsonPath;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.awaitility.Awaitility;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.mixaccord.PostgresForTests;
import org.mixaccord.acceptance.Screens.Screen;
import org.mixaccord.web.Chromium;

/**
 * Many files at once: what their names say is looked over in one table and brought with one press.
 */
@QuarkusTest
@QuarkusTestResource(PostgresForTests.class)
class FoldersInBrowserTest {
  private static final int RATE = 48_000;
  private static final List<String> TITLES =
      List.of("Slack Tide", "Low Water", "Ebb", "Spindrift", "Kelp", "Fathom", "Lee Shore", "Neap");
  private static final Map<String, String> KINDS =
      Map.of("", "main", " Instrumental", "instrumental", " A Cappella", "a-cappella", " TV", "tv");

  @TestHTTPResource String server;
  @TempDir Path disk;

  private Api engineer;
  private String project;

  @BeforeEach
  void aProjectWithTwoSongs() {
    Chromium.orSkip();
    PlaywrightAssertions.setDefaultAssertionTimeout(60_000);
    engineer = Owner.signedIn();
    project =
        engineer.make("/projects", Map.of("title", "Harbour Lights", "artist", "The Invented"));
    TITLES.subList(0, 2).forEach(t -> song(t));
  }

  @Test
  void aFolderOfFortyFilesTakesOneConfirm() throws IOException {
    Path folder = Files.createDirectories(disk.resolve("Mixes"));
    int number = 0;
    for (String title : TITLES) {
      for (String kind : KINDS.keySet()) {
        sound(folder.resolve(title + " Mix 3" + kind + ".wav"), number++, 0.2);
      }
    }
    for (String other : List.of("._Ebb Mix 3.wav", "cover.jpg", "recall.txt", ".DS_Store")) {
      Files.write(folder.resolve(other), new byte[] {1, 2, 3});
    }
    for (String loose : List.of("mix 3.wav", "mix 4.wav", "mix 5.wav", "mix 6.wav")) {
      sound(folder.resolve(loose), number++, 0.2);
    }
    try (Screens screens = new Screens(server)) {
      Screen desk = signedIn(screens.desk("engineer"), "/projects/" + project);
      desk.see("summary", "Bring mixes").click();
      desk.page.locator("mix-upload input[webkitdirectory]").setInputFiles(folder);
      Locator rows = desk.page.locator(".look tbody tr");
      assertThat(rows).hasCount(36);
      assertThat(desk.see("mix-upload summary", "Four files left out")).isVisible();
      assertThat(desk.page.locator(".fresh input")).hasCount(6);
      Locator bring = desk.page.locator(".look-end .btn.main");
      assertThat(bring).isDisabled();
      for (String loose : List.of("mix 3.wav", "mix 4.wav", "mix 5.wav")) {
        desk.button("Leave out: " + loose).click();
      }
      desk.page.getByLabel("Song: mix 6.wav").selectOption("Another new song");
      Locator title = desk.page.locator(".fresh input").last();
      assertThat(title).isFocused();
      title.fill("Undertow");
      title.press("Tab");
      desk.page.getByLabel("Name when sent: Ebb Mix 3.wav").fill("Mix 3 alt");
      desk.page.getByLabel("Name when sent: Ebb Mix 3.wav").press("Tab");
      assertThat(bring).hasText("Bring 33 files");
      assertEquals(0, desk.overhang());
      desk.page.setViewportSize(390, 844);
      assertEquals(0, desk.overhang());
      bring.press("Enter");
      assertThat(desk.see(".sending summary", "33 files have arrived.")).isVisible();
      desk.page.setViewportSize(1440, 900);
      assertThat(desk.page.locator("table.songs tbody tr")).hasCount(9);
      // The name given is kept with the mix: another browser offers it too.
      desk = signedIn(screens.desk("engineer elsewhere"), "/projects/" + project);
      desk.link("Ebb").first().click();
      assertThat(desk.button("Send Mix 3 alt")).isVisible();
      assertThat(desk.page.getByLabel("Label")).hasValue("Mix 3 alt");
      assertEquals(List.of(), screens.complaints());
    }
    Map<String, String> songs = songs();
    assertEquals(9, songs.size());
    for (String title : TITLES) {
      JsonPath bounces = engineer.get("/songs/" + songs.get(title) + "/bounces").jsonPath();
      assertEquals(Set.copyOf(KINDS.values()), Set.copyOf(bounces.getList("kind")), title);
      String main = bounces.getString("find { it.kind == 'main' }.id");
      assertEquals(
          List.of(main, main, main), bounces.getList("findAll { it.kind != 'main' }.of"), title);
    }
    assertEquals(
        List.of("mix 6.wav"),
        engineer.get("/songs/" + songs.get("Undertow") + "/bounces").path("file.name"));
  }

  @Test
  void partFilesComeAllAtOnceAndEachPartCanBePutRight() throws IOException {
    String song = songs().get("Slack Tide");
    Path mix = sound(disk.resolve("Slack Tide Mix 1.wav"), 90, 2);
    String bounce =
        engineer
            .as()
            .contentType("application/octet-stream")
            .body(Files.readAllBytes(mix))
            .post("/api/v1/songs/" + song + "/bounces?filename=mix.wav")
            .path("id");
    Awaitility.await()
        .atMost(Duration.ofSeconds(60))
        .until(() -> "ready".equals(engineer.get("/bounces/" + bounce).path("state")));
    Path[] parts = {
      sound(disk.resolve("LV.wav"), 91, 2),
      sound(disk.resolve("kick in.wav"), 92, 2),
      sound(disk.resolve("bgv stack.wav"), 93, 2)
    };
    try (Screens screens = new Screens(server)) {
      Screen phone = signedIn(screens.phone("engineer"), "/projects/" + project);
      phone.see("summary", "Bring mixes").tap();
      assertThat(phone.page.locator("mix-upload input[webkitdirectory]")).isVisible();
      assertEquals(0, phone.overhang());
      phone.page.navigate("/songs/" + song);
      phone.see("summary", "Part files of").tap();
      phone.page.locator("mix-upload[stems] input[type=file]").setInputFiles(parts);
      assertThat(phone.page.getByLabel("Which part: LV.wav")).hasValue("lead vocal");
      assertThat(phone.page.getByLabel("Which part: kick in.wav")).hasValue("kick in");
      Locator backing = phone.page.getByLabel("Which part: bgv stack.wav");
      assertThat(backing).hasValue("backing vocals");
      backing.fill("choir");
      backing.press("Tab");
      assertEquals(0, phone.overhang());
      phone.button("Bring three files").tap();
      assertThat(phone.see(".sending summary", "Three files have arrived.")).isVisible();
      assertThat(phone.see("mix-stems li", "Choir")).isVisible();
      assertEquals(List.of(), screens.complaints());
    }
    assertEquals(
        Set.of("lead vocal", "kick in", "choir"),
        Set.copyOf(
            engineer
                .get("/songs/" + song + "/stems?bounce=" + bounce)
                .jsonPath()
                .getList("element")));
  }

  private Screen signedIn(Screen screen, String path) {
    screen
        .page
        .context()
        .addCookies(List.of(new Cookie("mixaccord_session", engineer.cookie()).setUrl(server)));
    screen.page.navigate(path);
    return screen;
  }

  private String song(String title) {
    return engineer.make("/projects/" + project + "/songs", Map.of("title", title));
  }

  private Map<String, String> songs() {
    JsonPath songs = engineer.get("/projects/" + project + "/songs").jsonPath();
    Map<String, String> found = new HashMap<>();
    for (Map<String, Object> one : songs.<Map<String, Object>>getList("")) {
      found.put((String) one.get("title"), (String) one.get("id"));
    }
    return found;
  }

  /** A tone of its own for each number, so that no two files are the same. */
  private static Path sound(Path file, int number, double seconds) throws IOException {
    double[] tone = Sound.sine(RATE, 200 + 20 * number, -20, seconds);
    return Files.write(file, Sound.wav(RATE, tone, tone));
  }
}
