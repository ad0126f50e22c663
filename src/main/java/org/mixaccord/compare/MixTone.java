package org.mixaccord.compare;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;

/**
 * An equaliser on the whole mix: every section differs, and one change of level and phase a band,
 * the same throughout the song, explains what is left in each of them. A part that was made
 * brighter does not look like that: it is only some of what sounds in a band.
 *
 * @param changeDb the strongest change, beyond the overall level, here over there
 * @param detail in words, with figures
 */
record MixTone(double changeDb, String detail) {
  private static final double LEAST_DB = 0.1;

  /** Left over by one level and phase a band, over left at the common level (power). */
  private static final double UNEXPLAINED = 0.1;

  /** Bands of different sections may differ by this much and still have had the same done. */
  private static final double SAME_DB = 0.3;

  private static final double MOST_ASTRAY = 0.1;
  private static final double BAND_IN_PLAY = 1e-5;
  private static final double LOWEST_HZ = 40;

  /** The tone of a pair; empty where it is not one equaliser throughout. */
  static Optional<MixTone> of(List<BandSums> parts, ThirdOctaves bands, double gain) {
    if (parts.size() < 2) {
      return Optional.empty();
    }
    double gainDb = 20 * Math.log10(gain);
    double[] common = new double[bands.count()];
    double cells = 0;
    double astray = 0;
    for (int b = 0; b < common.length; b++) {
      double[] found = new double[parts.size()];
      int n = 0;
      for (BandSums part : parts) {
        if (inPlay(part, bands, b)) {
          found[n++] = 10 * Math.log10(part.here[b] / part.there[b]) - gainDb;
        }
      }
      double[] sorted = Arrays.copyOf(found, n);
      Arrays.sort(sorted);
      common[b] = n == 0 ? Double.NaN : sorted[n / 2];
      for (double db : sorted) {
        cells++;
        astray += Math.abs(db - common[b]) > SAME_DB ? 1 : 0;
      }
    }
    boolean throughout = parts.stream().allMatch(p -> explained(p, gain));
    int strongest = strongest(common);
    if (!throughout || astray > MOST_ASTRAY * cells || strongest < 0) {
      return Optional.empty();
    }
    return Math.abs(common[strongest]) < LEAST_DB
        ? Optional.empty()
        : Optional.of(named(common, strongest, bands));
  }

  private static boolean inPlay(BandSums part, ThirdOctaves bands, int b) {
    double loudest = Arrays.stream(part.here).max().orElse(0);
    return bands.nominalHz(b) >= LOWEST_HZ
        && part.here[b] > BAND_IN_PLAY * loudest
        && part.there[b] > 0;
  }

  private static boolean explained(BandSums part, double gain) {
    double unexplained = 0;
    for (int b = 0; b < part.here.length; b++) {
      unexplained += part.leftByFilter(b);
    }
    return unexplained <= UNEXPLAINED * part.totalLeft(gain);
  }

  private static int strongest(double[] common) {
    int best = -1;
    for (int b = 0; b < common.length; b++) {
      if (!Double.isNaN(common[b]) && (best < 0 || Math.abs(common[b]) > Math.abs(common[best]))) {
        best = b;
      }
    }
    return best;
  }

  private static MixTone named(double[] common, int strongest, ThirdOctaves bands) {
    double peak = common[strongest];
    int low = strongest;
    int high = strongest;
    while (low > 0 && common[low - 1] / peak >= 0.5) {
      low--;
    }
    while (high + 1 < common.length && common[high + 1] / peak >= 0.5) {
      high++;
    }
    boolean toTheTop = high + 1 >= common.length || Double.isNaN(common[high + 1]);
    boolean fromBelow = low == 0 || Double.isNaN(common[low - 1]);
    String where =
        toTheTop
            ? "from " + Figures.hertz(bands.nominalHz(low)) + " up"
            : fromBelow
                ? "up to " + Figures.hertz(bands.nominalHz(high))
                : low == high
                    ? "around " + Figures.hertz(bands.nominalHz(low))
                    : "from "
                        + Figures.hertz(bands.nominalHz(low))
                        + " to "
                        + Figures.hertz(bands.nominalHz(high));
    return new MixTone(
        peak, "the tone of the whole mix, up to " + Figures.signed(peak, 1) + " dB " + where);
  }
}
