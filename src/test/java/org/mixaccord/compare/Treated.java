package org.mixaccord.compare;

import java.util.Random;
import org.jtransforms.fft.DoubleFFT_1D;

/** What is done to a mix or to one of its parts between two bounces, for tests. */
final class Treated {
  private Treated() {}

  /** Highs from a frequency on raised or lowered: a first-order shelf. */
  static double[][] shelved(double[][] in, double hz, double db) {
    double a = Math.exp(-2 * Math.PI * hz / Synth.RATE);
    double gain = Math.pow(10, db / 20);
    double[][] out = new double[in.length][in[0].length];
    for (int c = 0; c < in.length; c++) {
      double low = 0;
      for (int i = 0; i < in[c].length; i++) {
        low = (1 - a) * in[c][i] + a * low;
        out[c][i] = low + gain * (in[c][i] - low);
      }
    }
    return out;
  }

  /** Everything later by whole frames, same length. */
  static double[][] late(double[][] in, int frames) {
    return Synth.cut(Synth.joined(new double[in.length][frames], in), 0, in[0].length);
  }

  /** One treatment between two times, another outside, with ramps of 20 ms over the edges. */
  static double[][] between(double[][] outside, double[][] inside, double from, double to) {
    double[][] out = new double[outside.length][outside[0].length];
    for (int c = 0; c < out.length; c++) {
      for (int i = 0; i < out[c].length; i++) {
        double t = i / (double) Synth.RATE;
        double in =
            Math.max(0, Math.min(1, Math.min((t - from + 0.01) / 0.02, (to + 0.01 - t) / 0.02)));
        out[c][i] = (1 - in) * outside[c][i] + in * inside[c][i];
      }
    }
    return out;
  }

  /** With a decaying echo cloud, {@code db} under the part. */
  static double[][] reverberated(double[][] in, double db, long seed) {
    Random random = new Random(seed);
    double[][] out = Synth.scaled(in, 1);
    for (int tap = 0; tap < 150; tap++) {
      int delay = (int) (Synth.RATE * (0.01 + 0.6 * random.nextDouble()));
      double level =
          Math.pow(10, db / 20) * random.nextGaussian() / 6 * Math.exp(-delay / (0.2 * Synth.RATE));
      for (int c = 0; c < in.length; c++) {
        for (int i = delay; i < in[c].length; i++) {
          out[c][i] += level * in[c][i - delay];
        }
      }
    }
    return out;
  }

  /** Faded in over the first and out over the last seconds. */
  static double[][] faded(double[][] in, double inSeconds, double outSeconds) {
    double[][] out = Synth.scaled(in, 1);
    int n = in[0].length;
    for (double[] channel : out) {
      for (int i = 0; i < n; i++) {
        double up = inSeconds > 0 ? i / (inSeconds * Synth.RATE) : 1;
        double down = outSeconds > 0 ? (n - i) / (outSeconds * Synth.RATE) : 1;
        channel[i] *= Math.min(1, Math.min(up, down));
      }
    }
    return out;
  }

  /** Played again: the same notes, every one of them at a slightly other time and level. */
  static double[][] performedAgain(long song, double seconds, long take) {
    return Synth.mix(Synth.parts(song, seconds, take));
  }

  /** Linear interpolation of the read position: what a clock that drifts and wavers leaves. */
  static double[][] at(double[][] in, double speed) {
    int n = (int) (in[0].length / speed) - 2;
    double[][] out = new double[in.length][n];
    for (int c = 0; c < in.length; c++) {
      for (int i = 0; i < n; i++) {
        out[c][i] = value(in[c], i * speed);
      }
    }
    return out;
  }

  /** Between two samples by a Hann-windowed sinc of 32 taps. */
  private static double value(double[] in, double at) {
    int whole = (int) Math.floor(at);
    double sum = 0;
    for (int k = whole - 15; k <= whole + 16; k++) {
      if (k >= 0 && k < in.length) {
        double t = at - k;
        double sinc = Math.abs(t) < 1e-12 ? 1 : Math.sin(Math.PI * t) / (Math.PI * t);
        sum += in[k] * sinc * (0.5 + 0.5 * Math.cos(Math.PI * t / 16.5));
      }
    }
    return sum;
  }

  /**
   * Through a coarse transform coder: bins of half-overlapping frames are rounded to steps of a
   * part of their band's level, so that what is left lies some 20 dB down and small bins vanish.
   */
  static double[][] coded(double[][] in) {
    int size = 1024;
    DoubleFFT_1D fft = new DoubleFFT_1D(size);
    double[][] out = new double[in.length][in[0].length];
    for (int c = 0; c < in.length; c++) {
      for (int start = -size / 2; start < in[c].length; start += size / 2) {
        double[] frame = new double[size];
        for (int i = Math.max(0, -start); i < size && start + i < in[c].length; i++) {
          frame[i] = in[c][start + i] * Math.sin(Math.PI * (i + 0.5) / size);
        }
        fft.realForward(frame);
        for (int band = 2; band < size; band += 32) {
          double power = 0;
          for (int k = band; k < Math.min(size, band + 32); k++) {
            power += frame[k] * frame[k] / 32;
          }
          double step = 0.35 * Math.sqrt(power) + 1e-12;
          for (int k = band; k < Math.min(size, band + 32); k++) {
            frame[k] = Math.rint(frame[k] / step) * step;
          }
        }
        fft.realInverse(frame, true);
        for (int i = Math.max(0, -start); i < size && start + i < in[c].length; i++) {
          out[c][start + i] += frame[i] * Math.sin(Math.PI * (i + 0.5) / size);
        }
      }
    }
    return out;
  }
}
