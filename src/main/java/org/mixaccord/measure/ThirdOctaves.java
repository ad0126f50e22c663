package org.mixaccord.measure;

/**
 * The third-octave bands from 20 Hz to 20 kHz: nominal centres as printed on instruments, exact
 * mid-band frequencies and edges in the base-ten system of IEC 61260-1:2014.
 */
final class ThirdOctaves {
  /** Nominal centres in Hz. */
  private static final double[] NOMINAL = {
    20, 25, 31.5, 40, 50, 63, 80, 100, 125, 160, 200, 250, 315, 400, 500, 630, 800, 1000, 1250,
    1600, 2000, 2500, 3150, 4000, 5000, 6300, 8000, 10000, 12500, 16000, 20000
  };

  private static final int INDEX_OF_1_KHZ = 17;

  /** Number of bands. */
  static final int COUNT = NOMINAL.length;

  /** Bands are given up to this share of the sample rate. */
  static final double HIGHEST_SHARE = 0.45;

  private ThirdOctaves() {}

  static double nominalHz(int band) {
    return NOMINAL[band];
  }

  static double exactHz(int band) {
    return 1000 * Math.pow(10, (band - INDEX_OF_1_KHZ) / 10.0);
  }

  static double lowerHz(int band) {
    return exactHz(band) * Math.pow(10, -0.05);
  }

  static double upperHz(int band) {
    return exactHz(band) * Math.pow(10, 0.05);
  }

  /** Whether a band's centre lies low enough under half the sample rate to be given. */
  static boolean within(int band, double sampleRate) {
    return exactHz(band) <= HIGHEST_SHARE * sampleRate;
  }
}
