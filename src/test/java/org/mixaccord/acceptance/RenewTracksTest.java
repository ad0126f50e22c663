package org.mixaccord.acceptance;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import io.quarkus.test.common.QuarkusTestResource;
import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.mixaccord.PostgresForTests;
import org.mixaccord.jobs.Jobs;
import org.mixaccord.jobs.RenewTracks;
import org.mixaccord.measure.MeasureTrack;
import org.mixaccord.storage.DerivedFiles;
import org.mixaccord.storage.Sha256;

/** After an update that measures differently, what was measured before is measured anew. */
@QuarkusTest
@QuarkusTestResource(PostgresForTests.class)
class RenewTracksTest extends UploadStage {
  private static final int RATE = 48000;

  @Inject RenewTracks renew;
  @Inject Jobs jobs;
  @Inject DerivedFiles derived;

  @Test
  void tracksOfAnEarlierVersionAreMeasuredAnewInTheBackgroundAndGo() throws Exception {
    double[] tone = new double[4 * RATE];
    for (int i = 0; i < tone.length; i++) {
      tone[i] = 0.4 * Math.sin(0.07 * i);
    }
    String bounce = measured("one.wav", Sound.wav(RATE, tone, tone));
    Sha256 pcm = new Sha256(band.engineer().get("/bounces/" + bounce).path("file.pcmSha256"));
    Map<String, Object> before = figures(bounce).getMap("whole");
    jobs.awaitIdle(Duration.ofSeconds(60));
    renew.ask();
    assertTrue(jobs.status("renew-tracks", "all").isEmpty());
    Path present = derived.track(pcm, MeasureTrack.VERSION);
    Path earlier = derived.track(pcm, MeasureTrack.VERSION - 1);
    byte[] bytes = Files.readAllBytes(present);
    Files.move(present, earlier);

    renew.ask();
    jobs.awaitIdle(Duration.ofSeconds(60));

    assertTrue(java.util.Arrays.equals(bytes, Files.readAllBytes(present)));
    assertFalse(Files.exists(earlier));
    assertEquals(before, figures(bounce).getMap("whole"));
  }
}
