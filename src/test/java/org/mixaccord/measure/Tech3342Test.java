package org.mixaccord.measure;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.mixaccord.audio.FrameRange;

/** EBU Tech 3342 cases 1 to 4 (±1 LU) and the tones of ITU-R BS.2217 (±0.1 LU). */
class Tech3342Test {
  @ParameterizedTest
  @ValueSource(ints = {44100, 48000, 88200, 96000, 192000})
  void rangeOfTheTablesCases(int rate) {
    range(rate, 10, -20, -30);
    range(rate, 5, -20, -15);
    range(rate, 20, -40, -20);
    range(rate, 15, -50, -35, -20, -35, -50);
  }

  private static void range(int rate, double expected, double... levels) {
    double[] steps = new double[2 * levels.length];
    for (int i = 0; i < levels.length; i++) {
      steps[2 * i] = 20;
      steps[2 * i + 1] = levels[i];
    }
    // Far inside the tolerance of the table, which would also pass a wrong percentile.
    assertEquals(expected, Signals.tone(rate, steps).whole().loudnessRangeLu().getAsDouble(), 0.05);
  }

  @Test
  void shortClipHasNoRangeAndAMinuteMakesItStable() {
    MeasureTrack track = Signals.stereo(8000, Signals.steps(8000, 1000, 30, -20, 31, -26));
    assertTrue(track.whole().loudnessRangeStable());
    Measurements ten = track.section(new FrameRange(0, 80000));
    assertFalse(ten.loudnessRangeStable());
    assertEquals(0, ten.loudnessRangeLu().getAsDouble(), 0.01);
    assertTrue(track.section(new FrameRange(0, 79900)).loudnessRangeLu().isEmpty());
  }

  @ParameterizedTest
  @ValueSource(ints = {44100, 48000, 88200, 96000, 192000})
  void tonesLevelledForTheirLoudnessReadIt(int rate) {
    for (int hz : new int[] {25, 100, 500, 1000, 2000, 10000}) {
      for (double lufs : new double[] {-23, -24}) {
        double dbfs = lufs + 0.691 - KWeighting.at(48000).gainDb(hz, 48000);
        MeasureTrack track = Signals.measure(new ToneSteps(rate, hz, new double[2], 2, dbfs));
        assertEquals(lufs, track.whole().integratedLufs().getAsDouble(), 0.1, hz + " Hz");
      }
    }
  }

  @ParameterizedTest
  @ValueSource(ints = {44100, 48000, 88200, 96000, 192000})
  void eachGateAloneLeavesItsPartOut(int rate) {
    Measurements absolute = Signals.tone(rate, 2, -69.5, 2, -80, 2, -69.5).whole();
    assertEquals(-69.5, absolute.integratedLufs().getAsDouble(), 0.1);
    // Two levels above the absolute gate; every sample alike would read -11.6.
    Measurements relative = Signals.tone(rate, 10, -10, 10, -25, 10, -10).whole();
    assertEquals(-10, relative.integratedLufs().getAsDouble(), 0.1);
    assertEquals(-11.6, relative.ungatedLufs().getAsDouble(), 0.1);
  }
}
