package org.mixaccord.api.v1.bounces;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.List;
import java.util.OptionalDouble;
import org.mixaccord.measure.Band;
import org.mixaccord.measure.Measurements;
import org.mixaccord.measure.ShapedBand;

/** Figures as they leave the server: more digits would only look exact. */
final class Decimals {
  private static final int FIGURE = 4;

  /** Many values to look at: what is shown with one decimal is rounded right. */
  private static final int CURVE = 3;

  /** A DC offset is a share of full scale: four decimals would blur one of −60 dBFS. */
  private static final int SHARE = 6;

  private Decimals() {}

  static OptionalDouble of(OptionalDouble value) {
    return rounded(value, FIGURE);
  }

  static double of(double value) {
    return rounded(value, FIGURE);
  }

  static double ofCurve(double value) {
    return rounded(value, CURVE);
  }

  static List<OptionalDouble> ofCurve(List<OptionalDouble> values) {
    return values.stream().map(v -> rounded(v, CURVE)).toList();
  }

  static Measurements of(Measurements m) {
    return new Measurements(
        of(m.integratedLufs()),
        of(m.ungatedLufs()),
        of(m.shareLufs()),
        of(m.dualMonoLufs()),
        of(m.loudnessRangeLu()),
        m.loudnessRangeStable(),
        of(m.maxMomentaryLufs()),
        of(m.maxShortTermLufs()),
        of(m.maxShortTermAt()),
        of(m.truePeakDbtp()),
        of(m.truePeakAt()),
        of(m.samplePeakDbfs()),
        of(m.samplePeakAt()),
        m.clippedRuns(),
        m.interSampleOvers(),
        of(m.crestDb()),
        of(m.peakToLoudnessDb()),
        of(m.minPeakToShortTermDb()),
        of(m.minPeakToShortTermAt()),
        rounded(m.dcOffset(), SHARE),
        of(m.correlation()),
        of(m.sideToMidDb()),
        of(m.balanceDb()),
        of(m.monoLossDb()),
        m.bands().stream()
            .map(
                b ->
                    new Band(
                        b.centreHz(), of(b.levelDb()), of(b.correlation()), of(b.monoLossDb())))
            .toList());
  }

  static List<ShapedBand> shaped(Measurements m) {
    return ShapedBand.of(m).stream()
        .map(b -> new ShapedBand(b.centreHz(), of(b.levelDb()), of(b.shapeDb())))
        .toList();
  }

  private static OptionalDouble rounded(OptionalDouble value, int decimals) {
    return value.isPresent() ? OptionalDouble.of(rounded(value.getAsDouble(), decimals)) : value;
  }

  private static double rounded(double value, int decimals) {
    return BigDecimal.valueOf(value).setScale(decimals, RoundingMode.HALF_UP).doubleValue();
  }
}
