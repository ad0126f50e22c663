package org.mixaccord.compare;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.util.List;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.mixaccord.align.MapPiece;
import org.mixaccord.audio.ArrayPcm;

/** What is said of a pass beside an earlier mix, on mixes whose differences are known. */
class RecallTest {
  private static final List<NamedSection> SECTIONS =
      List.of(
          new NamedSection("Verse 1", 0, 8),
          new NamedSection("Chorus", 8, 16),
          new NamedSection("Verse 2", 16, 24));
  private static final double[][][] PARTS = Synth.parts(1, 24);
  private static final double[][] MIX = Synth.mix(PARTS);

  private static Recall recall(ComparedFile here, ComparedFile there) throws IOException {
    return Recall.of(Comparer.compare(ComparisonInput.of(here, there, SECTIONS), p -> {}));
  }

  private static Recall recall(double[][] here) throws IOException {
    return recall(Synth.file("b", here), Synth.file("a", MIX));
  }

  private static List<String> names(Recall recall) {
    return recall.places().stream().map(Recall.Place::name).toList();
  }

  @Test
  void equalSamplesAreTheSameAudio() throws IOException {
    Recall r = recall(Synth.file("a", MIX), Synth.file("a", MIX));
    assertEquals("The same audio, sample for sample.", r.words());
    assertEquals(List.of(), r.places());
  }

  @Test
  void silenceAtAnEndIsSaidWithItsLength() throws IOException {
    Recall r =
        recall(
            Synth.file("b", MIX),
            Synth.file("a", Synth.joined(new double[2][Synth.RATE / 2], MIX)));
    assertEquals(
        "The same audio; only silence at an end differs: 500 ms less at the start.", r.words());
    assertEquals(
        "The same audio, stored in another number format.", recall(Synth.scaled(MIX, 1)).words());
  }

  @Test
  void roundingIsTheSameMixAndTheNullIsThatOfTwoDithers() throws IOException {
    Recall r =
        recall(
            Synth.file("b", Synth.rounded(MIX, 16, 3), 16),
            Synth.file("a", Synth.rounded(MIX, 16, 4), 16));
    assertTrue(r.words().startsWith("The same mix. Throughout: rounding or dither of 16 bits"));
    // Independently: the power of the difference of the two over that of the mix.
    double[][] a = Synth.rounded(MIX, 16, 3);
    double[][] b = Synth.rounded(MIX, 16, 4);
    double left = 0;
    double all = 0;
    for (int c = 0; c < 2; c++) {
      for (int i = 0; i < a[c].length; i++) {
        left += (a[c][i] - b[c][i]) * (a[c][i] - b[c][i]);
        all += a[c][i] * a[c][i];
      }
    }
    String said = r.words().replaceAll(".*The two null to −(\\d+) dB\\.", "$1");
    assertEquals(-10 * Math.log10(left / all), Double.parseDouble(said), 1, r.words());
  }

  @Test
  void overallGainIsSaidWithItsFigure() throws IOException {
    Recall r = recall(Synth.scaled(MIX, Math.pow(10, 0.3 / 20)));
    assertTrue(r.words().startsWith("The same mix. Throughout: 0.30 dB louder. The two null to"));
    assertEquals(List.of(), r.places());
  }

  @Test
  void limiterIsNamedAndNoNullClaimed() throws IOException {
    Recall r = recall(Synth.limited(MIX, 1.5, 0.5));
    assertTrue(r.words().contains("through a limiter, "), r.words());
    assertTrue(!r.words().contains("null"), r.words());
  }

  @Test
  void changedSectionIsNamedWithItsTimesAndTheRestNulls() throws IOException {
    Recall r = recall(Synth.mix(Synth.moved(PARTS, 3, 16, 24, 2)));
    assertTrue(r.words().startsWith("The same except Verse 2 (0:16–0:24): loudness "), r.words());
    assertTrue(r.words().endsWith("The rest nulls to silence."), r.words());
    assertEquals(List.of("Verse 2"), names(r));
    assertEquals(OptionalDouble.of(16), r.places().get(0).from());
    assertEquals(24, r.places().get(0).otherTo().orElseThrow(), 1e-6);
  }

  @Test
  void anotherRateAndAClockThatRunsOffAreNamed() throws IOException {
    // The same recording, its clock 50 millionths fast: laid on the other it runs 50 ppm fast.
    Recall fast = recall(Treated.at(MIX, 1 + 50e-6));
    assertTrue(fast.words().contains("runs 50 ppm fast"), fast.words());
    Recall slow = recall(Treated.at(MIX, 1 - 50e-6));
    assertTrue(slow.words().contains("runs 50 ppm slow"), slow.words());
    double[][] resampled = Treated.at(MIX, 24000 / 22050.0);
    Recall other =
        recall(
            new ComparedFile(new ArrayPcm(22050, resampled), "b", true, 32, false),
            Synth.file("a", MIX));
    assertTrue(
        other.words().contains("at another rate, 22050 Hz here, 24000 Hz there"), other.words());
  }

  @Test
  void invertedPolarityAndLossAreNamed() throws IOException {
    assertTrue(recall(Synth.scaled(MIX, -1)).words().contains("polarity is inverted"));
    Recall lossy =
        recall(
            new ComparedFile(new ArrayPcm(Synth.RATE, Treated.coded(MIX)), "b", true, 32, true),
            Synth.file("a", MIX));
    assertTrue(
        lossy.words().startsWith("The same mix. Throughout: this file was stored with loss."),
        lossy.words());
  }

  @Test
  void cutIsSaidAsTheOnlyDifference() throws IOException {
    int at = 10 * Synth.RATE;
    double[][] cut =
        Synth.joined(Synth.cut(MIX, 0, at), Synth.cut(MIX, at + Synth.RATE, MIX[0].length));
    Recall r = recall(cut);
    assertTrue(r.words().startsWith("The same except"), r.words());
    assertTrue(r.words().contains("1.0 s taken out at 0:"), r.words());
  }

  @Test
  void equaliserAndFoldAreATreatmentOfTheWhole() throws IOException {
    Recall eq = recall(Treated.shelved(MIX, 3000, 2));
    assertTrue(eq.words().startsWith("The same mix, treated as a whole. Throughout: "), eq.words());
    assertEquals(List.of(), eq.places());
    double[][] mono = new double[1][MIX[0].length];
    for (int i = 0; i < mono[0].length; i++) {
      mono[0][i] = (MIX[0][i] + MIX[1][i]) / 2;
    }
    assertEquals(
        "The same mix, treated as a whole. Throughout: this mix is mono, the other stereo.",
        recall(mono).words());
  }

  @Test
  void otherMusicIsAnotherMixAndAnotherTakeIsNeverTheSame() throws IOException {
    Recall other = recall(Synth.mix(Synth.parts(977, 24)));
    assertEquals(
        "Another mix altogether: the music of the two does not run together anywhere.",
        other.words());
    Recall take = recall(Treated.performedAgain(1, 24, 2));
    assertTrue(take.words().matches("(Reworked|Another mix).*"), take.words());
  }

  @Test
  void everyBalanceMovedIsReworked() throws IOException {
    double[][][] moved = Synth.moved(PARTS, 3, 0, 24, 3);
    Recall r = recall(Synth.mix(Synth.moved(moved, 0, 0, 24, -2)));
    assertTrue(r.words().startsWith("Reworked: no section is as before."), r.words());
    assertEquals(3, r.places().size());
  }

  /** What no synthetic pair brings about is said all the same, from the figures alone. */
  @Test
  void doubtAndManySectionsAreSaidShortly() {
    Recall many =
        Recall.of(
            of(
                section("Intro", Difference.UNCHANGED, -71.2),
                section("A", Difference.CHANGED, -20),
                section("B", Difference.CHANGED, -21),
                section("C", Difference.CHANGED, -22),
                section("D", Difference.ONLY_HERE, -300),
                section("E", Difference.UNCERTAIN, -30)));
    assertEquals(
        "The same except D, A, B and C. Whether E changed cannot be told. The rest nulls to −71 dB.",
        many.words());
    assertEquals(List.of("D", "A", "B", "C", "E"), names(many));
    Recall doubt =
        Recall.of(
            of(
                section("Intro", Difference.UNCHANGED, -35),
                section("A", Difference.UNCERTAIN, -20)));
    assertEquals(
        "The same as far as it can be told. Whether A changed cannot be told. The rest nulls only to −35 dB.",
        doubt.words());
  }

  private static Comparison of(Comparison.SectionDifference... sections) {
    return new Comparison(
        Likeness.SECTIONS,
        List.of(),
        0,
        1,
        1,
        0,
        List.of(new MapPiece(0, 60, 0, 60, 1)),
        List.of(),
        List.of(),
        OptionalDouble.empty(),
        new Comparison.Whole(OptionalDouble.empty(), OptionalDouble.empty(), List.of(), List.of()),
        List.of(sections));
  }

  private static Comparison.SectionDifference section(
      String name, Difference difference, double residualDb) {
    return new Comparison.SectionDifference(
        name,
        OptionalDouble.of(0),
        OptionalDouble.of(8),
        OptionalDouble.of(0),
        OptionalDouble.of(8),
        difference,
        OptionalDouble.of(0),
        OptionalDouble.of(residualDb),
        OptionalDouble.empty(),
        OptionalDouble.empty(),
        List.of(),
        List.of());
  }
}
