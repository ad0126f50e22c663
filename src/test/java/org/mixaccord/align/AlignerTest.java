package org.mixaccord.align;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.mixaccord.audio.ArrayPcm;

class AlignerTest {
  private static final int RATE = 24000;

  /** Band-limited noise bursts that never repeat, from sines so that it can be shifted exactly. */
  private static double[] song(long seed, double seconds, double shiftFrames, double speed) {
    Random random = new Random(seed);
    double[] out = new double[(int) (seconds * RATE)];
    for (double at = 0.2; at < seconds - 0.5; at += 0.08) {
      double hz = 150 * Math.pow(2, random.nextDouble() * 5);
      double phase = random.nextDouble() * 6;
      double level = 0.02 + 0.1 * random.nextDouble();
      int first = (int) ((at * RATE + shiftFrames) * speed) - 2;
      for (int i = Math.max(0, first); i < first + 0.4 * RATE && i < out.length; i++) {
        double t = (i / speed - shiftFrames) / RATE - at;
        if (t > 0 && t < 0.35) {
          double envelope = Math.sin(Math.PI * t / 0.35);
          out[i] += level * envelope * envelope * Math.sin(2 * Math.PI * hz * t + phase);
        }
      }
    }
    return out;
  }

  private static ArrayPcm pcm(double[]... channels) {
    return new ArrayPcm(RATE, channels);
  }

  private static double offsetFrames(Alignment alignment) {
    return alignment.offsetSeconds() * RATE;
  }

  @Test
  void shiftOfWholeFramesAlignsToThatNumber() throws IOException {
    Random random = new Random(11);
    for (int run = 0; run < 4; run++) {
      int shift = random.nextInt(20000) - 10000;
      Alignment a =
          Aligner.align(pcm(song(run, 20, 11000, 1)), pcm(song(run, 20, 11000 + shift, 1)));
      assertEquals(shift, offsetFrames(a), 1e-9, "seed 11, run " + run);
      assertEquals(1, a.polarity());
      assertEquals(1.0, a.speedRatio());
      assertTrue(a.sure() > 0.95, "sure " + a.sure());
    }
  }

  @Test
  void shiftOfPartOfAFrameIsFound() throws IOException {
    for (double shift : new double[] {100.5, -77.25, 12.1, 3333.37}) {
      Alignment a = Aligner.align(pcm(song(5, 20, 4000, 1)), pcm(song(5, 20, 4000 + shift, 1)));
      assertEquals(shift, offsetFrames(a), 0.002);
    }
  }

  @Test
  void clockThatRunsDifferentlyIsMeasured() throws IOException {
    Alignment a = Aligner.align(pcm(song(6, 60, 0, 1 + 50e-6)), pcm(song(6, 60, 0, 1)));
    assertEquals(50, (a.speedRatio() - 1) * 1e6, 0.05);
    assertTrue(a.clockDiffers());
    for (double t : new double[] {1, 30, 58}) {
      assertEquals(t / (1 + 50e-6), a.timeMap().toOther(t).orElseThrow(), 2e-6);
    }
  }

  @Test
  void polarityAndExchangedSidesAreTold() throws IOException {
    double[] left = song(7, 15, 0, 1);
    double[] right = song(8, 15, 0, 1);
    double[] minusLeft = java.util.Arrays.stream(left).map(v -> -v).toArray();
    double[] minusRight = java.util.Arrays.stream(right).map(v -> -v).toArray();
    Alignment turned = Aligner.align(pcm(minusLeft, minusRight), pcm(left, right));
    assertEquals(-1, turned.polarity());
    assertFalse(turned.channelsSwapped());
    Alignment swapped = Aligner.align(pcm(right, left), pcm(left, right));
    assertEquals(1, swapped.polarity());
    assertTrue(swapped.channelsSwapped());
  }

  @Test
  void cutIsFoundWithinFiveMilliseconds() throws IOException {
    double[] there = song(9, 40, 0, 1);
    Random random = new Random(12);
    for (int run = 0; run < 3; run++) {
      int from = (int) ((10 + 10 * random.nextDouble()) * RATE);
      int gone = (int) ((2 + 6 * random.nextDouble()) * RATE);
      double[] here = new double[there.length - gone];
      System.arraycopy(there, 0, here, 0, from);
      System.arraycopy(there, from + gone, here, from, here.length - from);
      Alignment a = Aligner.align(pcm(here), pcm(there));
      assertEquals(2, a.timeMap().pieces().size(), "seed 12, run " + run + " " + a.timeMap());
      MapPiece first = a.timeMap().pieces().get(0);
      MapPiece second = a.timeMap().pieces().get(1);
      assertEquals(from / (double) RATE, first.to(), 0.005);
      assertEquals(gone, (second.otherFrom() - second.from()) * RATE, 1e-6);
      assertEquals(1, a.timeMap().onlyThere().size());
      // Seen from the other side it is an insertion.
      TimeMap back = Aligner.align(pcm(there), pcm(here)).timeMap();
      assertEquals(1, back.onlyHere().size());
      assertEquals(from / (double) RATE, back.onlyHere().get(0).from(), 0.006);
      assertEquals((from + gone) / (double) RATE, back.onlyHere().get(0).to(), 0.006);
    }
  }

  @Test
  void repeatedPassagePointsTwiceAtTheSamePlace() throws IOException {
    double[] there = song(13, 30, 0, 1);
    int from = 10 * RATE;
    int to = 16 * RATE;
    double[] here = new double[there.length + to - from];
    System.arraycopy(there, 0, here, 0, to);
    System.arraycopy(there, from, here, to, there.length - from);
    TimeMap map = Aligner.align(pcm(here), pcm(there)).timeMap();
    assertEquals(12.0, map.toOther(12).orElseThrow(), 1e-4);
    assertEquals(12.0, map.toOther(18).orElseThrow(), 1e-4);
    assertEquals(29.0, map.toOther(35).orElseThrow(), 1e-4);
  }

  @Test
  void otherSongMatchesNowhere() throws IOException {
    for (long seed = 20; seed < 23; seed++) {
      Alignment a = Aligner.align(pcm(song(seed, 25, 0, 1)), pcm(song(seed + 100, 25, 0, 1)));
      assertFalse(a.matched(), "seed " + seed + " " + a.timeMap());
    }
    assertFalse(Aligner.align(pcm(new double[RATE * 5]), pcm(song(1, 5, 0, 1))).matched());
    assertFalse(Aligner.align(pcm(new double[10]), pcm(new double[10])).matched());
  }

  @Test
  void labelledRatesMayDiffer() throws IOException {
    int other = 22050;
    double[] x = song(14, 25, 0, 1);
    double[] y = new double[25 * other];
    double[] exact = song(14, 25, 0, other / (double) RATE);
    System.arraycopy(exact, 0, y, 0, Math.min(y.length, exact.length));
    Alignment a = Aligner.align(pcm(x), new ArrayPcm(other, y));
    assertEquals(0, offsetFrames(a), 0.01);
    assertEquals(1.0, a.speedRatio());
    Alignment wrong = Aligner.align(new ArrayPcm(44100, x), new ArrayPcm(48000, x));
    assertTrue(wrong.wrongRate());
    assertEquals(48000 / 44100.0, wrong.speedRatio(), 1e-6);
  }
}
