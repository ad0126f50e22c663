package org.mixaccord.measure;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.util.Arrays;
import java.util.List;
import java.util.OptionalDouble;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.mixaccord.audio.ArrayPcm;
import org.mixaccord.audio.FrameRange;

/** Closed forms, properties, edges. */
class MeasureTrackTest {
  private static final int RATE = 48000;

  private static double[] music(long seed, int frames) {
    return AgainstSlowMeterTest.programme(new Random(seed), frames);
  }

  @Test
  void fullScaleToneInOneFrontChannelReadsMinus301() {
    double[] tone = Signals.sine(RATE, 997, 0, 5);
    Measurements m = Signals.measure(new ArrayPcm(RATE, tone, new double[tone.length])).whole();
    assertEquals(-3.01, m.integratedLufs().getAsDouble(), 0.005);
    assertTrue(m.correlation().isEmpty());
    assertTrue(m.balanceDb().isEmpty());
    assertEquals(3.0103, m.monoLossDb().getAsDouble(), 1e-4);
  }

  @Test
  void monoIsShownBothWays() {
    double[] tone = Signals.sine(RATE, 1000, -23, 5);
    Measurements one = Signals.measure(new ArrayPcm(RATE, tone)).whole();
    Measurements two = Signals.stereo(RATE, tone).whole();
    assertEquals(-26.0, one.integratedLufs().getAsDouble(), 0.01);
    assertEquals(two.integratedLufs().getAsDouble(), one.dualMonoLufs().getAsDouble(), 1e-9);
    assertTrue(two.dualMonoLufs().isEmpty());
    assertTrue(one.correlation().isEmpty());
    assertTrue(one.monoLossDb().isEmpty());
  }

  @Test
  void crestOfKnownShapes() {
    double[] sine = Signals.sine(RATE, 1000, -6, 2);
    assertEquals(3.0103, Signals.stereo(RATE, sine).whole().crestDb().getAsDouble(), 1e-3);
    double[] square = new double[RATE];
    Arrays.setAll(square, i -> i / 50 % 2 == 0 ? 0.5 : -0.5);
    assertEquals(0, Signals.stereo(RATE, square).whole().crestDb().getAsDouble(), 1e-9);
  }

  @Test
  void stereoFiguresOfKnownPairs() {
    double[] a = Signals.noise(new Random(1), 4 * RATE, 0.1);
    double[] b = Signals.noise(new Random(2), 4 * RATE, 0.1);
    Measurements same = Signals.measure(new ArrayPcm(RATE, a, a)).whole();
    assertEquals(1, same.correlation().getAsDouble(), 1e-12);
    assertEquals(0, same.monoLossDb().getAsDouble(), 1e-12);
    assertTrue(same.sideToMidDb().isEmpty());
    Measurements apart = Signals.measure(new ArrayPcm(RATE, a, b)).whole();
    assertEquals(0, apart.correlation().getAsDouble(), 0.01);
    assertEquals(3.01, apart.monoLossDb().getAsDouble(), 0.05);
    assertEquals(0, apart.sideToMidDb().getAsDouble(), 0.1);
    Measurements flipped = Signals.measure(new ArrayPcm(RATE, a, Signals.scaled(a, -1))).whole();
    assertEquals(-1, flipped.correlation().getAsDouble(), 1e-12);
    assertTrue(flipped.monoLossDb().isEmpty());
    Measurements left = Signals.measure(new ArrayPcm(RATE, a, Signals.scaled(a, 0.5))).whole();
    assertEquals(6.0206, left.balanceDb().getAsDouble(), 1e-4);
  }

  @ParameterizedTest
  @ValueSource(ints = {8000, 44100, 48000, 96000, 192000})
  void toneStandsInItsOwnThirdAndNowhereElse(int rate) {
    for (int band = 0; band < ThirdOctaves.COUNT; band += 3) {
      if (!ThirdOctaves.within(band, rate)) {
        continue;
      }
      double[] x = Signals.sine(rate, ThirdOctaves.exactHz(band), -12, 6);
      List<Band> bands = Signals.stereo(rate, x).section(new FrameRange(rate, 5L * rate)).bands();
      assertEquals(-15.01, bands.get(band).levelDb().getAsDouble(), 0.1, "band " + band);
      for (int other = 0; other < ThirdOctaves.COUNT; other++) {
        int away = Math.abs(other - band);
        if (away >= 2) {
          // Side lobes of the window, worst where two resolutions meet.
          double most = away >= 5 ? -72 : -55;
          assertTrue(bands.get(other).levelDb().orElse(-200) < most, band + " leaks to " + other);
        }
      }
      assertEquals(1, bands.get(band).correlation().getAsDouble(), 1e-6);
    }
    assertEquals(31, Signals.stereo(rate, new double[rate]).whole().bands().size());
  }

  @Test
  void bandsOfNoiseAddUpToItsPower() {
    double[] a = Signals.noise(new Random(5), 10 * RATE, 0.1);
    double[] b = Signals.noise(new Random(6), 10 * RATE, 0.05);
    Measurements m = Signals.measure(new ArrayPcm(RATE, a, b)).whole();
    double sum =
        m.bands().stream().mapToDouble(x -> Math.pow(10, x.levelDb().getAsDouble() / 10)).sum();
    double share = (ThirdOctaves.upperHz(30) - ThirdOctaves.lowerHz(0)) / (RATE / 2.0);
    assertEquals(10 * Math.log10(0.00625 * share), 10 * Math.log10(sum), 0.03);
  }

  @Test
  void topBandIsMissingWhereTheRateDoesNotReach() {
    double[] x = music(3, 44100);
    assertTrue(Signals.stereo(44100, x).whole().bands().get(30).levelDb().isEmpty());
    assertTrue(Signals.stereo(48000, x).whole().bands().get(30).levelDb().isPresent());
  }

  @Test
  void quietSectionAfterALoudOneIsNotTouchedByIt() {
    double[] x = Signals.steps(RATE, 1000, 10, -10, 10, -30);
    MeasureTrack track = Signals.stereo(RATE, x);
    Measurements quiet = track.section(new FrameRange(10L * RATE, 20L * RATE));
    assertEquals(-30, quiet.integratedLufs().getAsDouble(), 0.02);
    assertEquals(-30, quiet.maxMomentaryLufs().getAsDouble(), 0.05);
    // Past the block that straddles the boundary, whose centre still counts here.
    Measurements later = track.section(new FrameRange(21L * RATE / 2, 20L * RATE));
    assertTrue(later.shareLufs().isEmpty(), "below the whole clip's gate");
    assertEquals(
        0,
        track
            .loudest(List.of(new FrameRange(0, 10L * RATE), new FrameRange(10L * RATE, 20L * RATE)))
            .getAsInt());
    FrameRange loudest = track.loudestThreeSeconds().orElseThrow();
    assertEquals(3L * RATE, loudest.frames());
    assertTrue(loudest.to() <= 10L * RATE);
  }

  @Test
  void shortSectionsHaveOnlyTheFiguresThatExist() {
    MeasureTrack track = Signals.stereo(RATE, music(10, 5 * RATE));
    Measurements third = track.section(new FrameRange(RATE, RATE + 3 * RATE / 10));
    assertTrue(third.ungatedLufs().isEmpty());
    assertTrue(third.integratedLufs().isEmpty());
    assertTrue(third.maxMomentaryLufs().isEmpty());
    assertTrue(third.samplePeakDbfs().isPresent());
    Measurements two = track.section(new FrameRange(RATE, 3 * RATE));
    assertTrue(two.maxMomentaryLufs().isPresent());
    assertTrue(two.maxShortTermLufs().isEmpty());
    Measurements none = track.section(new FrameRange(RATE, RATE));
    assertTrue(none.samplePeakDbfs().isEmpty());
    assertTrue(none.dcOffset().isEmpty());
    assertTrue(none.bands().isEmpty());
    assertTrue(track.section(new FrameRange(RATE, RATE + 1)).samplePeakDbfs().isPresent());
    assertTrue(track.section(new FrameRange(9L * RATE, 10L * RATE)).samplePeakDbfs().isEmpty());
  }

  @Test
  void silenceAndNothingHaveNoLevel() {
    for (int frames : new int[] {0, 1, 100, 12 * RATE}) {
      MeasureTrack track = Signals.stereo(RATE, new double[frames]);
      Measurements m = track.whole();
      assertTrue(m.integratedLufs().isEmpty());
      assertTrue(m.ungatedLufs().isEmpty());
      assertTrue(m.truePeakDbtp().isEmpty());
      assertTrue(m.crestDb().isEmpty());
      assertTrue(m.loudnessRangeLu().isEmpty());
      assertTrue(track.loudestThreeSeconds().isEmpty());
      assertArrayEquals(new double[] {-70, -70}, track.outline(2));
    }
  }

  @Test
  void peakBelongsToTheSectionThatHoldsItsInstant() {
    double[] x = new double[2 * RATE];
    x[RATE - 1] = 0.7;
    x[RATE] = 0.7; // the swing between the two lies in the frame before the boundary
    MeasureTrack track = Signals.stereo(RATE, x);
    Measurements first = track.section(new FrameRange(0, RATE));
    Measurements second = track.section(new FrameRange(RATE, 2 * RATE));
    assertTrue(first.truePeakDbtp().getAsDouble() > second.truePeakDbtp().getAsDouble() + 1);
    assertEquals((RATE - 0.5) / RATE, first.truePeakAt().getAsDouble(), 1e-7);
    assertEquals(20 * Math.log10(0.7 * 4 / Math.PI), first.truePeakDbtp().getAsDouble(), 0.1);
  }

  @Test
  void brokenSamplesCountAsSilenceAndAreCounted() {
    double[] clean = music(12, 3 * RATE);
    double[] broken = clean.clone();
    clean[RATE] = 0;
    clean[2 * RATE] = 0;
    broken[RATE] = Double.NaN;
    broken[2 * RATE] = Double.NEGATIVE_INFINITY;
    MeasureTrack track = Signals.measure(new ArrayPcm(RATE, broken));
    assertEquals(new NonFinite(2, OptionalDouble.of(1), OptionalDouble.of(2)), track.nonFinite());
    assertEquals(Signals.measure(new ArrayPcm(RATE, clean)).whole(), track.whole());
  }

  @Test
  void storedTrackGivesTheSameFigures() throws IOException {
    MeasureTrack track =
        Signals.measure(new ArrayPcm(RATE, music(13, 5 * RATE + 77), music(14, 5 * RATE + 77)));
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    track.write(bytes);
    byte[] stored = bytes.toByteArray();
    MeasureTrack again = MeasureTrack.read(new ByteArrayInputStream(stored));
    assertEquals(track.whole(), again.whole());
    FrameRange r = new FrameRange(12345, 178901);
    assertEquals(track.section(r), again.section(r));
    assertArrayEquals(track.outline(37), again.outline(37));
    assertEquals(track.nonFinite(), again.nonFinite());
    for (int length : new int[] {0, 3, 10, 40, stored.length / 2, stored.length - 1}) {
      assertThrows(
          IOException.class,
          () -> MeasureTrack.read(new ByteArrayInputStream(Arrays.copyOf(stored, length))));
    }
    stored[7]++;
    IOException other =
        assertThrows(IOException.class, () -> MeasureTrack.read(new ByteArrayInputStream(stored)));
    assertEquals("measure track of version " + (MeasureTrack.VERSION + 1), other.getMessage());
  }

  @Test
  void outlineFollowsTheLevel() {
    MeasureTrack track =
        Signals.stereo(RATE, Signals.steps(RATE, 1000, 10, -20, 10, Double.NaN, 10, -40));
    double[] outline = track.outline(30);
    assertEquals(-20, outline[5], 0.05);
    assertEquals(-70, outline[15], 0);
    assertEquals(-40, outline[25], 0.05);
    assertEquals(3000, track.outline(3000).length);
    assertThrows(IllegalArgumentException.class, () -> track.outline(0));
  }

  @Test
  void progressRunsUpToOne() throws IOException {
    double[] last = {0};
    MeasureTrack.measure(
        new ArrayPcm(RATE, new double[3 * RATE]),
        done -> {
          assertTrue(done > last[0] && done <= 1);
          last[0] = done;
        });
    assertEquals(1, last[0]);
  }
}
