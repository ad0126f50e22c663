package org.mixaccord.measure;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * Whether the highs of a file that is stored without loss end as abruptly as those of a lossy file.
 *
 * <p>Four things together: the spectrum falls by {@link #DROP_DB} within 1 kHz and stays down; it
 * fell gently before; it was a real part of the music up to there; and it was filled evenly, as
 * noise and consonants fill it. A stack of partials that ends at some frequency is uneven, an
 * equaliser is gentle, and what ends above {@link #TO_HZ} is the edge of a sample rate.
 */
final class LossyFindings {
  private static final double FROM_HZ = 15_000;
  private static final double TO_HZ = 20_500;
  private static final double STEP_HZ = 250;
  private static final double EDGE_HZ = 1_000;
  private static final double BEFORE_HZ = 1_500;
  private static final double DROP_DB = 28;
  private static final double LEFT_DB = 6;
  private static final double GENTLE_DB = 13; // over BEFORE_HZ
  private static final double BURIED_DB = 50; // under the range of 1 to 4 kHz
  private static final double EVEN_FROM_HZ = 2_500; // below the edge, where coders spare no bits
  private static final double EVEN_TO_HZ = 500;
  private static final double EVEN = 0.66; // lossy files from 0.72, stacked partials to 0.56
  private static final double LEAST_SECONDS = 3;

  private final MeasureTrack track;
  private final boolean lossy;

  LossyFindings(MeasureTrack track, Optional<FileFacts> file) {
    this.track = track;
    this.lossy = file.isPresent() && file.get().lossy();
  }

  List<Finding> work() {
    FineSpectrum spectrum = track.marks().spectrum();
    double end = spectrum.power().length * spectrum.lineHz() - STEP_HZ;
    if (lossy || track.seconds() < LEAST_SECONDS || end < FROM_HZ + EDGE_HZ + STEP_HZ) {
      return List.of();
    }
    double above = Double.NEGATIVE_INFINITY;
    double worst = 0;
    double at = 0;
    double last = Math.floor((end - STEP_HZ) / STEP_HZ) * STEP_HZ;
    for (double hz = last; hz >= FROM_HZ + EDGE_HZ; hz -= STEP_HZ) {
      above = Math.max(above, level(spectrum, hz));
      double below = hz - EDGE_HZ;
      double drop = level(spectrum, below) - above;
      double edge = edge(spectrum, below);
      if (edge <= TO_HZ && drop > worst && abrupt(spectrum, below)) {
        worst = drop;
        at = edge;
      }
    }
    return worst < DROP_DB ? List.of() : List.of(finding(at, worst));
  }

  /** Where the level has left that of {@code below}. */
  private static double edge(FineSpectrum spectrum, double below) {
    double level = level(spectrum, below);
    double hz = below + STEP_HZ;
    while (hz < below + EDGE_HZ && level - level(spectrum, hz) < LEFT_DB) {
      hz += STEP_HZ;
    }
    return hz;
  }

  private static boolean abrupt(FineSpectrum spectrum, double below) {
    double level = level(spectrum, below);
    double groups = Math.floor(below / FineSpectrum.GROUP_HZ) * FineSpectrum.GROUP_HZ;
    return level(spectrum, below - BEFORE_HZ) - level <= GENTLE_DB
        && level >= spectrum.medianDb(1000, 4000) - BURIED_DB
        && spectrum.evenness(groups - EVEN_FROM_HZ, groups - EVEN_TO_HZ) >= EVEN;
  }

  private static double level(FineSpectrum spectrum, double hz) {
    return spectrum.medianDb(hz, hz + STEP_HZ);
  }

  private Finding finding(double hz, double drop) {
    return new Finding(
        "looks-lossy",
        Severity.WARNING,
        "The highs stop as if cut off at about "
            + Words.hertz(Math.round(hz / 100) * 100.0)
            + ", by "
            + Words.level(drop, "dB")
            + " within a thousand hertz. It looks as if the sound had been an MP3 or another lossy"
            + " file before; a very steep filter can look the same.",
        0,
        track.seconds(),
        OptionalDouble.of(hz),
        OptionalDouble.empty());
  }
}
