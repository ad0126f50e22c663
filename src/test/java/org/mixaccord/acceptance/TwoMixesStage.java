package org.mixaccord.acceptance;

import java.time.Duration;
import java.util.List;
import java.util.Map;
import org.awaitility.Awaitility;

/** A song with two sent mixes that are aligned, for tests of hearing them without their names. */
abstract class TwoMixesStage extends UploadStage {
  String one;
  String two;

  /** Two sent mixes, the second later in its file, louder, and with the tune up in the chorus. */
  void twoMixes() {
    one = measured("Ebb mix 1.wav", Takes.first().wav());
    band.engineer()
        .put(song("/sections"), Map.of("bounce", one, "sections", Takes.SECTIONS))
        .then()
        .statusCode(200);
    two = measured("Ebb mix 2.wav", Takes.third().wav());
    for (String mix : List.of(one, two)) {
      band.engineer().post("/bounces/" + mix + "/sending", Map.of()).then().statusCode(200);
    }
    Awaitility.await()
        .atMost(Duration.ofSeconds(60))
        .until(
            () ->
                band.engineer().get("/bounces/" + two + "/time-map?with=" + one).statusCode()
                    == 200);
  }

  String song(String rest) {
    return "/songs/" + band.song() + rest;
  }
}
