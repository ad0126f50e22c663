package org.mixaccord.measure;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.Random;
import java.util.function.Predicate;
import org.junit.jupiter.api.Test;
import org.mixaccord.audio.ArrayPcm;

/** What was agreed, held against a tone of known level. */
class AgreedTest {
  private static final int RATE = 48000;
  private static final FileFacts FILE =
      new FileFacts(RATE, OptionalInt.of(24), OptionalInt.of(24), false, false);

  /** Reads −20.0 LUFS, −20.0 dBFS and −20.0 dBTP. */
  private static final MeasureTrack TONE = Signals.stereo(RATE, Signals.sine(RATE, 1000, -20, 5));

  private static DeliveryLimits limits(
      double truePeak, double sample, double least, double most, int rate, int bits) {
    return new DeliveryLimits(
        OptionalDouble.of(truePeak),
        OptionalDouble.of(sample),
        OptionalDouble.of(least),
        OptionalDouble.of(most),
        OptionalInt.of(rate),
        OptionalInt.of(bits));
  }

  @Test
  void whatIsMetIsSaidAsWell() {
    List<Agreed> all = Agreed.of(TONE, limits(-19, -19, -21, -19, RATE, 24), FILE);
    assertEquals(
        List.of("ceilingDbtp", "ceilingDbfs", "minLufs", "maxLufs", "sampleRate", "bitDepth"),
        all.stream().map(Agreed::field).toList());
    assertTrue(all.stream().allMatch(a -> a.met().equals(Optional.of(true))), all.toString());
    assertEquals(
        List.of(
            "The true peak stays under the agreed ceiling.",
            "The highest sample stays under the agreed ceiling.",
            "The mix is no quieter than agreed.",
            "The mix is no louder than agreed.",
            "The sample rate is the agreed one.",
            "The word length is the agreed one."),
        all.stream().map(Agreed::words).toList());
    assertEquals(-20, all.get(0).found().getAsDouble(), 0.02);
    assertEquals(-20, all.get(2).found().getAsDouble(), 0.05);
    assertEquals(RATE, all.get(4).found().getAsDouble());
    assertEquals(24, all.get(5).found().getAsDouble());
  }

  @Test
  void whatIsNotMetIsSaidWithoutFigures() {
    List<Agreed> all = Agreed.of(TONE, limits(-21, -20.2, -18, -22, 44100, 16), FILE);
    assertTrue(all.stream().allMatch(a -> a.met().equals(Optional.of(false))), all.toString());
    assertEquals(
        List.of(
            "The true peak goes over the agreed ceiling.",
            "The highest sample goes over the agreed ceiling.",
            "The mix is quieter than agreed.",
            "The mix is louder than agreed.",
            "The sample rate is not the agreed one.",
            "The word length is not the agreed one."),
        all.stream().map(Agreed::words).toList());
    assertEquals(
        "The true peak goes over the agreed ceiling, by no more than two right meters may differ.",
        Agreed.of(TONE, limits(-20.2, 0, -70, 0, RATE, 24), FILE).get(0).words());
  }

  @Test
  void whatCannotBeToldIsNeitherMetNorMissed() {
    MeasureTrack silence = Signals.measure(new ArrayPcm(RATE, new double[RATE], new double[RATE]));
    FileFacts lossy = new FileFacts(RATE, OptionalInt.empty(), OptionalInt.empty(), true, true);
    List<Agreed> all = Agreed.of(silence, limits(-1, -1, -20, -10, RATE, 24), lossy);
    assertEquals(
        List.of(
            Optional.of(true),
            Optional.of(true),
            Optional.empty(),
            Optional.empty(),
            Optional.of(true),
            Optional.of(false)),
        all.stream().map(Agreed::met).toList());
    assertTrue(all.get(0).found().isEmpty());
    assertTrue(all.get(5).found().isEmpty());
    assertEquals(List.of(), Agreed.of(TONE, DeliveryLimits.none(), FILE));
  }

  /** The list and the findings must never say two things. */
  @Test
  void agreesWithTheFindings() {
    Random random = new Random(20261125);
    MeasureTrack music =
        Signals.measure(
            new ArrayPcm(RATE, AgainstSlowMeterTest.programme(random, 8 * RATE), noise(random)));
    Measurements whole = music.whole();
    int missed = 0;
    for (int i = 0; i < 200; i++) {
      // Close round the edge, where rounding decides.
      double width = i % 2 == 0 ? 0.12 : 0.012;
      double loudness = whole.integratedLufs().getAsDouble() + width * (random.nextDouble() - 0.5);
      boolean least = random.nextBoolean();
      DeliveryLimits limits =
          limits(
              whole.truePeakDbtp().getAsDouble() + width * (random.nextDouble() - 0.5),
              whole.samplePeakDbfs().getAsDouble() + width * (random.nextDouble() - 0.5),
              least ? loudness : -70,
              least ? 0 : loudness,
              random.nextBoolean() ? RATE : 44100,
              random.nextBoolean() ? 24 : 16);
      long found =
          Findings.of(music, limits, FILE).stream()
              .map(f -> f.code().equals("over") ? f.limit().getAsDouble() + "" : f.detail())
              .filter(Predicate.not(String::isEmpty))
              .filter(
                  d ->
                      d.startsWith("The mix is ")
                          || d.startsWith("The file has ")
                          || d.matches("-?[0-9.E-]+"))
              .distinct()
              .count();
      long open =
          Agreed.of(music, limits, FILE).stream()
              .filter(a -> a.met().equals(Optional.of(false)))
              .count();
      assertEquals(found, open, "seed 20261125, turn " + i + ", " + limits);
      missed += open > 0 ? 1 : 0;
    }
    assertTrue(missed > 50 && missed < 200, missed + " of 200 missed something");
  }

  private static double[] noise(Random random) {
    return Signals.noise(random, 8 * RATE, 0.05);
  }
}
