package org.mixaccord.measure;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.mixaccord.audio.ArrayPcm;
import org.mixaccord.audio.FrameRange;

class InterSampleOversTest {
  private static final int RATE = 48000;
  private static final int BURST = RATE / 20; // 50 ms

  /** A tone at a quarter of the rate whose crests of 1.2 lie between samples of 0.849. */
  private static double[] burstsAt(int... starts) {
    double[] x = new double[2 * RATE];
    for (int start : starts) {
      for (int i = 0; i < BURST; i++) {
        double fade = Math.min(1, Math.min(i, BURST - 1 - i) / 480.0);
        x[start + i] = 1.2 * fade * Math.sin(Math.PI / 2 * i + Math.PI / 4);
      }
    }
    return x;
  }

  private static Measurements measured(double[]... channels) throws Exception {
    return MeasureTrack.measure(new ArrayPcm(RATE, channels), done -> {}).whole();
  }

  @Test
  void eachStretchBetweenTheSamplesCountsOnce() throws Exception {
    double[] x = burstsAt(9600, 48000, 72000);
    Measurements m = measured(x, new double[x.length]);
    assertEquals(3, m.interSampleOvers());
    assertEquals(1.58, m.truePeakDbtp().getAsDouble(), 0.05);
    assertTrue(m.samplePeakDbfs().getAsDouble() < -1.4);
    assertEquals(0, m.clippedRuns());
  }

  @Test
  void stretchesOfBothChannelsAtOnceAreOne() throws Exception {
    assertEquals(1, measured(burstsAt(9600), burstsAt(9620)).interSampleOvers());
    assertEquals(2, measured(burstsAt(9600), burstsAt(48000)).interSampleOvers());
  }

  @Test
  void aStretchWithASampleOverFullScaleIsNoInterSampleOver() throws Exception {
    double[] x = burstsAt(9600, 48000);
    x[9600 + BURST / 2] = 1.05;
    assertEquals(1, measured(x).interSampleOvers());
  }

  @Test
  void theStretchBelongsToTheSectionItBeginsIn() throws Exception {
    MeasureTrack track = MeasureTrack.measure(new ArrayPcm(RATE, burstsAt(47000)), done -> {});
    assertEquals(1, track.section(new FrameRange(0, 48000)).interSampleOvers());
    assertEquals(0, track.section(new FrameRange(48000, 96000)).interSampleOvers());
  }

  @Test
  void aPeakThatOnlyTheParabolaFindsIsCounted() throws Exception {
    // Crests of 1.003, a sixteenth of a sample from the nearest points looked at (0.998).
    double[] x = new double[RATE];
    for (int i = 4800; i < 9600; i++) {
      double fade = Math.min(1, Math.min(i - 4800, 9599 - i) / 480.0);
      x[i] = 1.003 * fade * Math.cos(Math.PI / 2 * (i - 7200.5625));
    }
    Measurements m = measured(x);
    assertEquals(0.026, m.truePeakDbtp().getAsDouble(), 0.01);
    assertEquals(1, m.interSampleOvers());
  }

  @ParameterizedTest
  @ValueSource(ints = {44100, 48000, 96000, 192000})
  void aClipUnderFullScaleHasNone(int rate) throws Exception {
    double[] x = Signals.sine(rate, 997, -0.1, 2);
    assertEquals(0, Signals.stereo(rate, x).whole().interSampleOvers());
  }
}
