package org.mixaccord.acceptance;

import org.mixaccord.intake.Fixtures;

/** Invented audio for uploads: channels of doubles, full scale 1.0, written as integers. */
final class Sound {
  private Sound() {}

  static double[] sine(int rate, double hz, double dbfs, double seconds) {
    double amplitude = Math.pow(10, dbfs / 20);
    double[] samples = new double[(int) Math.round(rate * seconds)];
    for (int n = 0; n < samples.length; n++) {
      samples[n] = amplitude * Math.sin(2 * Math.PI * hz * n / rate);
    }
    return samples;
  }

  /** A 24-bit WAV. */
  static byte[] wav(int rate, double[]... channels) {
    return Fixtures.wav(
        1, channels.length, rate, 24, Fixtures.bytes(integers(24, channels), 3, false));
  }

  /** A 16-bit WAV. */
  static byte[] wav16(int rate, double[]... channels) {
    return Fixtures.wav(
        1, channels.length, rate, 16, Fixtures.bytes(integers(16, channels), 2, false));
  }

  /** A 24-bit AIFF. */
  static byte[] aiff(int rate, double[]... channels) {
    return Fixtures.aiff(
        "",
        channels.length,
        rate,
        24,
        channels[0].length,
        Fixtures.bytes(integers(24, channels), 3, true));
  }

  private static int[] integers(int bits, double[]... channels) {
    int[] samples = new int[channels.length * channels[0].length];
    double full = Math.scalb(1.0, bits - 1);
    for (int n = 0; n < channels[0].length; n++) {
      for (int c = 0; c < channels.length; c++) {
        samples[n * channels.length + c] = (int) Math.round(channels[c][n] * full);
      }
    }
    return samples;
  }
}
