package org.mixaccord.measure;

import java.util.Arrays;

/**
 * Long-term spectrum of a clip's loud parts, up to 24 kHz.
 *
 * @param lineHz distance of the lines
 * @param power summed power of each line, all channels, any scale
 * @param evenness for each group of {@link #GROUP_HZ} from 0 Hz up: the summed square of the mean
 *     magnitude of its lines, same scale. Set against the mean power it is π/4 and more for noise
 *     of one and more channels and little where a few partials stand alone
 */
record FineSpectrum(double lineHz, float[] power, float[] evenness) {
  static final double HIGHEST_HZ = 24_000;
  static final double GROUP_HZ = 500;

  /** From here up groups are kept: what lies below is of no use to anybody. */
  static final double GROUPS_FROM_HZ = 10_000;

  static int lines(double lineHz, int size) {
    return Math.min(size / 2, (int) (HIGHEST_HZ / lineHz));
  }

  static int groups(double lineHz, int lines) {
    return (int) (lines * lineHz / GROUP_HZ);
  }

  int first(double hz) {
    return (int) Math.min(power.length, Math.max(0, Math.ceil(hz / lineHz)));
  }

  /** Median power of the lines in a stretch, in dB of any reference. */
  double medianDb(double fromHz, double toHz) {
    float[] lines = Arrays.copyOfRange(power, first(fromHz), first(toHz));
    Arrays.sort(lines);
    return 10 * Math.log10(lines[lines.length / 2] + Float.MIN_NORMAL);
  }

  /** Evenness of a stretch of whole groups, 0 to 1. */
  double evenness(double fromHz, double toHz) {
    double even = 0;
    double all = 0;
    for (int g = (int) Math.round(fromHz / GROUP_HZ); g < Math.round(toHz / GROUP_HZ); g++) {
      int a = first(g * GROUP_HZ);
      int b = first((g + 1) * GROUP_HZ);
      double sum = 0;
      for (int k = a; k < b; k++) {
        sum += power[k];
      }
      even += evenness[g];
      all += sum / (b - a);
    }
    return all > 0 ? even / all : 0;
  }

  /** Adds up windows. */
  static final class Sum {
    private static final double LOUD = 1e-3; // 30 dB under the loudest window so far
    private static final int EVERY = 2; // windows overlap by two thirds, so none is missed

    private final double lineHz;
    private final double[] power;
    private final double[] evenness;
    private final double[] magnitude;
    private double loudest;
    private int turn;

    Sum(double lineHz, int size) {
      this.lineHz = lineHz;
      this.power = new double[lines(lineHz, size)];
      this.evenness = new double[groups(lineHz, power.length)];
      this.magnitude = new double[power.length];
    }

    /**
     * Takes the spectrum of one window.
     *
     * @param work interleaved complex lines of one or two real channels
     * @param size number of complex lines
     * @param energy of the window, on the scale of all other windows
     */
    void take(double[] work, int size, double energy) {
      if (turn++ % EVERY != 0 || !(energy > LOUD * loudest)) {
        return;
      }
      loudest = Math.max(loudest, energy);
      int high = (int) Math.ceil(GROUPS_FROM_HZ / lineHz);
      for (int k = 1; k < power.length; k++) {
        int p = 2 * k;
        int q = 2 * (size - k);
        double sum =
            work[p] * work[p]
                + work[p + 1] * work[p + 1]
                + work[q] * work[q]
                + work[q + 1] * work[q + 1];
        power[k] += sum;
        if (k >= high) {
          magnitude[k] = Math.sqrt(sum);
        }
      }
      for (int g = (int) (GROUPS_FROM_HZ / GROUP_HZ); g < evenness.length; g++) {
        int a = (int) Math.ceil(g * GROUP_HZ / lineHz);
        int b = Math.min(power.length, (int) Math.ceil((g + 1) * GROUP_HZ / lineHz));
        double mean = 0;
        for (int k = a; k < b; k++) {
          mean += magnitude[k];
        }
        mean /= b - a;
        evenness[g] += mean * mean;
      }
    }

    FineSpectrum finish() {
      return new FineSpectrum(lineHz, floats(power), floats(evenness));
    }

    private static float[] floats(double[] values) {
      float[] out = new float[values.length];
      for (int i = 0; i < out.length; i++) {
        out[i] = (float) values[i];
      }
      return out;
    }
  }
}
