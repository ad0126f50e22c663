package org.mixaccord.measure;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalInt;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.mixaccord.audio.ArrayPcm;
import org.mixaccord.demo.music.DemoAudio;
import org.mixaccord.demo.music.DemoSong;
import org.mixaccord.demo.music.DemoSongs;

/** The demo's music is sound; whatever were found in it would be a false alarm. */
class DemoFindingsTest {
  private static final int RATE = 48000;
  private static final int HEADER_BYTES = 44;

  private static double[][] samples(DemoAudio audio) throws IOException {
    ByteArrayOutputStream out = new ByteArrayOutputStream((int) audio.bytes());
    audio.writeTo(out);
    byte[] wav = out.toByteArray();
    double[][] x = new double[2][(int) audio.frames()];
    for (int i = 0; i < x[0].length; i++) {
      for (int c = 0; c < 2; c++) {
        int at = HEADER_BYTES + 6 * i + 3 * c;
        int value = wav[at] & 0xFF | (wav[at + 1] & 0xFF) << 8 | wav[at + 2] << 16;
        x[c][i] = value * 0x1p-23;
      }
    }
    return x;
  }

  private static List<Finding> of(double[][] x) {
    FileFacts file = new FileFacts(RATE, OptionalInt.of(24), OptionalInt.of(24), false, false);
    return Findings.of(Signals.measure(new ArrayPcm(RATE, x)), DeliveryLimits.none(), file);
  }

  @Test
  void spikesInAMixAreFoundAndNothingElse() throws IOException {
    double[][] x = samples(DemoSongs.second().mix(1));
    assertEquals(List.of(), of(x));
    List<Double> put = new ArrayList<>();
    for (int at : new int[] {10 * RATE + 77, 31 * RATE + 4040, 62 * RATE + 12_321}) {
      x[0][at] += x[0][at] > 0 ? -0.6 : 0.6;
      put.add(at / (double) RATE);
    }
    List<Finding> found = of(x);
    assertEquals(put, found.stream().map(Finding::fromSeconds).sorted().toList());
    assertEquals(List.of("click", "click", "click"), found.stream().map(Finding::code).toList());
  }

  @Test
  @Tag("slow")
  void noMixOrPartGivesAFalseAlarm() throws IOException {
    for (DemoSong song : List.of(DemoSongs.first(), DemoSongs.second())) {
      List<DemoAudio> all = new ArrayList<>(song.stems(1));
      for (int n = 1; n <= song.mixes(); n++) {
        all.add(song.mix(n));
      }
      for (DemoAudio audio : all) {
        List<String> codes =
            of(samples(audio)).stream()
                .map(Finding::code)
                // A part that rests is silent.
                .filter(
                    c ->
                        audio.part().isEmpty()
                            || !c.equals("digital-silence") && !c.equals("dead-air"))
                .toList();
        assertEquals(List.of(), codes, audio.fileName());
      }
    }
  }
}
