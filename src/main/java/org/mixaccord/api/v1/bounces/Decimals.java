package org.mixaccord.api.v1.bounces;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.DoubleNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.Set;
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

  /** A place in a file to a tenth of a microsecond: listening switches on the sample. */
  private static final int PLACE = 7;

  /** A speed to a part in ten thousand million: over an hour that is a third of a microsecond. */
  private static final int SPEED = 10;

  private static final Set<String> PLACES =
      Set.of("from", "to", "otherFrom", "otherTo", "offsetSeconds", "lagSeconds");

  private Decimals() {}

  /** A tree of figures: times keep their sample, everything else is as long as any other figure. */
  static JsonNode of(ObjectNode tree) {
    return rounded(tree, FIGURE);
  }

  private static JsonNode rounded(JsonNode node, int decimals) {
    if (node instanceof ObjectNode object) {
      object.fields().forEachRemaining(e -> e.setValue(rounded(e.getValue(), decimals(e))));
      return object;
    }
    if (node instanceof ArrayNode array) {
      for (int i = 0; i < array.size(); i++) {
        array.set(i, rounded(array.get(i), decimals));
      }
      return array;
    }
    return node.isFloatingPointNumber()
        ? DoubleNode.valueOf(rounded(node.doubleValue(), decimals))
        : node;
  }

  private static int decimals(Map.Entry<String, JsonNode> field) {
    if (PLACES.contains(field.getKey())) {
      return PLACE;
    }
    return field.getKey().equals("speedRatio") ? SPEED : FIGURE;
  }

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
