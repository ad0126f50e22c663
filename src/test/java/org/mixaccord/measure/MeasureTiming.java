package org.mixaccord.measure;

import java.io.IOException;
import java.util.Random;
import org.mixaccord.audio.ArrayPcm;
import org.mixaccord.audio.FrameRange;

/**
 * Times the measuring of four minutes of 48 kHz stereo in memory, as it is and pressed against a
 * limit. Not a test: run {@code java -cp target/classes:target/test-classes:<JTransforms and its
 * parts> org.mixaccord.measure.MeasureTiming}.
 */
final class MeasureTiming {
  private MeasureTiming() {}

  public static void main(String[] args) throws IOException {
    int rate = 48000;
    int frames = 240 * rate;
    double[][] open = {music(1, frames), music(2, frames)};
    double[][] pressed = {press(open[0]), press(open[1])};
    for (int run = 0; run < 3; run++) {
      time("as it is", rate, open);
      time("limited", rate, pressed);
    }
  }

  private static void time(String name, int rate, double[][] x) throws IOException {
    long begin = System.nanoTime();
    MeasureTrack track = MeasureTrack.measure(new ArrayPcm(rate, x), done -> {});
    long pass = System.nanoTime();
    Measurements m = track.section(new FrameRange(30L * rate, 60L * rate));
    long section = System.nanoTime();
    System.out.printf(
        "%s: pass %.3f s, section %.2f ms (true peak %.2f dBTP)%n",
        name, (pass - begin) / 1e9, (section - pass) / 1e6, m.truePeakDbtp().orElse(0));
  }

  /** Decaying low notes with bright noise on each beat. */
  private static double[] music(long seed, int frames) {
    Random random = new Random(seed);
    double[] x = new double[frames];
    double low = 0;
    for (int i = 0; i < frames; i++) {
      double beat = i % 24000 / 24000.0;
      double white = random.nextGaussian();
      low += 0.05 * (white - low);
      x[i] =
          0.4 * Math.exp(-3 * beat) * Math.sin(0.008 * i)
              + 0.5 * low
              + 0.08 * Math.exp(-20 * beat) * white;
    }
    return x;
  }

  private static double[] press(double[] x) {
    double[] y = new double[x.length];
    for (int i = 0; i < x.length; i++) {
      y[i] = 0.98 * Math.tanh(4 * x[i]);
    }
    return y;
  }
}
