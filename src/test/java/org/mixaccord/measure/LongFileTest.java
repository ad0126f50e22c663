package org.mixaccord.measure;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.Random;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.mixaccord.audio.ArrayPcm;

/** Three hours are measured in little memory: what is kept is the track, never the samples. */
class LongFileTest {
  private static final int HOURS = 3;

  /** Two channels of a dull tune, as long as no number of cells. */
  private static double[][] clip(int rate) {
    double[][] x = new double[2][2 * rate + 37];
    Random random = new Random(71);
    for (int i = 0; i < x[0].length; i++) {
      double t = i / (double) rate;
      double tune = 0.2 * Math.sin(2 * Math.PI * 110 * t) * (1 + Math.sin(7 * t));
      x[0][i] = tune + 0.0005 * random.nextGaussian();
      x[1][i] = 0.5 * tune + 0.0005 * random.nextGaussian();
    }
    return x;
  }

  /** What runs in the small heap: measures and says loudness and length. */
  public static void main(String[] args) throws IOException {
    int rate = Integer.parseInt(args[0]);
    long frames = HOURS * 3600L * rate;
    MeasureTrack track =
        MeasureTrack.measure(new RepeatedPcm(rate, clip(rate), frames), done -> {});
    Measurements whole = track.whole();
    System.out.println(track.seconds() + " " + whole.ungatedLufs().getAsDouble());
  }

  private static void threeHours(int rate, int heapMegabytes) throws Exception {
    Process child =
        new ProcessBuilder(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-Xmx" + heapMegabytes + "m",
                "-XX:+UseSerialGC",
                "-cp",
                System.getProperty("java.class.path"),
                LongFileTest.class.getName(),
                "" + rate)
            .redirectErrorStream(true)
            .start();
    String said = new String(child.getInputStream().readAllBytes(), StandardCharsets.UTF_8).strip();
    assertEquals(0, child.waitFor(), said);
    String[] figures = said.split(" ");
    assertEquals(HOURS * 3600, Double.parseDouble(figures[0]), said);
    double once =
        Signals.measure(new ArrayPcm(rate, clip(rate))).whole().ungatedLufs().getAsDouble();
    assertEquals(once, Double.parseDouble(figures[1]), 0.01, said);
  }

  @Test
  void threeHoursFitIntoASmallHeap() throws Exception {
    threeHours(8000, 256);
  }

  @Tag("slow")
  @Test
  void sixTimesTheSamplesNeedNoMore() throws Exception {
    threeHours(48000, 256);
  }
}
