package org.mixaccord.measure;

import java.io.IOException;
import java.util.List;
import java.util.Random;
import java.util.stream.IntStream;
import java.util.stream.LongStream;
import org.mixaccord.audio.ArrayPcm;
import org.mixaccord.audio.FrameRange;
import org.mixaccord.audio.PcmSource;

/** Signals the tests are made of, written in code from the standards' tables. */
final class Signals {
  private Signals() {}

  static double amplitude(double dbfs) {
    return Math.pow(10, dbfs / 20);
  }

  static MeasureTrack measure(PcmSource pcm) {
    try {
      return MeasureTrack.measure(pcm, done -> {});
    } catch (IOException e) {
      throw new AssertionError(e);
    }
  }

  static MeasureTrack stereo(int rate, double[] mono) {
    return measure(new ArrayPcm(rate, mono, mono.clone()));
  }

  /** A tone of 1 kHz in both channels whose level changes: pairs of seconds and dBFS. */
  static MeasureTrack tone(int rate, double... secondsAndDbfs) {
    return measure(new ToneSteps(rate, 1000, new double[2], secondsAndDbfs));
  }

  /** A sine whose level changes: pairs of seconds and dBFS (NaN: silence). */
  static double[] steps(int rate, double hz, double... secondsAndDbfs) {
    double total = 0;
    for (int i = 0; i < secondsAndDbfs.length; i += 2) {
      total += secondsAndDbfs[i];
    }
    double[] x = new double[(int) Math.round(total * rate)];
    double t = 0;
    for (int i = 0; i < secondsAndDbfs.length; i += 2) {
      int from = (int) Math.round(t * rate);
      t += secondsAndDbfs[i];
      int to = (int) Math.round(t * rate);
      double dbfs = secondsAndDbfs[i + 1];
      double a = Double.isNaN(dbfs) ? 0 : amplitude(dbfs);
      for (int n = from; n < to; n++) {
        x[n] = a * Math.sin(2 * Math.PI * hz * n / rate);
      }
    }
    return x;
  }

  static double[] sine(int rate, double hz, double dbfs, double seconds) {
    return steps(rate, hz, seconds, dbfs);
  }

  static double[] noise(Random random, int frames, double rms) {
    double[] x = new double[frames];
    for (int i = 0; i < frames; i++) {
      x[i] = rms * random.nextGaussian();
    }
    return x;
  }

  static double[] scaled(double[] x, double gain) {
    double[] y = new double[x.length];
    for (int i = 0; i < x.length; i++) {
      y[i] = gain * x[i];
    }
    return y;
  }

  /** A clip cut at random places into ranges that meet, none of them empty. */
  static List<FrameRange> cut(Random random, int frames, int ranges) {
    long[] edges =
        LongStream.concat(
                LongStream.of(0, frames), random.longs(1, frames).distinct().limit(ranges - 1))
            .sorted()
            .toArray();
    return IntStream.range(0, ranges)
        .mapToObj(i -> new FrameRange(edges[i], edges[i + 1]))
        .toList();
  }
}
