package org.mixaccord.compare;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.mixaccord.compare.PartFiles.part;
import static org.mixaccord.compare.PartFiles.stems;

import java.io.IOException;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.mixaccord.audio.PcmSource;

class ComparerTest {
  private static final List<NamedSection> SECTIONS =
      List.of(
          new NamedSection("Verse", 0, 8),
          new NamedSection("Chorus", 8, 16),
          new NamedSection("Bridge", 16, 24));
  private static final double[][][] PARTS = Synth.parts(1, 24);
  private static final double[][] MIX = Synth.mix(PARTS);

  private static Comparison compare(ComparedFile here, ComparedFile there) throws IOException {
    return Comparer.compare(ComparisonInput.of(here, there, SECTIONS), p -> {});
  }

  private static List<Difference> differences(Comparison c) {
    return c.sections().stream().map(Comparison.SectionDifference::difference).toList();
  }

  private static List<CauseCode> causes(Comparison c) {
    return c.causes().stream().map(Comparison.Cause::code).toList();
  }

  private static void assertUnchanged(Comparison c) {
    assertEquals(
        List.of(Difference.UNCHANGED, Difference.UNCHANGED, Difference.UNCHANGED), differences(c));
  }

  @Test
  void sameSamplesAreIdenticalAndNothingChanged() throws IOException {
    Comparison c = compare(Synth.file("a", MIX), Synth.file("a", MIX));
    assertEquals(Likeness.IDENTICAL, c.likeness());
    assertUnchanged(c);
    assertEquals(List.of(), c.causes());
    assertEquals(0, c.gainDb(), 1e-12);
    assertTrue(c.sections().stream().allMatch(s -> s.residualDb().isEmpty()));
    assertEquals(0, c.whole().loudnessChangeLu().orElseThrow(), 1e-9);
    assertEquals(List.of("Both mixes are the same audio."), BiggestDifferences.forListeners(c, 5));
  }

  @Test
  void silenceTrimmedAtTheHeadIsTheSameAudio() throws IOException {
    double[][] padded = Synth.joined(new double[2][Synth.RATE / 2], MIX);
    Comparison c = compare(Synth.file("b", MIX), Synth.file("a", padded));
    assertEquals(Likeness.SAME_AUDIO, c.likeness());
    assertEquals(0.5, c.offsetSeconds(), 1e-9);
    assertUnchanged(c);
    assertEquals(1, c.onlyThere().size());
    assertEquals(0.5, c.onlyThere().get(0).to(), 1e-9);
  }

  @Test
  void oneAlteredSampleIsNotTheSameAudio() throws IOException {
    double[][] altered = Synth.scaled(MIX, 1);
    altered[0][12 * Synth.RATE] += 1e-4;
    Comparison c = compare(Synth.file("b", altered), Synth.file("a", MIX));
    assertEquals(
        List.of(Difference.UNCHANGED, Difference.CHANGED, Difference.UNCHANGED), differences(c));
    assertEquals(Likeness.SECTIONS, c.likeness());
  }

  @Test
  void ditheredRoundingIsNamedAsThat() throws IOException {
    Comparison c =
        compare(
            Synth.file("b", Synth.rounded(MIX, 16, 3), 16),
            Synth.file("a", Synth.rounded(MIX, 16, 4), 16));
    assertEquals(Likeness.REQUANTISED, c.likeness());
    assertUnchanged(c);
    assertEquals(List.of(CauseCode.DITHER), causes(c));
    // Two dithers of 16 bits differ by q/√2, −93.3 dB; bands up to 0.45 fs hold most of that.
    assertEquals(-93.6, c.causes().get(0).value().orElseThrow(), 0.6);
  }

  @Test
  void overallGainIsNamedOnce() throws IOException {
    Random random = new Random(41);
    for (int run = 0; run < 3; run++) {
      double db = 6 * random.nextDouble() - 3;
      Comparison c =
          compare(Synth.file("b", Synth.scaled(MIX, Math.pow(10, db / 20))), Synth.file("a", MIX));
      assertEquals(Likeness.LEVEL_ONLY, c.likeness(), "seed 41, run " + run);
      assertEquals(db, c.gainDb(), 1e-6);
      assertEquals(db, c.whole().loudnessChangeLu().orElseThrow(), 1e-6);
      assertEquals(List.of(CauseCode.OVERALL_GAIN), causes(c));
      assertUnchanged(c);
    }
  }

  @Test
  void onePartByOneDecibelInOneSectionIsFoundAndNothingElse() throws IOException {
    Random random = new Random(42);
    for (int run = 0; run < 6; run++) {
      int part = random.nextInt(4);
      int section = random.nextInt(3);
      double db = random.nextBoolean() ? 1 : -1;
      double[][] other =
          Synth.scaled(
              Synth.mix(Synth.moved(PARTS, part, 8 * section, 8 * section + 8, db)),
              Math.pow(10, 0.3 / 20));
      Comparison c = compare(Synth.file("b", other), Synth.file("a", MIX));
      for (int s = 0; s < 3; s++) {
        assertEquals(
            s == section ? Difference.CHANGED : Difference.UNCHANGED,
            differences(c).get(s),
            "seed 42, run " + run + ", part " + part);
      }
      assertEquals(0.3, c.gainDb(), 0.01);
      assertEquals(Likeness.SECTIONS, c.likeness());
      Comparison back = compare(Synth.file("a", MIX), Synth.file("b", other));
      assertEquals(differences(c), differences(back));
      for (int s = 0; s < 3; s++) {
        assertEquals(
            c.sections().get(s).loudnessChangeLu().orElseThrow(),
            -back.sections().get(s).loudnessChangeLu().orElseThrow(),
            1e-9);
      }
      assertEquals(c.gainDb(), -back.gainDb(), 0.01);
    }
  }

  @Test
  void sectionCutOutIsFoundAndTheRestIsUnchanged() throws IOException {
    double[][] cut =
        Synth.joined(
            Synth.cut(MIX, 0, 8 * Synth.RATE), Synth.cut(MIX, 16 * Synth.RATE, 24 * Synth.RATE));
    ComparisonInput input =
        new ComparisonInput(
            Synth.file("b", cut),
            Synth.file("a", MIX),
            List.of(new NamedSection("Verse", 0, 8), new NamedSection("Bridge", 8, 16)),
            SECTIONS,
            Map.of(),
            Map.of());
    Comparison c = Comparer.compare(input, p -> {});
    assertEquals(
        List.of(Difference.UNCHANGED, Difference.UNCHANGED, Difference.ONLY_THERE), differences(c));
    assertEquals("Chorus", c.sections().get(2).name());
    assertEquals(Likeness.SECTIONS, c.likeness());
    assertTrue(
        BiggestDifferences.forListeners(c, 9).contains("Chorus was taken out."),
        BiggestDifferences.forListeners(c, 9).toString());
    Comparison back = compare(Synth.file("a", MIX), Synth.file("b", cut));
    assertEquals(
        List.of(Difference.UNCHANGED, Difference.ONLY_HERE, Difference.UNCHANGED),
        differences(back));
  }

  @Test
  void wholeSectionTurnedUpIsAChangeOfThatSection() throws IOException {
    double[][][] ridden = PARTS;
    for (int part = 0; part < 4; part++) {
      ridden = Synth.moved(ridden, part, 8, 16, 1);
    }
    Comparison c = compare(Synth.file("b", Synth.mix(ridden)), Synth.file("a", MIX));
    assertEquals(
        List.of(Difference.UNCHANGED, Difference.CHANGED, Difference.UNCHANGED), differences(c));
    assertEquals(1, c.sections().get(1).loudnessChangeLu().orElseThrow(), 0.02);
  }

  @Test
  void limiterOnTheMixIsNamedOnceAndNotAChangeOfEverySection() throws IOException {
    Comparison c = compare(Synth.file("b", Synth.limited(MIX, 2, 0.6)), Synth.file("a", MIX));
    assertEquals(List.of(CauseCode.OVERALL_GAIN, CauseCode.LIMITER), causes(c));
    assertEquals(Likeness.LEVEL_ONLY, c.likeness());
    // The level is that of what the limiter leaves alone: its drive, not the loudness it left.
    assertEquals(20 * Math.log10(2), c.gainDb(), 0.01);
    assertTrue(c.whole().loudnessChangeLu().orElseThrow() < c.gainDb() - 0.5);
    assertUnchanged(c);
    Comparison pair =
        compare(
            Synth.file("b", Synth.limited(MIX, 2, 0.6)),
            Synth.file("a", Synth.limited(MIX, 1.5, 0.6)));
    assertUnchanged(pair);
    assertEquals(20 * Math.log10(2 / 1.5), pair.gainDb(), 0.01);
  }

  @Test
  void passagePlayedTwiceIsNoMereRequantising() throws IOException {
    int at = 16 * Synth.RATE;
    double[][] twice = Synth.joined(Synth.cut(MIX, 0, at), Synth.cut(MIX, at / 2, MIX[0].length));
    Comparison c = compare(Synth.file("b", twice), Synth.file("a", MIX));
    assertEquals(Likeness.SECTIONS, c.likeness());
    assertEquals(2, c.timeMap().size());
    assertEquals(8, c.timeMap().get(1).otherFrom(), 0.006);
  }

  @Test
  void otherSongIsNotComparable() throws IOException {
    for (long seed = 50; seed < 53; seed++) {
      Comparison c =
          compare(Synth.file("b", Synth.mix(Synth.parts(seed, 24))), Synth.file("a", MIX));
      assertEquals(Likeness.NOT_COMPARABLE, c.likeness(), "seed " + seed);
      assertEquals(List.of(), c.timeMap());
    }
  }

  @Test
  void monoComparesAsTwoEqualChannels() throws IOException {
    double[][] mono = {MIX[0]};
    double[][] both = {MIX[0], MIX[0]};
    Comparison c = compare(Synth.file("b", mono), Synth.file("a", both));
    assertUnchanged(c);
    assertEquals(0, c.gainDb(), 1e-9);
    assertEquals(0, c.whole().loudnessChangeLu().orElseThrow(), 1e-9);
    assertThrows(
        IllegalArgumentException.class,
        () ->
            ComparisonInput.of(
                Synth.file("b", new double[6][100]), Synth.file("a", both), List.of()));
  }

  @Test
  void upsideDownAndExchangedSidesAreNamedAndNotAChange() throws IOException {
    Comparison turned = compare(Synth.file("b", Synth.scaled(MIX, -1)), Synth.file("a", MIX));
    assertEquals(-1, turned.polarity());
    assertEquals(List.of(CauseCode.POLARITY), causes(turned));
    assertUnchanged(turned);
    Comparison swapped =
        compare(Synth.file("b", new double[][] {MIX[1], MIX[0]}), Synth.file("a", MIX));
    assertEquals(List.of(CauseCode.CHANNELS_SWAPPED), causes(swapped));
    assertUnchanged(swapped);
    assertEquals(Likeness.REQUANTISED, swapped.likeness());
  }

  @Test
  void partsAreToldFromStemsOfBoth() throws IOException {
    double[][][] moved = Synth.moved(PARTS, 3, 8, 16, 1.5);
    moved = Synth.moved(moved, 2, 16, 24, -200);
    Comparison c = withStems(moved, stems(moved), stems(PARTS));
    assertEquals(1.5, part(c, 1, "tune").gainChangeDb().orElseThrow(), 0.02);
    assertEquals(0.0, part(c, 0, "tune").gainChangeDb().orElseThrow(), 1e-9);
    assertFalse(part(c, 2, "chords").present());
    assertTrue(part(c, 2, "chords").gainChangeDb().isEmpty());
    assertTrue(
        BiggestDifferences.forEngineers(c, 9).stream()
            .anyMatch(s -> s.startsWith("Chorus (0:08–0:16): tune +1.5 dB")),
        BiggestDifferences.forEngineers(c, 9).toString());
  }

  @Test
  void partsAreToldFromStemsOfOneSideByLeastSquares() throws IOException {
    double[][][] moved = Synth.moved(PARTS, 3, 8, 16, 1.5);
    Comparison c = withStems(moved, Map.of(), stems(PARTS));
    assertEquals(1.5, part(c, 1, "tune").gainChangeDb().orElseThrow(), 0.05);
    assertEquals(0, part(c, 1, "drums").gainChangeDb().orElseThrow(), 0.05);
    assertEquals(0, part(c, 2, "tune").gainChangeDb().orElseThrow(), 0.05);
    Comparison other = withStems(moved, stems(moved), Map.of());
    assertEquals(1.5, part(other, 1, "tune").gainChangeDb().orElseThrow(), 0.05);
  }

  @Test
  void partThatComesLateOrMovesToTheSideIsToldAsThat() throws IOException {
    double[][][] late = PARTS.clone();
    int frames = Synth.RATE / 50;
    late[3] = Synth.cut(Synth.joined(new double[2][frames], PARTS[3]), 0, PARTS[3][0].length);
    Comparison c = withStems(late, stems(late), stems(PARTS));
    assertEquals(0.02, part(c, 1, "tune").lagSeconds().orElseThrow(), 1e-4);
    assertEquals(0, part(c, 1, "bass").lagSeconds().orElseThrow(), 0);
    double[][][] aside = PARTS.clone();
    aside[0] = new double[][] {Synth.scaled(PARTS[0], 0.5)[0], Synth.scaled(PARTS[0], 1.3)[1]};
    Comparison d = withStems(aside, stems(aside), stems(PARTS));
    assertTrue(part(d, 0, "drums").panChange().orElseThrow() > 0.3);
    assertEquals(0, part(d, 0, "tune").panChange().orElseThrow(), 1e-9);
  }

  private static Comparison withStems(
      double[][][] here, Map<String, PcmSource> stemsHere, Map<String, PcmSource> stemsThere)
      throws IOException {
    return Comparer.compare(
        new ComparisonInput(
            Synth.file("b", Synth.mix(here)),
            Synth.file("a", MIX),
            SECTIONS,
            List.of(),
            stemsHere,
            stemsThere),
        p -> {});
  }
}
