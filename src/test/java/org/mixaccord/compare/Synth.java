package org.mixaccord.compare;

import java.util.Random;
import org.mixaccord.audio.ArrayPcm;

/**
 * Invented songs for tests: four parts (a drum, a bass, chords, a tune), every second different, at
 * any rate, each part stereo and separately available.
 */
public final class Synth {
  public static final int RATE = 24000;
  private static final double[] PAN = {0, 0, -0.4, 0.3};

  private Synth() {}

  /** Samples of every part: {@code [part][side][frame]}. */
  public static double[][][] parts(long seed, double seconds) {
    return parts(seed, seconds, 0);
  }

  /**
   * The song played again: the same notes in the same tempo, every one up to 40 ms earlier or later
   * than in another take.
   *
   * @param take 0 as written
   */
  static double[][][] parts(long seed, double seconds, long take) {
    Random random = new Random(seed);
    Random hand = new Random(take);
    int n = (int) (seconds * RATE);
    double[][][] out = new double[4][2][n];
    for (double beat = 0.1; beat < seconds - 0.4; beat += 0.25) {
      double at = take == 0 ? beat : beat + 0.04 * (2 * hand.nextDouble() - 1);
      drum(out[0], at, random);
      if (random.nextInt(2) == 0) {
        note(out[1], at, 0.45, 41.2 * Math.pow(2, random.nextInt(12) / 12.0), 0.2, random);
      }
      if (random.nextInt(3) == 0) {
        for (int k = 0; k < 3; k++) {
          note(out[2], at, 0.9, 220 * Math.pow(2, random.nextInt(24) / 12.0), 0.05, random);
        }
      }
      if (random.nextInt(2) == 0) {
        note(out[3], at, 0.3, 440 * Math.pow(2, random.nextInt(18) / 12.0), 0.1, random);
      }
    }
    for (int p = 0; p < out.length; p++) {
      for (int i = 0; i < n; i++) {
        out[p][0][i] *= Math.sqrt(1 - PAN[p]);
        out[p][1][i] *= Math.sqrt(1 + PAN[p]);
      }
    }
    return out;
  }

  private static void drum(double[][] out, double at, Random random) {
    double level = 0.1 + 0.1 * random.nextDouble();
    int start = (int) (at * RATE) + random.nextInt(40);
    for (int i = 0; i < RATE / 5 && start + i < out[0].length; i++) {
      double v = level * random.nextGaussian() * Math.exp(-i / (0.03 * RATE));
      out[0][start + i] += v;
      out[1][start + i] += v;
    }
  }

  private static void note(
      double[][] out, double at, double length, double hz, double level, Random random) {
    int start = (int) (at * RATE);
    double phase = random.nextDouble() * 6;
    for (int i = 0; i < length * RATE && start + i < out[0].length; i++) {
      double t = i / (double) RATE;
      double envelope =
          level
              * Math.min(1, t / 0.01)
              * Math.exp(-3 * t / length)
              * Math.min(1, (length - t) / 0.02);
      double v = 0;
      for (int h = 1; h <= 5 && hz * h < RATE / 2.5; h++) {
        v += Math.sin(2 * Math.PI * hz * h * t + phase * h) / h;
      }
      out[0][start + i] += envelope * v;
      out[1][start + i] += envelope * v;
    }
  }

  /** The parts' sum at per-part gains. */
  public static double[][] mix(double[][][] parts) {
    double[][] out = new double[2][parts[0][0].length];
    for (double[][] part : parts) {
      for (int c = 0; c < 2; c++) {
        for (int i = 0; i < out[c].length; i++) {
          out[c][i] += part[c][i];
        }
      }
    }
    return out;
  }

  /**
   * A copy with one part at another gain between two times, with ramps of 20 ms round the edges.
   */
  public static double[][][] moved(
      double[][][] parts, int which, double from, double to, double db) {
    double[][][] out = parts.clone();
    out[which] = new double[2][];
    for (int c = 0; c < 2; c++) {
      out[which][c] = parts[which][c].clone();
      for (int i = 0; i < out[which][c].length; i++) {
        double t = i / (double) RATE;
        double up = Math.max(0, Math.min(1, (t - from + 0.01) / 0.02));
        double down = Math.max(0, Math.min(1, (to + 0.01 - t) / 0.02));
        out[which][c][i] *= Math.pow(10, Math.min(up, down) * db / 20);
      }
    }
    return out;
  }

  static double[][] scaled(double[][] in, double gain) {
    double[][] out = new double[in.length][];
    for (int c = 0; c < in.length; c++) {
      out[c] = java.util.Arrays.stream(in[c]).map(v -> v * gain).toArray();
    }
    return out;
  }

  /** A limiter on the whole mix: looks 5 ms ahead, both sides alike. */
  static double[][] limited(double[][] in, double drive, double ceiling) {
    int n = in[0].length;
    int reach = RATE / 200;
    double[] need = new double[n];
    for (int i = 0; i < n; i++) {
      double peak = drive * Math.max(Math.abs(in[0][i]), Math.abs(in[1][i]));
      need[i] = peak > ceiling ? ceiling / peak : 1;
    }
    double[] held = new double[n];
    for (int i = 0; i < n; i++) {
      held[i] = 1;
      for (int k = Math.max(0, i - reach); k < Math.min(n, i + reach + 1); k++) {
        held[i] = Math.min(held[i], need[k]);
      }
    }
    double[][] out = new double[2][n];
    for (int i = 0; i < n; i++) {
      double gain = 0;
      double weights = 0;
      for (int k = -reach; k <= reach; k++) {
        double weight = 1 + Math.cos(Math.PI * k / (reach + 1));
        gain += weight * held[Math.max(0, Math.min(n - 1, i + k))];
        weights += weight;
      }
      for (int c = 0; c < 2; c++) {
        out[c][i] = in[c][i] * drive * gain / weights;
      }
    }
    return out;
  }

  /** Frames {@code from … to} of a clip. */
  static double[][] cut(double[][] in, int from, int to) {
    double[][] out = new double[in.length][];
    for (int c = 0; c < in.length; c++) {
      out[c] = java.util.Arrays.copyOfRange(in[c], from, to);
    }
    return out;
  }

  static double[][] joined(double[][] a, double[][] b) {
    double[][] out = new double[a.length][a[0].length + b[0].length];
    for (int c = 0; c < a.length; c++) {
      System.arraycopy(a[c], 0, out[c], 0, a[c].length);
      System.arraycopy(b[c], 0, out[c], a[c].length, b[c].length);
    }
    return out;
  }

  /** Rounded to a number of bits with triangular dither. */
  static double[][] rounded(double[][] in, int bits, long seed) {
    Random random = new Random(seed);
    double steps = Math.pow(2, bits - 1);
    double[][] out = new double[in.length][in[0].length];
    for (int c = 0; c < in.length; c++) {
      for (int i = 0; i < in[c].length; i++) {
        double up = random.nextDouble();
        double down = random.nextDouble();
        double dither = up - down;
        out[c][i] = Math.rint(in[c][i] * steps + dither) / steps;
      }
    }
    return out;
  }

  static ComparedFile file(String hash, double[][] samples) {
    return new ComparedFile(new ArrayPcm(RATE, samples), hash, true, 32, false);
  }

  static ComparedFile file(String hash, double[][] samples, int bits) {
    return new ComparedFile(new ArrayPcm(RATE, samples), hash, false, bits, false);
  }
}
