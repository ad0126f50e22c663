package org.mixaccord.compare;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.util.List;
import java.util.OptionalDouble;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.mixaccord.align.Aligner;
import org.mixaccord.align.TimeMap;
import org.mixaccord.audio.ArrayPcm;

/** What holds of any song, on songs, cuts and levels drawn at random from a written seed. */
class ComparingPropertiesTest {
  private static final int RUNS = 4;
  private static final double FRAME = 1.0 / Synth.RATE;

  /** Within this of an edit point two maps may differ. */
  private static final double EDGE_SECONDS = 0.01;

  private static TimeMap map(double[][] here, double[][] there) throws IOException {
    return Aligner.align(new ArrayPcm(Synth.RATE, here), new ArrayPcm(Synth.RATE, there)).timeMap();
  }

  /** A version of a song: some silence in front, one passage gone, another level. */
  private static double[][] version(double[][] song, Random random, double gain) {
    int rate = Synth.RATE;
    int lead = random.nextInt(rate);
    int from = (5 + random.nextInt(10)) * rate + random.nextInt(rate);
    int gone = 2 * rate + random.nextInt(4 * rate);
    double[][] cut =
        Synth.joined(Synth.cut(song, 0, from), Synth.cut(song, from + gone, song[0].length));
    return Synth.scaled(Synth.joined(new double[2][lead], cut), gain);
  }

  @Test
  void aBounceBesideItselfHasNoDifference() throws IOException {
    for (int run = 0; run < RUNS; run++) {
      double[][] song = Synth.mix(Synth.parts(300 + run, 20));
      // Told by the samples, as if the hashes were not known to be equal.
      Comparison c =
          Comparer.compare(
              ComparisonInput.of(
                  Synth.file("b", song),
                  Synth.file("a", song),
                  List.of(new NamedSection("A", 0, 10), new NamedSection("B", 10, 20))),
              p -> {});
      assertEquals(Likeness.SAME_AUDIO, c.likeness(), "seed " + (300 + run));
      assertEquals(0, c.gainDb(), 1e-9);
      assertEquals(0, c.offsetSeconds());
      assertEquals(List.of(), c.causes());
      assertTrue(c.onlyHere().isEmpty() && c.onlyThere().isEmpty());
      for (Comparison.SectionDifference s : c.sections()) {
        assertEquals(Difference.UNCHANGED, s.difference());
        assertEquals(OptionalDouble.empty(), s.residualDb());
        assertEquals(0, s.loudnessChangeLu().orElseThrow(), 1e-9);
      }
    }
  }

  @Test
  void changingPlacesTurnsTheMapRound() throws IOException {
    Random random = new Random(310);
    for (int run = 0; run < RUNS; run++) {
      double[][] song = Synth.mix(Synth.parts(311 + run, 30));
      double[][] other = version(song, random, 0.5 + random.nextDouble());
      assertAgree(
          map(song, other).inverse(), map(other, song), other[0].length, "seed 310, run " + run);
    }
  }

  @Test
  void oneMapAfterAnotherIsTheDirectOne() throws IOException {
    Random random = new Random(320);
    for (int run = 0; run < RUNS; run++) {
      double[][] song = Synth.mix(Synth.parts(321 + run, 30));
      double[][] second = version(song, random, 1);
      double[][] third = version(second, random, 0.8);
      TimeMap chained =
          map(third, second)
              .then(
                  map(second, song),
                  third[0].length / (double) Synth.RATE,
                  song[0].length / (double) Synth.RATE);
      assertAgree(chained, map(third, song), third[0].length, "seed 320, run " + run);
    }
  }

  /** Equal to a frame everywhere but next to edit points, which may lie some milliseconds apart. */
  private static void assertAgree(TimeMap a, TimeMap b, int frames, String which) {
    int compared = 0;
    for (double t = 0.5 * EDGE_SECONDS; t < frames * FRAME; t += 0.037) {
      double at = t;
      boolean nearAnEdge =
          a.pieces().stream()
              .anyMatch(
                  p ->
                      Math.abs(p.from() - at) < EDGE_SECONDS
                          || Math.abs(p.to() - at) < EDGE_SECONDS);
      if (nearAnEdge) {
        continue;
      }
      OptionalDouble x = a.toOther(t);
      OptionalDouble y = b.toOther(t);
      assertEquals(x.isPresent(), y.isPresent(), which + " at " + t + " " + a + " " + b);
      if (x.isPresent()) {
        assertEquals(x.getAsDouble(), y.getAsDouble(), FRAME, which + " at " + t);
        compared++;
      }
    }
    assertTrue(compared > 300, which + ": only " + compared + " places in both");
  }

  @Test
  void theLevelThatWasSetIsTheLevelFound() throws IOException {
    Random random = new Random(330);
    for (int run = 0; run < RUNS; run++) {
      double db = 12 * random.nextDouble() - 6;
      double[][][] parts = Synth.parts(331 + run, 24);
      // One part is moved as well: it must not pull the level.
      double[][] moved = Synth.mix(Synth.moved(parts, run, 8, 16, 2));
      Comparison c =
          Comparer.compare(
              ComparisonInput.of(
                  Synth.file("b", Synth.scaled(moved, Math.pow(10, db / 20))),
                  Synth.file("a", Synth.mix(parts)),
                  List.of(
                      new NamedSection("A", 0, 8),
                      new NamedSection("B", 8, 16),
                      new NamedSection("C", 16, 24))),
              p -> {});
      assertEquals(db, c.gainDb(), 0.01, "seed 330, run " + run);
    }
  }
}
