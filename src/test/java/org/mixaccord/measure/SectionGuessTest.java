package org.mixaccord.measure;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.mixaccord.measure.SectionGuess.Boundary;

class SectionGuessTest {
  private static final int RATE = 22050;

  /** A chord of decaying notes twice a second, over noise. */
  private static void play(double[] x, int from, int to, long seed, double... hz) {
    Random random = new Random(seed);
    for (int i = from; i < to; i++) {
      double beat = (i - from) % (RATE / 2) / (double) RATE;
      for (double f : hz) {
        x[i] += 0.1 * Math.exp(-4 * beat) * Math.sin(2 * Math.PI * f * i / RATE);
      }
      x[i] += 0.01 * random.nextGaussian();
    }
  }

  private static double[] song(double... boundaries) {
    double[][] chords = {
      {110, 554.4, 659.3, 880},
      {82.4, 830.6, 987.8, 1318.5, 4000},
      {146.8, 587.3, 740, 1174.7, 6000}
    };
    double[] x = new double[(int) (100 * RATE)];
    double from = 0;
    for (int k = 0; k <= boundaries.length; k++) {
      double to = k < boundaries.length ? boundaries[k] : 100;
      play(x, (int) (from * RATE), (int) (to * RATE), k, chords[k % 3]);
      from = to;
    }
    return x;
  }

  private static List<Double> times(List<Boundary> boundaries) {
    return boundaries.stream().map(Boundary::seconds).toList();
  }

  @ParameterizedTest
  @ValueSource(doubles = {0, 0.3, 0.77})
  void changesOfHarmonyAndSoundAreFoundWithinAQuarterOfASecond(double late) {
    double[] truth = {18 + late, 41 + late, 57 + late, 83 + late};
    List<Double> found = times(SectionGuess.boundaries(Signals.stereo(RATE, song(truth))));
    for (double t : truth) {
      assertTrue(
          found.stream().anyMatch(f -> Math.abs(f - t) <= 0.25), t + " is missing in " + found);
    }
    assertTrue(found.size() <= truth.length + 1, "too many: " + found);
  }

  @Test
  void turningTheWholeSongDownChangesNothing() {
    double[] x = song(25, 50, 75);
    assertEquals(
        times(SectionGuess.boundaries(Signals.stereo(RATE, x))),
        times(SectionGuess.boundaries(Signals.stereo(RATE, Signals.scaled(x, 0.1)))));
  }

  @Test
  void nothingIsGuessedWhereNothingChangesOrThereIsTooLittle() {
    double[] noise = Signals.noise(new Random(7), 90 * RATE, 0.1);
    assertEquals(List.of(), SectionGuess.boundaries(Signals.stereo(RATE, noise)));
    assertEquals(List.of(), SectionGuess.boundaries(Signals.stereo(RATE, new double[60 * RATE])));
    double[] tone = Signals.sine(RATE, 440, -20, 60);
    assertEquals(List.of(), SectionGuess.boundaries(Signals.stereo(RATE, tone)));
    double[] shortly = Signals.noise(new Random(7), 15 * RATE, 0.1);
    assertEquals(List.of(), SectionGuess.boundaries(Signals.stereo(RATE, shortly)));
    assertEquals(List.of(), SectionGuess.boundaries(Signals.stereo(RATE, new double[0])));
  }

  @Test
  void aBoundaryMovesToTheNearestBarlineAndNeverBeyondTheFirstOrLast() {
    List<Boundary> guessed =
        List.of(
            new Boundary(0.7, 1),
            new Boundary(5.1, 1),
            new Boundary(6.9, 1),
            new Boundary(7.2, 1),
            new Boundary(30, 1));
    assertEquals(
        List.of(0.7, 5.0, 7.0, 30.0),
        SectionGuess.atBarlines(guessed, List.of(1.0, 3.0, 5.0, 7.0, 9.0)));
    assertEquals(List.of(0.7, 5.1, 6.9, 7.2, 30.0), SectionGuess.atBarlines(guessed, List.of()));
  }
}
