package org.mixaccord.acceptance;

import static org.hamcrest.Matchers.contains;
import static org.hamcrest.Matchers.containsString;
import static org.hamcrest.Matchers.equalTo;
import static org.hamcrest.Matchers.hasItem;
import static org.hamcrest.Matchers.hasItems;
import static org.hamcrest.Matchers.not;

import io.quarkus.test.common.QuarkusTestResource;
import io.quarkus.test.junit.QuarkusTest;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.mixaccord.PostgresForTests;
import org.mixaccord.intake.Fixtures;

/** A file whose sound suffers stands before approval; what is merely odd about a file does not. */
@QuarkusTest
@QuarkusTestResource(PostgresForTests.class)
class FileSoundTest extends UploadStage {
  private static final double[] LEFT = Sound.sine(48000, 997, -20, 2);
  private static final double[] RIGHT = Sound.sine(48000, 440, -20, 2);

  @Test
  void aFileCutOffCannotBeApproved() {
    byte[] whole = Sound.wav(48000, LEFT, RIGHT);
    int frameBytes = 6;
    int there = (whole.length - 44) * 61 / 100 / frameBytes * frameBytes;
    blocks(Arrays.copyOf(whole, 44 + there), "The file is cut off: 6");
  }

  @Test
  void samplesThatAreNoNumbersCannotBeApproved() {
    ByteBuffer floats = ByteBuffer.allocate(8 * LEFT.length).order(ByteOrder.LITTLE_ENDIAN);
    for (int n = 0; n < LEFT.length; n++) {
      floats.putFloat(n == 48000 ? Float.NaN : (float) LEFT[n]).putFloat((float) RIGHT[n]);
    }
    blocks(Fixtures.wav(3, 2, 48000, 32, floats.array()), "1 sample holds no number at all");
  }

  private void blocks(byte[] file, String words) {
    String bounce = measured("mix.wav", file);
    band.engineer().post("/bounces/" + bounce + "/sending", Map.of()).then().statusCode(200);
    band.engineer()
        .get("/bounces/" + bounce + "/open-points")
        .then()
        .statusCode(200)
        .body("code", contains("file-sound"))
        .body("[0].passable", equalTo(false))
        .body("[0].detail", containsString(words));
    String pcm = band.engineer().get("/bounces/" + bounce).path("file.pcmSha256");
    Map<String, Object> approve =
        Map.of(
            "decision",
            "approve",
            "pcmSha256",
            pcm,
            "despite",
            List.of("file-sound"),
            "reason",
            "in a hurry");
    String members = "/projects/" + band.project() + "/members";
    String asta = band.engineer().get(members).path("find { it.name == 'Asta' }.id");
    band.engineer().patch(members + "/" + asta, Map.of("approver", true)).then().statusCode(200);
    refused(band.artist().post("/bounces/" + bounce + "/approvals", approve), 409, "open-points")
        .body("openPoints.code", hasItem("file-sound"));
  }

  @Test
  void whatIsOnlyOddStandsInNobodysWay() {
    byte[] trailed = Fixtures.join(Sound.wav(48000, LEFT, LEFT), new byte[400]);
    String bounce = measured("mix.flac", trailed);
    band.engineer()
        .get("/bounces/" + bounce)
        .then()
        .body("defects.code", hasItems("wrong-extension", "trailing-data", "dual-mono"))
        .body("defects.affectsSound", not(hasItem(true)));
    band.engineer().post("/bounces/" + bounce + "/sending", Map.of()).then().statusCode(200);
    band.engineer()
        .get("/bounces/" + bounce + "/open-points")
        .then()
        .body("code", not(hasItem("file-sound")));
  }
}
