package org.mixaccord.measure;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import org.junit.jupiter.api.Test;
import org.mixaccord.audio.ArrayPcm;
import org.mixaccord.audio.FrameRange;

/** The sentence for people who read no meters. */
class LoudestTest {
  private static final int RATE = 48000;

  /** Verse −30, chorus −24, verse −30, chorus −20; five seconds each. */
  private static final MeasureTrack SONG =
      Signals.stereo(RATE, Signals.steps(RATE, 997, 5, -30, 5, -24, 5, -30, 5, -20));

  private static Loudest.Named section(String name, double from, double to) {
    return new Loudest.Named(name, new FrameRange(Math.round(from * RATE), Math.round(to * RATE)));
  }

  private static List<Agreed> ceiling(MeasureTrack track, double dbtp) {
    return Agreed.of(
        track,
        new DeliveryLimits(
            OptionalDouble.of(dbtp),
            OptionalDouble.empty(),
            OptionalDouble.empty(),
            OptionalDouble.empty(),
            OptionalInt.empty(),
            OptionalInt.empty()),
        new FileFacts(RATE, OptionalInt.of(24), OptionalInt.of(24), false, false));
  }

  private static final List<Loudest.Named> FORM =
      List.of(
          section("Verse 1", 0, 5),
          section("Chorus 1", 5, 10),
          section("Verse 2", 10, 15),
          section("Chorus 2", 15, 20));

  @Test
  void lastOfSeveralAlikeIsCalledTheLast() {
    assertEquals(
        "The last chorus is the loudest spot; it stays under the agreed ceiling.",
        Loudest.words(SONG, FORM, ceiling(SONG, -1)));
    assertEquals("The last chorus is the loudest spot.", Loudest.words(SONG, FORM, List.of()));
  }

  @Test
  void overTheCeilingIsSaidWithoutAFigure() {
    assertEquals(
        "The last chorus is the loudest spot. The mix goes over the agreed ceiling; the engineer"
            + " sees where.",
        Loudest.words(SONG, FORM, ceiling(SONG, -26)));
  }

  @Test
  void namesArePeoplesOwn() {
    assertEquals(
        "Chorus 2 is the loudest spot.",
        Loudest.words(SONG, List.of(FORM.get(0), FORM.get(3)), List.of()));
    assertEquals(
        "The last EDM Drop is the loudest spot.",
        Loudest.words(
            SONG, List.of(section("EDM Drop 1", 5, 10), section("EDM Drop 2", 15, 20)), List.of()));
    assertEquals(
        "DAS ENDE is the loudest spot.",
        Loudest.words(SONG, List.of(section("DAS ENDE", 15, 20)), List.of()));
  }

  @Test
  void loudestMomentMayLieElsewhere() {
    double[] x = Signals.steps(RATE, 997, 10, -20, 6, -60, 4, -19);
    MeasureTrack track = Signals.stereo(RATE, x);
    List<Loudest.Named> form = List.of(section("Verse", 0, 10), section("Outro", 10, 20));
    assertEquals(
        "Verse is the loudest part as a whole, the loudest moment comes in Outro.",
        Loudest.words(track, form, List.of()));
    assertEquals(
        "Verse is the loudest part as a whole, the loudest moment comes near the end.",
        Loudest.words(track, form.subList(0, 1), List.of()));
  }

  @Test
  void withoutAFormThePlaceIsAShareOfTheSong() {
    assertEquals(
        "The loudest spot is near the end; it stays under the agreed ceiling.",
        Loudest.words(SONG, List.of(), ceiling(SONG, -1)));
    MeasureTrack early = Signals.stereo(RATE, Signals.steps(RATE, 997, 4, -20, 16, -30));
    assertEquals(
        "The loudest spot is near the beginning.", Loudest.words(early, List.of(), List.of()));
  }

  @Test
  void silenceAndScrapsHaveWordsToo() {
    MeasureTrack silence = Signals.measure(new ArrayPcm(RATE, new double[RATE], new double[RATE]));
    assertEquals("There is nothing to hear in this mix.", Loudest.words(silence, FORM, List.of()));
    MeasureTrack scrap = Signals.stereo(RATE, Signals.sine(RATE, 997, -20, 1));
    assertEquals(
        "The mix is too short to say where it is loudest.",
        Loudest.words(scrap, List.of(), List.of()));
  }

  @Test
  void shapeIsTheSameAtAnyLevel() {
    double[] loud = AgainstSlowMeterTest.programme(new java.util.Random(4), 5 * RATE);
    List<ShapedBand> a = ShapedBand.of(Signals.stereo(RATE, loud).whole());
    List<ShapedBand> b =
        ShapedBand.of(Signals.stereo(RATE, Signals.scaled(loud, Signals.amplitude(-7))).whole());
    assertEquals(31, a.size());
    for (int i = 0; i < a.size(); i++) {
      assertEquals(a.get(i).levelDb().getAsDouble() - 7, b.get(i).levelDb().getAsDouble(), 1e-6);
      assertEquals(a.get(i).shapeDb().getAsDouble(), b.get(i).shapeDb().getAsDouble(), 1e-6);
    }
    // A tone at 997 Hz reads its peak level in LUFS; its band has the mean square, 3.01 dB less.
    ShapedBand tone =
        ShapedBand.of(Signals.stereo(RATE, Signals.sine(RATE, 997, -12, 5)).whole()).get(17);
    assertEquals(1000, tone.centreHz());
    assertEquals(-15.01, tone.levelDb().getAsDouble(), 0.05);
    assertEquals(-3.01, tone.shapeDb().getAsDouble(), 0.05);
    assertTrue(
        ShapedBand.of(
                Signals.measure(new ArrayPcm(RATE, new double[RATE], new double[RATE])).whole())
            .stream()
            .allMatch(s -> s.shapeDb().isEmpty()));
  }
}
