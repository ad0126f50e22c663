package org.mixaccord.compare;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.mixaccord.compare.PartFiles.NAMES;
import static org.mixaccord.compare.PartFiles.part;
import static org.mixaccord.compare.PartFiles.stems;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.mixaccord.align.MapPiece;
import org.mixaccord.audio.ArrayPcm;
import org.mixaccord.audio.PcmSource;

/** One pair of bounces for every kind of change there is, with what must be said of it. */
class KindsOfChangeTest {
  private static final int SECONDS = 40;
  private static final List<NamedSection> SECTIONS = sections(0);
  private static final double[][][] PARTS = Synth.parts(71, SECONDS);
  private static final double[][] MIX = Synth.mix(PARTS);
  private static final List<Difference> NOTHING = all(Difference.UNCHANGED);

  private static List<NamedSection> sections(double later) {
    List<NamedSection> out = new ArrayList<>();
    for (int i = 0; i < SECONDS / 8; i++) {
      out.add(new NamedSection("Part " + (i + 1), later + 8 * i, later + 8 * i + 8));
    }
    return out;
  }

  private static List<Difference> all(Difference d) {
    return java.util.Collections.nCopies(SECONDS / 8, d);
  }

  private static List<Difference> only(int section) {
    List<Difference> out = new ArrayList<>(NOTHING);
    out.set(section, Difference.CHANGED);
    return out;
  }

  private static Comparison toMix(double[][] here) throws IOException {
    return toMix(here, SECTIONS);
  }

  private static Comparison toMix(double[][] here, List<NamedSection> sections) throws IOException {
    return Comparer.compare(
        ComparisonInput.of(Synth.file("b", here), Synth.file("a", MIX), sections), p -> {});
  }

  private static double[][] withPart(int part, double[][] instead) {
    double[][][] parts = PARTS.clone();
    parts[part] = instead;
    return Synth.mix(parts);
  }

  private static List<Difference> differences(Comparison c) {
    return c.sections().stream().map(Comparison.SectionDifference::difference).toList();
  }

  private static List<CauseCode> causes(Comparison c) {
    return c.causes().stream().map(Comparison.Cause::code).toList();
  }

  private static void assertOnePieceAt(double offsetSeconds, Comparison c) {
    assertEquals(1, c.timeMap().size(), c.timeMap().toString());
    assertEquals(offsetSeconds, c.offsetSeconds(), 1e-6);
  }

  @Test
  void equaliserOnTheMixIsSaidOnce() throws IOException {
    Comparison c = toMix(Treated.shelved(MIX, 3000, 2));
    assertEquals(List.of(CauseCode.TONE), causes(c));
    assertEquals(all(Difference.CHANGED), differences(c));
    assertEquals(Likeness.REWORK, c.likeness());
    assertEquals(1, BiggestDifferences.forEngineers(c, 9).size());
    assertEquals(List.of("The whole mix is brighter."), BiggestDifferences.forListeners(c, 9));
    assertEquals(
        List.of("The whole mix is darker."),
        BiggestDifferences.forListeners(toMix(Treated.shelved(MIX, 3000, -2)), 9));
  }

  @Test
  void equaliserOnOnePartIsAChangeWhereItWorksAndNoToneOfTheMix() throws IOException {
    double[][] bright = Treated.between(PARTS[2], Treated.shelved(PARTS[2], 1500, 3), 16, 24);
    Comparison c = toMix(withPart(2, bright));
    assertEquals(only(2), differences(c));
    assertEquals(List.of(), causes(c));
    Comparison throughout = toMix(withPart(2, Treated.shelved(PARTS[2], 1500, 3)));
    assertEquals(List.of(), causes(throughout));
    assertTrue(!differences(throughout).contains(Difference.UNCHANGED));
  }

  @Test
  void partThatComesLateDoesNotMoveTheMap() throws IOException {
    for (double milliseconds : new double[] {5, 20, 120}) {
      int frames = (int) (milliseconds * Synth.RATE / 1000);
      Comparison c = toMix(withPart(3, Treated.late(PARTS[3], frames)));
      assertOnePieceAt(0, c);
      assertTrue(!differences(c).contains(Difference.UNCHANGED), differences(c).toString());
      double[][] inOne = Treated.between(PARTS[3], Treated.late(PARTS[3], frames), 8, 16);
      assertEquals(only(1), differences(toMix(withPart(3, inOne))), milliseconds + " ms");
    }
  }

  @Test
  void loudPartThatComesLateIsNoEdit() throws IOException {
    // Louder than everything else while it plays, so that the mix fits best at its lateness there.
    double[][] silent = new double[2][PARTS[3][0].length];
    double[][] loud = Synth.scaled(PARTS[3], 2.5);
    double[][] tune = Treated.between(silent, loud, 10, 14);
    double[][] late = Treated.between(silent, Treated.late(loud, Synth.RATE / 200), 10, 14);
    Comparison c =
        Comparer.compare(
            ComparisonInput.of(
                Synth.file("b", withPart(3, late)), Synth.file("a", withPart(3, tune)), SECTIONS),
            p -> {});
    assertOnePieceAt(0, c);
    assertEquals(only(1), differences(c));
  }

  @Test
  void shortCutsAreEditsAndNotLateParts() throws IOException {
    for (double gone : new double[] {0.02, 0.15, 0.7}) {
      int at = 20 * Synth.RATE;
      int frames = (int) Math.round(gone * Synth.RATE);
      double[][] cut =
          Synth.joined(Synth.cut(MIX, 0, at), Synth.cut(MIX, at + frames, MIX[0].length));
      Comparison c = toMix(cut);
      assertEquals(2, c.timeMap().size(), gone + " s: " + c.timeMap());
      MapPiece after = c.timeMap().get(1);
      assertEquals(20, after.from(), 0.01, gone + " s");
      assertEquals(gone, after.otherFrom() - after.from(), 1e-6);
    }
  }

  @Test
  void partThatIsMutedPannedOrSetInARoomIsFoundInItsSection() throws IOException {
    double[][] aside = {Synth.scaled(PARTS[1], 0.6)[0], Synth.scaled(PARTS[1], 1.3)[1]};
    double[][] silent = new double[2][PARTS[0][0].length];
    assertEquals(
        only(3), differences(toMix(withPart(0, Treated.between(PARTS[0], silent, 24, 32)))));
    assertEquals(only(0), differences(toMix(withPart(1, Treated.between(PARTS[1], aside, 0, 8)))));
    double[][] wet = Treated.reverberated(PARTS[3], -10, 72);
    assertEquals(only(4), differences(toMix(withPart(3, Treated.between(PARTS[3], wet, 32, 40)))));
  }

  @Test
  void passagePlayedTwicePointsTwiceAndIsSaid() throws IOException {
    int a = 8 * Synth.RATE;
    int b = 16 * Synth.RATE;
    double[][] twice = Synth.joined(Synth.cut(MIX, 0, b), Synth.cut(MIX, a, MIX[0].length));
    List<NamedSection> sections = new ArrayList<>(sections(0));
    sections.add(new NamedSection("Part 6", 40, 48));
    Comparison c = toMix(twice, sections);
    assertEquals(2, c.timeMap().size(), c.timeMap().toString());
    MapPiece again = c.timeMap().get(1);
    assertEquals(16, again.from(), 0.005);
    assertEquals(8, again.toOther(16), 1e-6);
    assertTrue(differences(c).stream().allMatch(d -> d == Difference.UNCHANGED));
    assertEquals(Likeness.SECTIONS, c.likeness());
    assertEquals(
        List.of("Part 3 (0:16–0:24) comes twice now."), BiggestDifferences.forListeners(c, 9));
  }

  @Test
  void passageThatWasMovedIsFoundAtItsNewPlace() throws IOException {
    int rate = Synth.RATE;
    double[][] moved =
        Synth.joined(
            Synth.joined(Synth.cut(MIX, 0, 8 * rate), Synth.cut(MIX, 24 * rate, 32 * rate)),
            Synth.joined(
                Synth.cut(MIX, 8 * rate, 24 * rate), Synth.cut(MIX, 32 * rate, 40 * rate)));
    Comparison c = toMix(moved);
    assertEquals(NOTHING, differences(c));
    assertEquals(
        List.of(0.0, 24.0, 8.0, 32.0),
        c.timeMap().stream().map(p -> (double) Math.round(p.otherFrom())).toList());
    for (MapPiece p : c.timeMap()) {
      assertEquals(0, Math.abs(p.otherFrom() - Math.rint(p.otherFrom())), 0.005);
    }
    assertEquals(
        List.of("Part 2 (0:08–0:16) was moved; it was at 0:24–0:32."),
        BiggestDifferences.forListeners(c, 9));
  }

  @Test
  void materialPutInIsOnlyHere() throws IOException {
    double[][] foreign = Synth.mix(Synth.parts(73, 6));
    int at = 16 * Synth.RATE;
    double[][] longer =
        Synth.joined(
            Synth.joined(Synth.cut(MIX, 0, at), foreign), Synth.cut(MIX, at, MIX[0].length));
    Comparison c = toMix(longer);
    assertEquals(1, c.onlyHere().size(), c.onlyHere().toString());
    assertEquals(16, c.onlyHere().get(0).from(), 0.02);
    assertEquals(22, c.onlyHere().get(0).to(), 0.02);
    assertEquals(
        List.of("0:16–0:22 is new, 6.0 s."),
        BiggestDifferences.forListeners(c, 9).stream().filter(s -> s.contains("is new")).toList());
  }

  @Test
  void longerAndShorterSilenceAtTheEndsIsTheSameAudio() throws IOException {
    double[][] silence = new double[2][Synth.RATE * 3 / 2];
    Comparison padded = toMix(Synth.joined(Synth.joined(silence, MIX), silence), sections(1.5));
    assertEquals(Likeness.SAME_AUDIO, padded.likeness());
    assertOnePieceAt(-1.5, padded);
    Comparison trimmed = toMix(Synth.cut(MIX, Synth.RATE / 20, MIX[0].length), sections(0));
    assertEquals(Likeness.SAME_AUDIO, trimmed.likeness());
    assertOnePieceAt(0.05, trimmed);
  }

  @Test
  void fadesAreChangesOfTheFirstAndLastSection() throws IOException {
    Comparison c = toMix(Treated.faded(MIX, 3, 5));
    assertOnePieceAt(0, c);
    assertEquals(
        List.of(
            Difference.CHANGED,
            Difference.UNCHANGED,
            Difference.UNCHANGED,
            Difference.UNCHANGED,
            Difference.CHANGED),
        differences(c));
    assertEquals(List.of(), causes(c));
  }

  @Test
  void fadeUnderALimiterIsAChangeOfTheLastSectionOnly() throws IOException {
    Comparison c = toMix(Treated.faded(Synth.limited(MIX, 2, 0.6), 0, 5));
    assertEquals(only(4), differences(c));
    assertEquals(List.of(CauseCode.OVERALL_GAIN, CauseCode.LIMITER), causes(c));
  }

  @Test
  void monoOfAStereoMixKeepsTheMapAndChangesEverySection() throws IOException {
    double[][] mono = new double[1][MIX[0].length];
    for (int i = 0; i < mono[0].length; i++) {
      mono[0][i] = (MIX[0][i] + MIX[1][i]) / 2;
    }
    Comparison c = toMix(mono);
    assertOnePieceAt(0, c);
    assertEquals(0, c.gainDb(), 0.01);
    assertTrue(!differences(c).contains(Difference.UNCHANGED), differences(c).toString());
    assertEquals(List.of(CauseCode.MONO), causes(c));
    assertEquals(
        List.of("This mix is mono, the other stereo."), BiggestDifferences.forListeners(c, 9));
  }

  @Test
  void codingWithLossIsNamedOnceAndAPartMovedUnderItIsFound() throws IOException {
    Comparison same = toMix(new ArrayPcm(Synth.RATE, Treated.coded(MIX)));
    assertEquals(List.of(CauseCode.LOSSY_CODING), causes(same));
    assertEquals(NOTHING, differences(same));
    assertEquals(Likeness.REQUANTISED, same.likeness());
    double[][] louder = Synth.mix(Synth.moved(PARTS, 3, 16, 24, 1.5));
    Comparison moved = toMix(new ArrayPcm(Synth.RATE, Treated.coded(louder)));
    assertEquals(only(2), differences(moved));
  }

  private static Comparison toMix(PcmSource lossy) throws IOException {
    ComparedFile here = new ComparedFile(lossy, "b", true, 32, true);
    return Comparer.compare(ComparisonInput.of(here, Synth.file("a", MIX), SECTIONS), p -> {});
  }

  @Test
  void clockThatDriftsIsNamedAndAChangeUnderItFound() throws IOException {
    double speed = 1 + 80e-6;
    Comparison c = toMix(Treated.at(MIX, speed));
    assertEquals(List.of(CauseCode.DRIFT), causes(c));
    assertEquals(NOTHING, differences(c));
    assertEquals(-80, (c.speedRatio() - 1) * 1e6, 0.1);
    Comparison changed = toMix(Treated.at(Synth.mix(Synth.moved(PARTS, 2, 8, 16, 1.5)), speed));
    assertEquals(only(1), differences(changed));
  }

  @Test
  void wrongRateLabelIsNamed() throws IOException {
    ComparedFile labelled =
        new ComparedFile(new ArrayPcm(Synth.RATE * 441 / 480, MIX), "b", true, 32, false);
    double longer = 480 / 441.0;
    List<NamedSection> sections =
        SECTIONS.stream()
            .map(s -> new NamedSection(s.name(), s.from() * longer, s.to() * longer))
            .toList();
    Comparison c =
        Comparer.compare(ComparisonInput.of(labelled, Synth.file("a", MIX), sections), p -> {});
    assertEquals(List.of(CauseCode.WRONG_RATE), causes(c));
    assertEquals(longer, c.speedRatio(), 1e-6);
    assertEquals(NOTHING, differences(c));
  }

  @Test
  void everythingAtOnceKeepsTheMapTheLevelAndNeverCallsAnAlteredPartUnchanged() throws IOException {
    int rate = Synth.RATE;
    double[][] altered = Synth.mix(Synth.moved(PARTS, 2, 24, 32, 2));
    double[][] cut =
        Synth.joined(
            Synth.cut(altered, rate / 10, 8 * rate), Synth.cut(altered, 16 * rate, 40 * rate));
    double[][] here = Synth.rounded(Synth.limited(cut, 1.5, 0.7), 16, 74);
    List<NamedSection> sections =
        List.of(
            new NamedSection("Part 1", 0, 7.9),
            new NamedSection("Part 3", 7.9, 15.9),
            new NamedSection("Part 4", 15.9, 23.9),
            new NamedSection("Part 5", 23.9, 31.9));
    Comparison c =
        Comparer.compare(
            ComparisonInput.of(Synth.file("b", here, 16), Synth.file("a", MIX), sections), p -> {});
    assertEquals(2, c.timeMap().size(), c.timeMap().toString());
    assertEquals(0.1, c.timeMap().get(0).toOther(3) - 3, 1 / (double) rate);
    assertEquals(8.1, c.timeMap().get(1).toOther(12) - 12, 1 / (double) rate);
    assertNotEquals(Difference.UNCHANGED, differences(c).get(2));
    for (int unaltered : new int[] {0, 1, 3}) {
      assertNotEquals(Difference.ONLY_HERE, differences(c).get(unaltered));
    }
    assertEquals(20 * Math.log10(1.5), c.gainDb(), 1.5);
  }

  @Test
  void anotherTakeOfTheSongIsNeverCalledUnchanged() throws IOException {
    for (long take = 1; take < 4; take++) {
      Comparison c = toMix(Treated.performedAgain(71, SECONDS, take));
      assertTrue(!differences(c).contains(Difference.UNCHANGED), "take " + take + differences(c));
      for (MapPiece p : c.timeMap()) {
        assertTrue(p.sure() < 0.9, "take " + take + " " + p);
      }
      assertTrue(
          c.likeness() == Likeness.NOT_COMPARABLE || c.likeness() == Likeness.REWORK,
          "take " + take + " " + c.likeness());
    }
  }

  @Test
  void partsFilesThatEndBeforeTheMixBusDoNotMakeEveryPartQuieter() throws IOException {
    double[][][] moved = Synth.moved(PARTS, 3, 8, 16, 1.5);
    double[][] louder = Synth.scaled(Synth.mix(moved), Math.pow(10, 3 / 20.0));
    Comparison c =
        Comparer.compare(
            new ComparisonInput(
                Synth.file("b", louder),
                Synth.file("a", MIX),
                SECTIONS,
                List.of(),
                stems(moved),
                stems(PARTS)),
            p -> {});
    assertEquals(3, c.gainDb(), 0.01);
    // As delivered: what was done to the part, and the level of the bus.
    assertEquals(4.5, part(c, 1, "tune").gainChangeDb().orElseThrow(), 0.02);
    assertEquals(3, part(c, 1, "bass").gainChangeDb().orElseThrow(), 0.02);
    assertEquals(
        List.of("Part 2 (0:08–0:16): tune +1.5 dB"),
        BiggestDifferences.forEngineers(c, 9).stream()
            .filter(s -> s.startsWith("Part 2"))
            .map(s -> s.substring(0, s.indexOf(", what differs")))
            .toList());
  }

  @Test
  void partsFilesThatDoNotStartWithTheBounceMakeNoPartLate() throws IOException {
    double[][] delayed = Synth.joined(new double[2][Synth.RATE / 40], MIX);
    Comparison c =
        Comparer.compare(
            new ComparisonInput(
                Synth.file("b", delayed),
                Synth.file("a", MIX),
                sections(0.025),
                List.of(),
                stems(PARTS),
                stems(PARTS)),
            p -> {});
    for (String name : NAMES) {
      assertEquals(0, part(c, 1, name).lagSeconds().orElse(0), 0, name);
    }
  }

  @Test
  void partThatWentIsNamed() throws IOException {
    double[][][] without = Synth.moved(PARTS, 0, 16, 24, -200);
    Comparison c =
        Comparer.compare(
            new ComparisonInput(
                Synth.file("b", Synth.mix(without)),
                Synth.file("a", MIX),
                SECTIONS,
                List.of(),
                stems(without),
                stems(PARTS)),
            p -> {});
    assertTrue(
        BiggestDifferences.forEngineers(c, 9)
            .get(0)
            .startsWith("Part 3 (0:16–0:24): drums is no longer there"),
        BiggestDifferences.forEngineers(c, 9).toString());
  }
}
