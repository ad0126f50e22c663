package org.mixaccord.measure;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;

/**
 * A plain meter written straight from the texts: filters in direct form, sums sample by sample,
 * true peak by evaluating every gap with a long interpolator. Slow, and shares no code with the
 * real one but the printed parameters.
 */
public final class SlowMeter {
  private final int rate;
  private final double[][] x;
  private final double[][] k;

  public SlowMeter(int rate, double[]... x) {
    this.rate = rate;
    this.x = x;
    this.k = new double[x.length][];
    KWeighting w = KWeighting.at(rate);
    for (int c = 0; c < x.length; c++) {
      k[c] = filter(filter(x[c], w.shelfB(), w.shelfA()), w.highPassB(), w.highPassA());
    }
  }

  private static double[] filter(double[] x, double[] b, double[] a) {
    double[] y = new double[x.length];
    for (int n = 0; n < x.length; n++) {
      y[n] = b[0] * x[n];
      y[n] += n > 0 ? b[1] * x[n - 1] - a[0] * y[n - 1] : 0;
      y[n] += n > 1 ? b[2] * x[n - 2] - a[1] * y[n - 2] : 0;
    }
    return y;
  }

  double power(int from, int to) {
    double sum = 0;
    for (double[] channel : k) {
      for (int n = from; n < to; n++) {
        sum += channel[n] * channel[n];
      }
    }
    return sum / (to - from);
  }

  public double ungatedLufs(int from, int to) {
    return lufs(power(from, to));
  }

  private static double lufs(double power) {
    return -0.691 + 10 * Math.log10(power);
  }

  private int frames(double seconds) {
    return (int) Math.round(seconds * rate);
  }

  /** Powers of windows wholly inside, from the range's start every {@code hop} seconds. */
  private double[] windows(int from, int to, double width, double hop) {
    List<Double> out = new ArrayList<>();
    for (int i = 0; ; i++) {
      int begin = from + frames(i * hop);
      if (begin + frames(width) > to) {
        return out.stream().mapToDouble(Double::doubleValue).toArray();
      }
      out.add(power(begin, begin + frames(width)));
    }
  }

  double integratedLufs(int from, int to) {
    double[] blocks = windows(from, to, 0.4, 0.1);
    double gate = gate(blocks);
    return lufs(Arrays.stream(blocks).filter(p -> p > gate).average().orElseThrow());
  }

  private static double gate(double[] blocks) {
    double absolute = Math.pow(10, (-70 + 0.691) / 10);
    double mean = Arrays.stream(blocks).filter(p -> p > absolute).average().orElseThrow();
    return Math.max(absolute, mean / 10);
  }

  double shareLufs(int from, int to) {
    return lufs(Arrays.stream(counted(from, to)).average().orElseThrow());
  }

  /** Powers of the blocks above the whole clip's gate whose centre lies in the range. */
  double[] counted(int from, int to) {
    double[] blocks = windows(0, x[0].length, 0.4, 0.1);
    double gate = gate(blocks);
    return IntStream.range(0, blocks.length)
        .filter(i -> frames(i * 0.1 + 0.2) >= from && frames(i * 0.1 + 0.2) < to)
        .mapToDouble(i -> blocks[i])
        .filter(p -> p > gate)
        .toArray();
  }

  double maxLufs(int from, int to, double width) {
    return lufs(Arrays.stream(windows(from, to, width, 0.01)).max().orElseThrow());
  }

  double rangeLu(int from, int to) {
    double[] s = windows(from, to, 3, 0.1);
    double absolute = Math.pow(10, (-70 + 0.691) / 10);
    double mean = Arrays.stream(s).filter(p -> p >= absolute).average().orElseThrow();
    double[] kept =
        Arrays.stream(s).filter(p -> p >= absolute && p >= mean / 100).sorted().toArray();
    int low = (int) Math.round((kept.length - 1) * 0.10 + 1) - 1;
    int high = (int) Math.round((kept.length - 1) * 0.95 + 1) - 1;
    return 10 * Math.log10(kept[high] / kept[low]);
  }

  double samplePeak(int from, int to) {
    double most = 0;
    for (double[] channel : x) {
      for (int n = from; n < to; n++) {
        most = Math.max(most, Math.abs(channel[n]));
      }
    }
    return most;
  }

  /** 64 points a sample, 128 taps of Blackman-windowed sinc. */
  double truePeak(int from, int to) {
    double most = samplePeak(from, to);
    for (int p = 1; p < 64; p++) {
      double[] h = new double[128];
      for (int j = 0; j < 128; j++) {
        double t = j - 63 - p / 64.0;
        double u = Math.PI * t / 64;
        h[j] =
            Math.sin(Math.PI * t)
                / (Math.PI * t)
                * (0.42 + 0.5 * Math.cos(u) + 0.08 * Math.cos(2 * u));
      }
      for (double[] channel : x) {
        for (int n = from; n < to; n++) {
          double y = 0;
          for (int j = Math.max(0, 63 - n); j < Math.min(128, channel.length + 63 - n); j++) {
            y += h[j] * channel[n + j - 63];
          }
          most = Math.max(most, Math.abs(y));
        }
      }
    }
    return most;
  }

  int clippedRuns() {
    int runs = 0;
    for (double[] channel : x) {
      int length = 0;
      for (double v : channel) {
        length = Math.abs(v) >= 32767.0 / 32768 ? length + 1 : 0;
        runs += length == 3 ? 1 : 0;
      }
    }
    return runs;
  }
}
