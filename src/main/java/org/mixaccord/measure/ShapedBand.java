package org.mixaccord.measure;

import java.util.List;
import java.util.OptionalDouble;

/**
 * A third-octave level as it is, and freed of how loud the stretch is altogether, so that the
 * balance of two mixes can be laid over each other.
 *
 * @param centreHz nominal centre
 * @param levelDb level, dB re 1.0; empty above 0.45 of the sample rate and for silence
 * @param shapeDb the level minus the stretch's own ungated loudness, dB: the same for two mixes
 *     that differ by a gain only; empty where either is
 */
public record ShapedBand(double centreHz, OptionalDouble levelDb, OptionalDouble shapeDb) {
  /** The bands of a whole clip or a section. */
  public static List<ShapedBand> of(Measurements figures) {
    OptionalDouble loudness = figures.ungatedLufs();
    return figures.bands().stream()
        .map(
            b ->
                new ShapedBand(
                    b.centreHz(),
                    b.levelDb(),
                    b.levelDb().isPresent() && loudness.isPresent()
                        ? OptionalDouble.of(b.levelDb().getAsDouble() - loudness.getAsDouble())
                        : OptionalDouble.empty()))
        .toList();
  }
}
