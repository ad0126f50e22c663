package org.mixaccord.acceptance;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.microsoft.playwright.options.SelectOption;
import io.quarkus.test.common.QuarkusTestResource;
import io.quarkus.test.common.http.TestHTTPResource;
import io.quarkus.test.junit.QuarkusTest;
import java.io.IOException;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.stream.Collectors;
import java.util.stream.DoubleStream;
import org.awaitility.Awaitility;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.mixaccord.PostgresForTests;
import org.mixaccord.acceptance.Screens.Screen;
import org.mixaccord.audio.ArrayPcm;
import org.mixaccord.audio.FrameRange;
import org.mixaccord.measure.MeasureTrack;
import org.mixaccord.web.Chromium;

/**
 * Four mixes on one clock: one trimmed at its head, one with a passage cut out, one at another
 * rate, beside the leading one. What leaves the desk is rendered and held against the music itself.
 */
@QuarkusTest
@QuarkusTestResource(PostgresForTests.class)
class FairListeningInBrowserTest extends UploadStage {
  private static final int RATE = 48_000;
  private static final double SECONDS = 24;
  private static final double TRIMMED = 1776.0 / RATE;
  private static final double CUT_FROM = 8;
  private static final double CUT_TO = 10;
  private static final int INSTANTS = 20;
  private static final int BEFORE = RATE / 50;
  private static final int CROSSING = RATE / 100;
  private static final int LENGTH = RATE / 10;

  /** 24 bits as the browser's floats give them back. */
  private static final double EXACT = 1e-6;

  /** What the server's copy may stray by: its resampler is 95 dB down, the song peaks near −6. */
  private static final double RESAMPLED = 3e-5;

  @TestHTTPResource String server;

  private final Tones song = new Tones(20261126, SECONDS);
  private final double[][] music = song.at(RATE, 0, SECONDS, 0);

  /** A mix beside the leading one: its id, and what it has at the leading one's frames. */
  private record Beside(String id, String label, double[][] there, double tolerance) {}

  @BeforeEach
  void needsABrowser() {
    Chromium.orSkip();
  }

  @Test
  void switchingLandsOnTheSameInstantAndEverythingIsEquallyLoud() throws IOException {
    double[][] trimmed = song.at(RATE, TRIMMED, SECONDS - TRIMMED, 2.6);
    double[][] shorter = {without(music[0]), without(music[1])};
    String at44 = sent("other-rate.wav", Sound.wav(44_100, song.at(44_100, 0, SECONDS, -1.5)));
    String offset = sent("trimmed.wav", Sound.wav(RATE, trimmed));
    String cut = sent("cut.wav", Sound.wav(RATE, shorter));
    String lead = sent("full.wav", Sound.wav(RATE, music));
    List<Beside> beside =
        List.of(
            new Beside(cut, "Mix 3", silentWhereCut(), EXACT),
            new Beside(offset, "Mix 2", song.at(RATE, 0, SECONDS, 2.6), EXACT),
            new Beside(at44, "Mix 1", song.at(RATE, 0, SECONDS, -1.5), RESAMPLED));

    try (Screens screens = new Screens(server)) {
      Screen phone = screens.phoneBehind("fair-phone", server, band.artist().cookie());
      phone.page.navigate("/songs/" + band.song());
      phone.until("state.lead?.id === '" + lead + "' && state.mapped");
      openAllFour(phone, offset, at44);
      phone.until("state.more.length === 2 && state.mapped && state.laid.length === 1");
      phone.page.evaluate("document.querySelector('page-song').player.setLoop({from: 12, to: 15})");
      phone.button("Play").click();
      phone.until("player.playing && probe.phase === 'playing' && state.levels");
      for (String label : List.of("Mix 3", "Mix 2", "Mix 1", "Mix 4")) {
        phone.see("fieldset.pair label", label).click();
        phone.until("probe.phase === 'playing' && probe.way === 'clock'");
      }
      assertThat(phone.page.locator(".even .level"))
          .containsText("heard through a copy laid onto the time of Mix 4");
      assertEquals(0, phone.overhang());
      screens.pictures("four-mixes");
      phone.button("Pause").click();

      double[] gains = gains(phone);
      assertEquals(0, Arrays.stream(gains).max().orElseThrow(), 1e-9, "the quietest stays");
      Random random = new Random(20261126);
      for (int voice = 1; voice <= 3; voice++) {
        Beside other = beside.get(voice - 1);
        for (int n = 0; n < INSTANTS; n++) {
          double from = 0.5 + random.nextDouble() * (SECONDS - 1.5);
          lands(phone, other, voice, from, gains);
        }
      }
      equallyLoud(phone);
      assertEquals(List.of(), screens.complaints());
    }
    String seen = band.artist().get("/bounces/" + at44 + "/hearing").path("quality") + "";
    assertEquals("null", seen, "a copy on another clock is not the mix itself");
  }

  private void openAllFour(Screen phone, String third, String fourth) {
    phone.see("summary", "Other mixes").click();
    for (int place = 2; place < 4; place++) {
      phone
          .page
          .locator(".others .drop select")
          .nth(place)
          .selectOption(new SelectOption().setValue(place == 2 ? third : fourth));
    }
    phone.see("summary", "Other mixes").click();
  }

  /**
   * One crossing at an instant: the leading mix before it, the other one's same instant after it.
   */
  private void lands(Screen phone, Beside other, int voice, double from, double[] gains) {
    Map<String, Object> heard =
        rendered(
            phone,
            "{from: %s, seconds: %s, switches: [%s], turns: [0, %d]}"
                .formatted(from, LENGTH / (double) RATE, BEFORE / (double) RATE, voice));
    int start = ((Number) heard.get("start")).intValue();
    int at = ((Number) heard.get("at")).intValue();
    assertEquals(Math.round(from * RATE), start);
    String what = other.label() + " at " + from + " s, frame ";
    for (int side = 0; side < 2; side++) {
      List<?> sounds = (List<?>) ((List<?>) heard.get("channels")).get(side);
      double before = Math.pow(10, gains[0] / 20);
      double after = Math.pow(10, gains[voice] / 20);
      for (int i = 0; i < sounds.size(); i++) {
        double sounding = ((Number) sounds.get(i)).doubleValue();
        double one = before * music[side][start + i];
        double two = after * other.there()[side][start + i];
        // Equal gain: both sides add up to one, a frame at a time.
        double turned = Math.max(0, Math.min(1, (i - at) / (double) CROSSING));
        double tolerance = i <= at ? EXACT : other.tolerance();
        assertEquals((1 - turned) * one + turned * two, sounding, tolerance, what + i);
      }
    }
  }

  private void equallyLoud(Screen phone) throws IOException {
    double[] lufs = new double[4];
    for (int voice = 0; voice < 4; voice++) {
      // The cut lies outside the loop.
      Map<String, Object> heard =
          rendered(phone, "{from: 12, seconds: 3, switches: [0], turns: [0, %d]}".formatted(voice));
      double[][] samples = new double[2][];
      for (int side = 0; side < 2; side++) {
        List<?> sounds = (List<?>) ((List<?>) heard.get("channels")).get(side);
        samples[side] = sounds.stream().mapToDouble(v -> ((Number) v).doubleValue()).toArray();
      }
      MeasureTrack track = MeasureTrack.measure(new ArrayPcm(RATE, samples), share -> {});
      lufs[voice] = track.ungatedLufs(new FrameRange(0, track.frames())).orElseThrow();
    }
    double loudest = DoubleStream.of(lufs).max().orElseThrow();
    double quietest = DoubleStream.of(lufs).min().orElseThrow();
    assertTrue(
        loudest - quietest < 0.05,
        DoubleStream.of(lufs).mapToObj(Double::toString).collect(Collectors.joining(", ")));
  }

  private static double[] gains(Screen phone) {
    List<?> gains =
        (List<?>)
            phone.page.evaluate("document.querySelector('page-song').player.state.levels.gainsDb");
    return gains.stream().mapToDouble(g -> ((Number) g).doubleValue()).toArray();
  }

  private static Map<String, Object> rendered(Screen phone, String what) {
    return Screens.map(
        phone.page.evaluate(
            "async () => { const player = document.querySelector('page-song').player;"
                + " const r = await player.rendering("
                + what
                + ");"
                + " return {start: r.startFrame, at: r.switchedAt[0],"
                + " channels: r.channels.map((c) => [...c])}; }"));
  }

  private String sent(String name, byte[] bytes) {
    String mix = measured(name, bytes);
    String listening = "/bounces/" + mix + "/listening";
    Awaitility.await().until(() -> band.engineer().get(listening).path("state").equals("ready"));
    band.engineer().post("/bounces/" + mix + "/sending", Map.of()).then().statusCode(200);
    return mix;
  }

  private static double[] without(double[] channel) {
    int from = (int) (CUT_FROM * RATE);
    int to = (int) (CUT_TO * RATE);
    double[] out = Arrays.copyOf(channel, channel.length - (to - from));
    System.arraycopy(channel, to, out, from, channel.length - to);
    return out;
  }

  private double[][] silentWhereCut() {
    double[][] out = {music[0].clone(), music[1].clone()};
    for (double[] channel : out) {
      Arrays.fill(channel, (int) (CUT_FROM * RATE), (int) (CUT_TO * RATE), 0);
    }
    return out;
  }
}
