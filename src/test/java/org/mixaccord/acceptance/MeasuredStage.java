package org.mixaccord.acceptance;

import jakarta.inject.Inject;
import org.awaitility.Awaitility;
import org.junit.jupiter.api.BeforeEach;
import org.mixaccord.record.ProjectForTests;

/** Has one mix measured for a whole class, for stages to be built around its audio. */
abstract class MeasuredStage extends UploadStage {
  private static String measured;

  @Inject ProjectForTests projects;

  @BeforeEach
  void aMeasuredMix() {
    if (measured == null) {
      double[] tone = Sound.sine(48000, 997, -20, 2);
      String bounce = measured("mix.wav", Sound.wav(48000, tone, tone));
      String path = "/bounces/" + bounce + "/listening";
      Awaitility.await().until(() -> band.engineer().get(path).path("state").equals("ready"));
      measured = bounce;
    }
  }

  RightsStage stage() {
    return new RightsStage(projects, measured);
  }
}
