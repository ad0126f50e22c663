package org.mixaccord.acceptance;

import static org.hamcrest.Matchers.closeTo;
import static org.hamcrest.Matchers.equalTo;
import static org.hamcrest.Matchers.hasItem;
import static org.hamcrest.Matchers.hasItems;
import static org.hamcrest.Matchers.not;
import static org.hamcrest.Matchers.nullValue;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import io.quarkus.test.common.QuarkusTestResource;
import io.quarkus.test.junit.QuarkusTest;
import io.restassured.path.json.JsonPath;
import jakarta.inject.Inject;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.file.Path;
import java.sql.SQLException;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import javax.sql.DataSource;
import org.awaitility.Awaitility;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.mixaccord.PostgresForTests;
import org.mixaccord.intake.Encoded;
import org.mixaccord.intake.Fixtures;
import org.mixaccord.jobs.Jobs;

/**
 * Files that are unusual and right: each is measured, and its figures are those the standards give
 * for a sine (0 dBFS at 997 Hz in one front channel reads −3.01 LUFS).
 */
@QuarkusTest
@QuarkusTestResource(PostgresForTests.class)
class OddAudioTest extends UploadStage {
  @Inject Jobs jobs;
  @Inject DataSource database;

  @Test
  void silenceIsMeasuredAndHasNoLoudness() {
    byte[] wav = Sound.wav(48000, new double[48000 * 4], new double[48000 * 4]);
    String bounce = measured("nothing.wav", wav);
    JsonPath figures = figures(bounce);
    for (String none :
        List.of(
            "integratedLufs",
            "ungatedLufs",
            "maxMomentaryLufs",
            "maxShortTermLufs",
            "truePeakDbtp",
            "samplePeakDbfs",
            "crestDb",
            "peakToLoudnessDb",
            "correlation",
            "balanceDb")) {
      assertTrue(figures.getMap("whole").containsKey(none), none);
      assertNull(figures.get("whole." + none), none);
    }
    assertEquals(0, figures.getInt("whole.clippedRuns"));
    assertEquals(
        List.of(), figures.getList("whole.bands.levelDb").stream().filter(l -> l != null).toList());
    String words = band.engineer().get("/bounces/" + bounce + "/measurements").asString();
    assertTrue(!words.contains("NaN") && !words.contains("Infinity"), words);
    band.engineer()
        .get("/bounces/" + bounce + "/findings")
        .then()
        .statusCode(200)
        .body("code", equalTo(List.of("digital-silence")))
        .body("[0].detail", equalTo("There is nothing in this file but digital silence."));
    band.engineer().get("/bounces/" + bounce + "/outline?points=40").then().statusCode(200);
    bytesAreKept(bounce, wav);
  }

  @Test
  void silenceBesideSoundIsComparedWithoutALevel() {
    double[] tone = Sound.sine(48000, 997, -20, 4);
    String silent = measured("nothing.wav", Sound.wav(48000, new double[48000 * 4]));
    String loud = measured("tone.wav", Sound.wav(48000, tone));
    String path = "/bounces/" + loud + "/comparison?with=" + silent;
    Awaitility.await().until(() -> band.engineer().get(path).statusCode() == 200);
    band.engineer().get(path).then().body("likeness", equalTo("not-comparable"));
    band.engineer()
        .get("/bounces/" + loud + "/level-match?with=" + silent)
        .then()
        .statusCode(200)
        .body("gainDb", equalTo(0.0f))
        .body("differenceLu", nullValue())
        .body("words", equalTo("One of the two is silent here; nothing is changed."));
  }

  @Test
  void samplesThatAreNoNumbersAreFoundAndMeasuredAsSilence() {
    double[] tone = Sound.sine(48000, 997, -20, 4);
    ByteBuffer floats = ByteBuffer.allocate(4 * tone.length).order(ByteOrder.LITTLE_ENDIAN);
    for (int n = 0; n < tone.length; n++) {
      floats.putFloat(n == 36000 || n == 120000 ? Float.NaN : (float) tone[n]);
    }
    byte[] wav = Fixtures.wav(3, 1, 48000, 32, floats.array());
    String bounce = measured("broken.wav", wav);
    near(-23.01, figures(bounce).getDouble("whole.integratedLufs"), 0.05);
    JsonPath found = band.engineer().get("/bounces/" + bounce + "/findings").jsonPath();
    assertEquals(1, found.getList("findAll { it.code == 'not-a-number' }").size());
    near(0.75, found.getDouble("find { it.code == 'not-a-number' }.from"), 1e-6);
    near(2.5, found.getDouble("find { it.code == 'not-a-number' }.to"), 1e-6);
    bytesAreKept(bounce, wav);
  }

  @Test
  void aMonoFileIsMeasuredAsOneChannel() {
    byte[] wav = Sound.wav(48000, Sound.sine(48000, 997, -20, 12));
    String bounce = measured("mono.wav", wav);
    JsonPath figures = figures(bounce);
    near(-23.01, figures.getDouble("whole.integratedLufs"), 0.05);
    near(-20.0, figures.getDouble("whole.dualMonoLufs"), 0.05);
    near(-20.0, figures.getDouble("whole.samplePeakDbfs"), 0.01);
    near(3.01, figures.getDouble("whole.crestDb"), 0.01);
    for (String pairOnly : List.of("correlation", "sideToMidDb", "balanceDb", "monoLossDb")) {
      assertNull(figures.get("whole." + pairOnly), pairOnly);
    }
    band.engineer()
        .get("/bounces/" + bounce)
        .then()
        .body("file.channels", equalTo(1))
        .body("file.seconds", equalTo(12.0f));
    bytesAreKept(bounce, wav);
  }

  @Test
  void sixChannelsAreWeightedAndStandApartFromStereo() throws Exception {
    double[] tone = Sound.sine(48000, 997, -30, 6);
    byte[] wav = Sound.wav(48000, tone, tone, tone, tone, tone, tone);
    String bounce = measured("surround.wav", wav);
    JsonPath figures = figures(bounce);
    // Three fronts count 1, the two surrounds 1.41, the low-frequency channel nothing.
    double fronts = 10 * Math.log10(3 + 2 * 1.41);
    near(-33.01 + fronts, figures.getDouble("whole.integratedLufs"), 0.05);
    assertNull(figures.get("whole.correlation"));
    assertNull(figures.get("whole.dualMonoLufs"));
    band.engineer()
        .get("/bounces/" + bounce)
        .then()
        .body("file.channels", equalTo(6))
        .body("defects.code", hasItem("more-than-stereo"));
    String stereo = measured("stereo.wav", Sound.wav(48000, tone, tone));
    // Nobody asked for it, so the server must not have tried it by itself and failed.
    jobs.awaitIdle(Duration.ofSeconds(60));
    assertEquals(0, failedComparisons());
    refused(
        band.engineer().get("/bounces/" + stereo + "/comparison?with=" + bounce),
        409,
        "layout-differs");
    bytesAreKept(bounce, wav);
  }

  @Test
  void eightKilohertzKeepTheirLevels() {
    double[] tone = Sound.sine(8000, 997, -20, 12);
    String bounce = measured("phone.wav", Sound.wav(8000, tone, tone));
    JsonPath figures = figures(bounce);
    near(-20.0, figures.getDouble("whole.integratedLufs"), 0.1);
    near(-20.0, figures.getDouble("whole.truePeakDbtp"), 0.1);
    near(-23.01, band(figures, 1000), 0.1);
    // 0.45 of the rate is 3600 Hz: what lies above has no level, whatever leaks there.
    assertNull(band(figures, 4000));
    assertNull(band(figures, 20000));
    assertEquals(1.0, figures.getDouble("whole.correlation"), 1e-6);
    playable(bounce, 8000, 96000);
  }

  @Test
  void aHundredNinetyTwoKilohertzKeepTheirLevels() {
    double[] tone = Sound.sine(192000, 997, -20, 6);
    String bounce = measured("wide.wav", Sound.wav(192000, tone, tone));
    JsonPath figures = figures(bounce);
    near(-20.0, figures.getDouble("whole.integratedLufs"), 0.05);
    near(-20.0, figures.getDouble("whole.truePeakDbtp"), 0.05);
    near(-23.01, band(figures, 1000), 0.1);
    assertTrue(band(figures, 20000) < -90, "leak at 20 kHz: " + band(figures, 20000));
    playable(bounce, 192000, 192000 * 6);
  }

  @Test
  void aRateThatWasNotAgreedIsAFinding() {
    band.engineer()
        .put("/projects/" + band.project() + "/delivery-spec", Map.of("sampleRate", 48000))
        .then()
        .statusCode(200);
    double[] tone = Sound.sine(8000, 997, -20, 3);
    String bounce = measured("phone.wav", Sound.wav(8000, tone, tone));
    band.engineer()
        .get("/bounces/" + bounce + "/findings")
        .then()
        .body("find { it.code == 'out-of-spec' }.value", equalTo(8000.0f))
        .body("find { it.code == 'out-of-spec' }.limit", equalTo(48000.0f))
        .body(
            "find { it.code == 'out-of-spec' }.detail",
            equalTo("The file has a sample rate of 8\u00A0kHz; 48\u00A0kHz was agreed."));
  }

  @Test
  void aWrongNameDoesNotMatterAndIsSaid(@TempDir Path folder) throws Exception {
    double[] left = Sound.sine(44100, 997, -20, 3);
    double[] right = Sound.sine(44100, 440, -26, 3);
    byte[] wav = Sound.wav(44100, left, right);
    byte[] flac = Encoded.by(folder, wav, "flac", "flac");
    String asFlac = measured("mix.wav", flac);
    String asAiff = measured("mix.wav", Sound.aiff(44100, left, right));
    String asWav = measured("mix.wav", wav);
    String pcm = band.engineer().get("/bounces/" + asWav).path("file.pcmSha256");
    for (String odd : List.of(asFlac, asAiff)) {
      band.engineer()
          .get("/bounces/" + odd)
          .then()
          .body("file.pcmSha256", equalTo(pcm))
          .body("defects.code", hasItems("wrong-extension"))
          .body("defects.find { it.code == 'wrong-extension' }.affectsSound", equalTo(false));
    }
    band.engineer()
        .get("/bounces/" + asFlac)
        .then()
        .body("file.container", equalTo("FLAC"))
        .body(
            "defects.find { it.code == 'wrong-extension' }.detail",
            equalTo("The file is named .wav but really is FLAC."));
    band.engineer().get("/bounces/" + asAiff).then().body("file.container", equalTo("AIFF"));
    band.engineer()
        .get("/bounces/" + asWav)
        .then()
        .body("defects.code", not(hasItem("wrong-extension")));
    bytesAreKept(asFlac, flac);
  }

  private void playable(String bounce, int rate, int frames) {
    String path = "/bounces/" + bounce + "/listening";
    Awaitility.await()
        .until(() -> band.engineer().get(path).path("state").toString().equals("ready"));
    band.engineer()
        .get(path)
        .then()
        .body("sampleRate", equalTo(rate))
        .body("frames", equalTo(frames))
        .body("exact", equalTo(true));
    band.engineer().get(path + "/segments/0").then().statusCode(200);
  }

  private int failedComparisons() throws SQLException {
    try (var connection = database.getConnection();
        var statement = connection.createStatement();
        var rows =
            statement.executeQuery(
                "select count(*) from jobs where name = 'compare' and state = 'FAILED'")) {
      rows.next();
      return rows.getInt(1);
    }
  }

  private static Double band(JsonPath figures, double centreHz) {
    List<Map<String, Number>> bands = figures.getList("whole.bands");
    Map<String, Number> band =
        bands.stream()
            .filter(b -> b.get("centreHz").doubleValue() == centreHz)
            .findFirst()
            .orElseThrow();
    return band.get("levelDb") == null ? null : band.get("levelDb").doubleValue();
  }

  private static void near(double expected, double value, double tolerance) {
    org.hamcrest.MatcherAssert.assertThat(value, closeTo(expected, tolerance));
  }
}
