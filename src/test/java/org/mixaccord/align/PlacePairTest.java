package org.mixaccord.align;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.mixaccord.audio.ArrayPcm;
import org.mixaccord.audio.PcmSource;
import org.mixaccord.compare.Synth;
import org.mixaccord.measure.SlowMeter;

/** Two clips of one place differ by the mix and by nothing else. */
class PlacePairTest {
  private static final double SECONDS = 12;
  private static final double[][] MIX = Synth.mix(Synth.parts(5, SECONDS));

  private static double[][] read(PcmSource clip) throws IOException {
    double[][] out = new double[clip.channels()][(int) clip.frames()];
    // In pieces, as it is written.
    for (int at = 0; at < clip.frames(); at += 5000) {
      int count = (int) Math.min(5000, clip.frames() - at);
      double[][] some = new double[clip.channels()][count];
      clip.read(at, some, count);
      for (int c = 0; c < out.length; c++) {
        System.arraycopy(some[c], 0, out[c], at, count);
      }
    }
    return out;
  }

  private static double lufs(double[][] clip) {
    return new SlowMeter(Synth.RATE, clip).ungatedLufs(0, clip[0].length);
  }

  private static TimeMap shifted(double seconds, double length) {
    return TimeMap.of(
        List.of(new MapPiece(0, length, seconds, length + seconds, 1)), length, length + seconds);
  }

  @Test
  void theSameMusicLaterAndLouderBecomesTheSameClip() throws IOException {
    int late = 1234;
    double louder = Math.pow(10, 2.6 / 20);
    double[][] there = new double[2][MIX[0].length + late];
    for (int c = 0; c < 2; c++) {
      for (int i = 0; i < MIX[c].length; i++) {
        there[c][late + i] = louder * MIX[c][i];
      }
    }
    PlacePair pair =
        PlacePair.of(
            new ArrayPcm(Synth.RATE, MIX),
            new ArrayPcm(Synth.RATE, there),
            shifted(late / (double) Synth.RATE, SECONDS),
            new TimeSpan(3.0001, 8.0087));
    assertEquals(0, pair.gainDb(), 0);
    assertEquals(-2.6, pair.otherGainDb(), 1e-9);
    double[][] a = read(pair.here());
    double[][] b = read(pair.there());
    assertEquals(a[0].length, b[0].length);
    for (int c = 0; c < 2; c++) {
      for (int i = 0; i < a[c].length; i++) {
        assertEquals(a[c][i], b[c][i], 1e-12, "frame " + i);
      }
    }
    // The samples are those of the place, sample for sample, but for the fades.
    int first = (int) Math.round(3.0001 * Synth.RATE);
    assertEquals(MIX[0][first + 5000], a[0][5000], 0);
    assertEquals(MIX[1][first + 90000], a[1][90000], 0);
    assertTrue(Math.abs(a[0][0]) <= Math.abs(MIX[0][first]) / 100);
  }

  @Test
  void bothAreEquallyLoudByAnotherMeterWhateverDiffers() throws IOException {
    Random random = new Random(8);
    for (int run = 0; run < 4; run++) {
      double[][][] parts = Synth.parts(5, SECONDS);
      double[][][] moved = Synth.moved(parts, run, 0, SECONDS, 8 * random.nextDouble() - 4);
      double from = 1 + 3 * random.nextDouble();
      PlacePair pair =
          PlacePair.of(
              new ArrayPcm(Synth.RATE, MIX),
              new ArrayPcm(Synth.RATE, Synth.mix(moved)),
              TimeMap.identity(SECONDS),
              new TimeSpan(from, from + 1 + 6 * random.nextDouble()));
      assertEquals(lufs(read(pair.here())), lufs(read(pair.there())), 0.05, "seed 8, run " + run);
      assertTrue(pair.gainDb() <= 0 && pair.otherGainDb() <= 0);
      assertTrue(pair.gainDb() == 0 || pair.otherGainDb() == 0, "only the louder is turned");
    }
  }

  @Test
  void anotherRateAndMonoComeInTheShapeOfTheFirst() throws IOException {
    int frames = 48000 * 6;
    double[] mono = new double[frames];
    for (int i = 0; i < frames; i++) {
      mono[i] = 0.2 * Math.sin(2 * Math.PI * 440 * i / 48000.0);
    }
    double[][] stereo = new double[2][44100 * 6];
    for (int i = 0; i < stereo[0].length; i++) {
      stereo[0][i] = stereo[1][i] = 0.1 * Math.sin(2 * Math.PI * 440 * i / 44100.0);
    }
    PlacePair pair =
        PlacePair.of(
            new ArrayPcm(44100, stereo),
            new ArrayPcm(48000, mono),
            TimeMap.identity(6),
            new TimeSpan(1, 4));
    assertEquals(44100, pair.there().sampleRate());
    assertEquals(2, pair.there().channels());
    assertEquals(pair.here().frames(), pair.there().frames());
    assertEquals(-6.0206, pair.otherGainDb(), 0.001);
    double[][] a = read(pair.here());
    double[][] b = read(pair.there());
    for (int i = 441; i < a[0].length - 441; i++) {
      assertEquals(a[0][i], b[0][i], 1e-5, "frame " + i);
      assertEquals(b[0][i], b[1][i], 0);
    }
  }

  @Test
  void aSilentPlaceIsLeftAsItIs() throws IOException {
    PlacePair pair =
        PlacePair.of(
            new ArrayPcm(Synth.RATE, new double[2][MIX[0].length]),
            new ArrayPcm(Synth.RATE, MIX),
            TimeMap.identity(SECONDS),
            new TimeSpan(2, 5));
    assertEquals(0, pair.gainDb(), 0);
    assertEquals(0, pair.otherGainDb(), 0);
  }

  @Test
  void aPlaceWithACutInItDoesNotRunThrough() {
    TimeMap cut =
        TimeMap.of(List.of(new MapPiece(0, 10, 0, 10, 1), new MapPiece(10, 20, 12, 22, 1)), 20, 22);
    assertTrue(PlacePair.runsThrough(cut, new TimeSpan(2, 10)));
    assertTrue(PlacePair.runsThrough(cut, new TimeSpan(10, 20)));
    assertFalse(PlacePair.runsThrough(cut, new TimeSpan(9, 11)));
    assertFalse(PlacePair.runsThrough(TimeMap.none(20, 20), new TimeSpan(9, 11)));
  }
}
