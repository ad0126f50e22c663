package org.mixaccord.acceptance;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import io.quarkus.test.common.QuarkusTestResource;
import io.quarkus.test.junit.QuarkusTest;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import org.awaitility.Awaitility;
import org.junit.jupiter.api.Test;
import org.mixaccord.PostgresForTests;

/** What breaks in a mix is set against the mix before, wherever its music lies there. */
@QuarkusTest
@QuarkusTestResource(PostgresForTests.class)
class BesideTheMixBeforeTest extends UploadStage {
  private static final double DROPPED_AT = 6.5;
  private static final double CLICKED_AT = 13.262; // as far from the drum as can be

  /** The sound breaks off for 20 ms on both sides, and one sample stands out on the left. */
  private static Takes damaged(Takes take, double droppedAt, double clickedAt) {
    int[] x = take.samples().clone();
    int from = (int) Math.round(droppedAt * Takes.RATE);
    for (int i = 2 * from; i < 2 * (from + Takes.RATE / 50); i++) {
      x[i] = 0;
    }
    // The breaking off has edges that no sound leaves.
    for (int side = 0; side < 2; side++) {
      x[2 * (from - 1) + side] = (int) (0.1 * Takes.FULL);
      x[2 * (from + Takes.RATE / 50) + side] = (int) (-0.1 * Takes.FULL);
    }
    x[2 * (int) Math.round(clickedAt * Takes.RATE)] += (int) (0.4 * Takes.FULL);
    return new Takes(x);
  }

  private Map<String, Object> finding(String bounce, String code) {
    List<Map<String, Object>> all =
        band.engineer().get("/bounces/" + bounce + "/findings").jsonPath().getList("");
    List<Map<String, Object>> found = all.stream().filter(f -> code.equals(f.get("code"))).toList();
    assertEquals(1, found.size(), code + " in " + all);
    return found.get(0);
  }

  private void says(String bounce, String code, double at, String severity, String end) {
    Map<String, Object> finding =
        Awaitility.await()
            .atMost(Duration.ofSeconds(60))
            .until(
                () -> finding(bounce, code),
                f -> f.get("detail").toString().matches(".*Pass \\d.*"));
    assertEquals(at, ((Number) finding.get("from")).doubleValue(), 0.001, "" + finding);
    assertEquals(severity, finding.get("severity"), "" + finding);
    assertTrue(finding.get("detail").toString().endsWith(end), "" + finding);
  }

  @Test
  void damageIsSaidToBeNewOrToHaveBeenThereBefore() {
    double late = Takes.LATE_SECONDS;
    measured("one.wav", Takes.first().wav());
    // The second mix begins later, so the same moment of the music comes earlier in it.
    String second =
        measured("two.wav", damaged(Takes.second(), DROPPED_AT - late, CLICKED_AT - late).wav());
    says(second, "dropout", DROPPED_AT - late, "fault", " Pass 1 does not have this.");
    says(second, "click", CLICKED_AT - late, "warning", " Pass 1 does not have this.");

    String third = measured("three.wav", damaged(Takes.first(), DROPPED_AT, CLICKED_AT).wav());
    says(third, "dropout", DROPPED_AT, "hint", " Pass 2 has the same, so it may be meant.");
    says(third, "click", CLICKED_AT, "hint", " Pass 2 has the same, so it may be meant.");
  }
}
