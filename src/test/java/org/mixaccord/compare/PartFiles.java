package org.mixaccord.compare;

import java.util.Map;
import java.util.TreeMap;
import org.mixaccord.audio.ArrayPcm;
import org.mixaccord.audio.PcmSource;

/** The parts of {@link Synth} as part files, and what a comparison says of one of them. */
final class PartFiles {
  static final String[] NAMES = {"drums", "bass", "chords", "tune"};

  private PartFiles() {}

  static Map<String, PcmSource> stems(double[][][] parts) {
    Map<String, PcmSource> out = new TreeMap<>();
    for (int p = 0; p < parts.length; p++) {
      out.put(NAMES[p], new ArrayPcm(Synth.RATE, parts[p]));
    }
    return out;
  }

  static Comparison.ElementDifference part(Comparison c, int section, String name) {
    return c.sections().get(section).elements().stream()
        .filter(e -> e.element().equals(name))
        .findFirst()
        .orElseThrow();
  }
}
