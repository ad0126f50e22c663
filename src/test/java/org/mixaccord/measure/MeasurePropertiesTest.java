package org.mixaccord.measure;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.mixaccord.audio.ArrayPcm;
import org.mixaccord.audio.FrameRange;

/** What has to hold for any audio, on random audio from the seeds named. */
class MeasurePropertiesTest {
  /** Programme of 12 s and some over a floor that lies well above the absolute gate. */
  private static double[][] programme(Random random, int rate, int channels) {
    int frames = (int) (rate * (12 + random.nextDouble()));
    double[][] x = new double[channels][];
    for (int c = 0; c < channels; c++) {
      x[c] = AgainstSlowMeterTest.programme(random, frames);
      for (int i = 0; i < frames; i++) {
        x[c][i] += 0.002 * random.nextGaussian();
      }
    }
    return x;
  }

  private static double[][] scaled(double[][] x, double... gains) {
    double[][] y = new double[x.length][];
    for (int c = 0; c < x.length; c++) {
      y[c] = Signals.scaled(x[c], gains[c % gains.length]);
    }
    return y;
  }

  /** The whole and sections at random places, one of them long enough for a loudness range. */
  private static void check(Moves moves, Random random, int rate, double[][] x, double[][] y) {
    MeasureTrack before = Signals.measure(new ArrayPcm(rate, x));
    MeasureTrack after = Signals.measure(new ArrayPcm(rate, y));
    moves.check(before.whole(), after.whole());
    int frames = x[0].length;
    List<FrameRange> sections = new ArrayList<>(Signals.cut(random, frames, 4));
    sections.add(new FrameRange(random.nextInt(rate), frames - random.nextInt(rate)));
    for (FrameRange section : sections) {
      moves.check(before.section(section), after.section(section));
    }
  }

  @ParameterizedTest
  @CsvSource({"44100, 2, 1", "48000, 1, 2", "11025, 3, 3", "96000, 2, 4"})
  void gainMovesEveryLevelByItselfAndNothingElse(int rate, int channels, long seed) {
    Random random = new Random(seed);
    double[][] x = programme(random, rate, channels);
    double db = -10 + 12 * random.nextDouble();
    double gain = Signals.amplitude(db);
    Moves moves =
        new Moves()
            .move(
                v -> v + db,
                "integratedLufs",
                "ungatedLufs",
                "shareLufs",
                "dualMonoLufs",
                "maxMomentaryLufs",
                "maxShortTermLufs",
                "truePeakDbtp",
                "samplePeakDbfs",
                "bands.levelDb")
            .move(v -> v * gain, "dcOffset");
    check(moves, random, rate, x, scaled(x, gain));
  }

  @ParameterizedTest
  @CsvSource({"44100, 1, 11", "48000, 2, 12", "192000, 2, 13"})
  void turningAllChannelsOverTurnsOnlyTheirMean(int rate, int channels, long seed) {
    Random random = new Random(seed);
    double[][] x = programme(random, rate, channels);
    check(new Moves().move(v -> -v, "dcOffset"), random, rate, x, scaled(x, -1));
  }

  @ParameterizedTest
  @CsvSource({"44100, 21", "48000, 22"})
  void turningOneChannelOverTurnsTheCorrelation(int rate, long seed) {
    Random random = new Random(seed);
    double[][] x = programme(random, rate, 2);
    Arrays.setAll(x[1], i -> 0.6 * x[0][i] + 0.4 * x[1][i]);
    Measurements before = Signals.measure(new ArrayPcm(rate, x)).whole();
    Measurements after = Signals.measure(new ArrayPcm(rate, scaled(x, 1, -1))).whole();
    assertTrue(before.correlation().getAsDouble() > 0.5);
    assertEquals(-before.correlation().getAsDouble(), after.correlation().getAsDouble(), 1e-12);
    assertEquals(-before.sideToMidDb().getAsDouble(), after.sideToMidDb().getAsDouble(), 1e-9);
    assertEquals(before.integratedLufs(), after.integratedLufs());
    assertEquals(before.loudnessRangeLu(), after.loudnessRangeLu());
    assertEquals(before.truePeakDbtp(), after.truePeakDbtp());
    assertEquals(before.balanceDb(), after.balanceDb());
  }

  @ParameterizedTest
  @CsvSource({"44100, 31", "48000, 32", "88200, 33"})
  void swappingChannelsTurnsOnlyTheBalance(int rate, long seed) {
    Random random = new Random(seed);
    double[][] x = programme(random, rate, 2);
    double[][] swapped = {x[1], x[0]};
    check(new Moves().move(v -> -v, "balanceDb"), random, rate, x, swapped);
  }

  /** The file's mean is that of its sections, each by its length or by its blocks. */
  @ParameterizedTest
  @CsvSource({"44100, 41", "48000, 42", "96000, 43"})
  void sectionsMakeUpTheWhole(int rate, long seed) {
    Random random = new Random(seed);
    double[][] x = {
      AgainstSlowMeterTest.programme(random, 12 * rate + 77),
      AgainstSlowMeterTest.programme(random, 12 * rate + 77)
    };
    for (double[] channel : x) {
      for (int i = 4 * rate; i < 7 * rate; i++) {
        channel[i] *= 0.01; // below the relative gate
      }
    }
    MeasureTrack track = Signals.measure(new ArrayPcm(rate, x));
    SlowMeter slow = new SlowMeter(rate, x);
    double energy = 0;
    double counted = 0;
    int blocks = 0;
    for (FrameRange section : Signals.cut(random, x[0].length, 5)) {
      FrameRange r = track.onGrid(section);
      Measurements m = track.section(section);
      energy += r.frames() * Math.pow(10, m.ungatedLufs().getAsDouble() / 10);
      int n = slow.counted((int) r.from(), (int) r.to()).length;
      assertEquals(n > 0, m.shareLufs().isPresent());
      counted += n > 0 ? n * Math.pow(10, m.shareLufs().getAsDouble() / 10) : 0;
      blocks += n;
    }
    Measurements whole = track.whole();
    assertTrue(blocks > 50 && blocks < 95, blocks + " blocks of 117");
    assertEquals(10 * Math.log10(energy / x[0].length), whole.ungatedLufs().getAsDouble(), 1e-9);
    assertEquals(10 * Math.log10(counted / blocks), whole.integratedLufs().getAsDouble(), 1e-9);
    assertEquals(whole.integratedLufs().getAsDouble(), whole.shareLufs().getAsDouble(), 1e-12);
  }

  private static MeasureTrack track(int rate, double[][] x, int cellsPerBlock) throws IOException {
    return TrackRecorder.record(new ArrayPcm(rate, x), cellsPerBlock, done -> {});
  }

  private static byte[] stored(MeasureTrack track) throws IOException {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    track.write(bytes);
    return bytes.toByteArray();
  }

  private static byte[] withoutClicks(MeasureTrack t) throws IOException {
    Marks m = t.marks();
    Marks marks =
        new Marks(m.gaps(), m.moreGaps(), List.of(), 0, m.flatTops(), m.bits(), m.spectrum());
    return stored(
        new MeasureTrack(t.grid(), t.channels(), t.cells(), t.bandGrid(), t.edges(), marks));
  }

  /** Everything the pass looks for is in it, often where blocks meet. */
  private static double[][] damaged(Random random, int rate) {
    double[][] x = new double[2][5 * rate + random.nextInt(rate)];
    for (int c = 0; c < 2; c++) {
      double tone = 0.01 + 0.02 * random.nextDouble();
      for (int i = 0; i < x[c].length; i++) {
        x[c][i] = 0.5 * Math.sin(tone * i) + 0.002 * random.nextGaussian();
      }
      for (int k = 0; k < 12; k++) {
        int edge = (1 + random.nextInt(9)) * rate / 2;
        int from = Math.min(edge, x[c].length - rate / 10) - random.nextInt(rate / 200);
        switch (k % 4) {
          case 0 -> Arrays.fill(x[c], from, from + rate / 50, 0);
          case 1 -> x[c][from] += 0.4;
          case 2 -> Arrays.fill(x[c], from, from + rate / 400, 0.55 + 0.3 * random.nextDouble());
          default -> x[c][from] = Double.NaN;
        }
      }
      for (int i = 2 * rate; i < 2 * rate + rate / 4; i++) {
        x[c][i] = Math.max(-0.95, Math.min(0.95, 3 * x[c][i]));
      }
      for (int i = 3 * rate; i < 3 * rate + rate / 4; i++) {
        x[c][i] = 1.3 * Math.sin(Math.PI / 2 * i + Math.PI / 4);
      }
    }
    return x;
  }

  @ParameterizedTest
  @CsvSource({"44100, 51", "48000, 52", "11025, 53", "8000, 54", "192000, 55", "37801, 56"})
  void blocksOfAnySizeGiveTheSameTrack(int rate, long seed) throws IOException {
    double[][] x = damaged(new Random(seed), rate);
    MeasureTrack usual = track(rate, x, TrackRecorder.CELLS_PER_BLOCK);
    assertTrue(usual.marks().gaps().size() > 2, "gaps");
    assertTrue(usual.marks().clicks().size() > 2, "clicks");
    assertEquals(
        2, usual.marks().flatTops().stream().map(Marks.FlatTop::channel).distinct().count());
    assertTrue(usual.whole().interSampleOvers() > 0, "overs");
    assertTrue(usual.nonFinite().count() > 2, "no numbers");
    for (int cells : new int[] {1, 3, 7, 16, 160, 10_000}) {
      byte[] other = withoutClicks(track(rate, x, cells));
      assertArrayEquals(withoutClicks(usual), other, cells + " cells a block");
    }
    // Clicks too, where the blocks are whole chunks.
    for (int cells : rate % 25 == 0 ? new int[] {128, 320} : new int[0]) {
      assertArrayEquals(stored(usual), stored(track(rate, x, cells)), cells + " cells a block");
    }
  }
}
