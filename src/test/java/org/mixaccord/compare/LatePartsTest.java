package org.mixaccord.compare;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.mixaccord.align.MapPiece;

/** A part that plays alone for a while, late throughout, beside edits that look like it. */
class LatePartsTest {
  private static final int SECONDS = 32;
  private static final int ALONE_TO = 10;
  private static final double[][][] PARTS = Synth.parts(83, SECONDS);
  private static final double[][] SILENCE = new double[2][PARTS[0][0].length];
  private static final List<NamedSection> SECTIONS =
      List.of(
          new NamedSection("Intro", 0, ALONE_TO),
          new NamedSection("Verse", ALONE_TO, 21),
          new NamedSection("Outro", 21, SECONDS));

  /** Only one part until a time, or from it on. */
  private static double[][] withOneAlone(int lone, double[][] as, boolean atStart) {
    double[][][] parts = new double[PARTS.length][][];
    for (int p = 0; p < parts.length; p++) {
      parts[p] =
          atStart
              ? Treated.between(SILENCE, PARTS[p], ALONE_TO, SECONDS + 1)
              : Treated.between(SILENCE, PARTS[p], -1, ALONE_TO);
    }
    parts[lone] = as;
    return Synth.mix(parts);
  }

  private static Comparison compared(double[][] here, double[][] there) throws IOException {
    return Comparer.compare(
        ComparisonInput.of(Synth.file("b", here), Synth.file("a", there), SECTIONS), p -> {});
  }

  @Test
  void partAloneAtTheStartOrTheEndThatComesLateThroughoutIsNoEdit() throws IOException {
    for (boolean atStart : new boolean[] {true, false}) {
      for (int lone = 0; lone < PARTS.length; lone++) {
        for (double milliseconds : new double[] {20, 85, -30}) {
          int frames = (int) (milliseconds * Synth.RATE / 1000);
          double[][] moved =
              frames > 0
                  ? Treated.late(PARTS[lone], frames)
                  : Synth.joined(
                      Synth.cut(PARTS[lone], -frames, PARTS[lone][0].length),
                      new double[2][-frames]);
          Comparison c =
              compared(
                  withOneAlone(lone, moved, atStart), withOneAlone(lone, PARTS[lone], atStart));
          String what = "part " + lone + ", " + milliseconds + " ms, at start " + atStart;
          assertEquals(1, c.timeMap().size(), what + ": " + c.timeMap());
          // With the part alone for most of the song there is little else to go by.
          assertEquals(0, c.offsetSeconds(), atStart ? 1e-5 : 5e-4, what);
          assertTrue(
              c.sections().stream().noneMatch(s -> s.difference() == Difference.UNCHANGED),
              what + ": " + c.sections());
        }
      }
    }
  }

  /**
   * The lone part pauses for a tenth of a second before the cut, which may lie anywhere in that.
   */
  @Test
  void introCutShortBesidePassagesMixedAnewIsStillAnEdit() throws IOException {
    int frames = Synth.RATE / 50;
    for (int other : new int[] {0, 1, 2, 3}) {
      double[][] before = withOneAlone(3, PARTS[3], true);
      double[][][] anew = Synth.moved(PARTS, other, ALONE_TO, SECONDS, 3);
      double[][][] parts = new double[PARTS.length][][];
      for (int p = 0; p < parts.length; p++) {
        parts[p] = p == 3 ? anew[p] : Treated.between(SILENCE, anew[p], ALONE_TO, SECONDS + 1);
      }
      double[][] here = Synth.cut(Synth.mix(parts), 0, PARTS[0][0].length);
      int at = 8 * Synth.RATE;
      double[][] cut =
          Synth.joined(Synth.cut(here, 0, at), Synth.cut(here, at + frames, here[0].length));
      Comparison c = compared(cut, before);
      assertEquals(2, c.timeMap().size(), "part " + other + ": " + c.timeMap());
      MapPiece after = c.timeMap().get(1);
      assertEquals(0.02, after.otherFrom() - after.from(), 1e-6, "part " + other);
      assertEquals(8, after.from(), 0.1, "part " + other);
    }
  }
}
