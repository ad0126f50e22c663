package org.mixaccord.acceptance;

import static org.junit.jupiter.api.Assertions.assertEquals;

import io.quarkus.test.junit.QuarkusTest;
import io.restassured.response.Response;
import jakarta.inject.Inject;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import org.awaitility.Awaitility;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.mixaccord.storage.DiskForTests;

/** A mix at another rate as the server lays it onto the leading one's time line. */
@QuarkusTest
class LaidCopyTest extends UploadStage {
  private static final int RATE = 48_000;
  private static final int SECONDS = 10;
  private static final int PIECE = 1 << 18;
  private static final int HEAD_BYTES = 58;
  private static final double RESAMPLED = 3e-5;

  @Inject DiskForTests disk;

  private final Tones song = new Tones(20261127, SECONDS);

  @AfterEach
  void roomAgain() {
    disk.clear();
  }

  @Test
  void eachPieceIsTheMusicAtTheOtherRateAndNoneIsBegunWithoutRoom() {
    String at44 = measured("low.wav", Sound.wav(44_100, song.at(44_100, 0, SECONDS, 0)));
    double[][] music = song.at(RATE, 0, SECONDS, 0);
    String lead = measured("high.wav", Sound.wav(RATE, music));
    Awaitility.await().until(() -> piece(at44, lead, 0).statusCode() != 503);

    String about = "/bounces/" + at44 + "/laid-copy?onto=" + lead;
    assertEquals(RATE, band.engineer().get(about).jsonPath().getInt("sampleRate"));
    assertEquals(RATE * SECONDS, band.engineer().get(about).jsonPath().getInt("frames"));
    assertEquals(2, band.engineer().get(about).jsonPath().getList("segments").size());

    disk.leave(2 * PIECE);
    Response full = piece(at44, lead, 1);
    full.then().statusCode(507);
    assertEquals("disk-full", full.jsonPath().getString("code"));
    disk.clear();

    for (int index = 0; index < 2; index++) {
      byte[] wav = piece(at44, lead, index).asByteArray();
      assertEquals("RIFF", new String(wav, 0, 4, StandardCharsets.US_ASCII));
      ByteBuffer samples = ByteBuffer.wrap(wav).order(ByteOrder.LITTLE_ENDIAN);
      int from = index * PIECE;
      int frames = Math.min(PIECE, RATE * SECONDS - from);
      assertEquals(HEAD_BYTES + 8 * frames, wav.length);
      for (int i = 0; i < frames; i++) {
        for (int side = 0; side < 2; side++) {
          float heard = samples.getFloat(HEAD_BYTES + 8 * i + 4 * side);
          assertEquals(music[side][from + i], heard, RESAMPLED, "frame " + (from + i));
        }
      }
    }
    band.engineer().as().get("/api/v1" + about.replace("?", "/segments/2?")).then().statusCode(404);
  }

  private Response piece(String moved, String onto, int index) {
    return band.engineer()
        .as()
        .get("/api/v1/bounces/" + moved + "/laid-copy/segments/" + index + "?onto=" + onto);
  }
}
