package org.mixaccord.compare;

import java.io.IOException;
import java.util.List;
import java.util.OptionalDouble;
import org.mixaccord.align.TimeSpan;
import org.mixaccord.audio.PcmSource;

/**
 * Ungated K-weighted loudness of stretches of a bounce, filtered once from its first sample. A
 * single channel is counted twice, as two loudspeakers play it. Filter parameters are those that
 * regenerate the table of ITU-R BS.1770 at 48 kHz; the second filter's numerator is scaled so that
 * every rate has the table's pass-band gain.
 */
final class KLoudness {
  private static final int BLOCK = 1 << 15;
  private static final double GRID_SECONDS = 0.01;
  private static final double HEAD_HZ = 1681.974450955533;
  private static final double HEAD_DB = 3.999843853973347;
  private static final double HEAD_Q = 0.7071752369554196;
  private static final double HEAD_SHAPE = 0.4996667741545416;
  private static final double LOW_HZ = 38.13547087602444;
  private static final double LOW_Q = 0.5003270373238773;

  /** Energy up to each grid point. */
  private final double[] energy;

  private final int sampleRate;
  private final int step;

  private KLoudness(double[] energy, int sampleRate, int step) {
    this.energy = energy;
    this.sampleRate = sampleRate;
    this.step = step;
  }

  static KLoudness of(PcmSource pcm) throws IOException {
    int step = Math.max(1, (int) Math.round(pcm.sampleRate() * GRID_SECONDS));
    double[] energy = new double[(int) (pcm.frames() / step) + 2];
    double weight = pcm.channels() == 1 ? 2 : 1;
    double[][] block = new double[pcm.channels()][BLOCK];
    double[] c = coefficients(pcm.sampleRate());
    double[][] state = new double[pcm.channels()][4];
    for (long at = 0; at < pcm.frames(); at += BLOCK) {
      int count = (int) Math.min(BLOCK, pcm.frames() - at);
      pcm.read(at, block, count);
      for (int ch = 0; ch < block.length; ch++) {
        double g = weight * channelWeight(ch, block.length);
        for (int i = 0; i < count && g > 0; ) {
          int cell = (int) ((at + i) / step);
          int stop = (int) Math.min(count, (cell + 1L) * step - at);
          energy[cell + 1] += g * filtered(block[ch], i, stop, c, state[ch]);
          i = stop;
        }
      }
    }
    for (int i = 1; i < energy.length; i++) {
      energy[i] += energy[i - 1];
    }
    return new KLoudness(energy, pcm.sampleRate(), step);
  }

  /** Filters samples {@code from … to} of a channel and sums the squares. */
  private static double filtered(double[] in, int from, int to, double[] c, double[] state) {
    double s0 = state[0];
    double s1 = state[1];
    double s2 = state[2];
    double s3 = state[3];
    double sum = 0;
    for (int i = from; i < to; i++) {
      double x = in[i];
      double y = c[0] * x + s0;
      s0 = c[1] * x - c[3] * y + s1;
      s1 = c[2] * x - c[4] * y;
      double z = c[5] * y + s2;
      s2 = -2 * c[5] * y - c[6] * z + s3;
      s3 = c[5] * y - c[7] * z;
      sum += z * z;
    }
    state[0] = s0;
    state[1] = s1;
    state[2] = s2;
    state[3] = s3;
    return sum;
  }

  /**
   * Loudness of some stretches together in LUFS; empty under −120 or when they are no longer than
   * nothing.
   */
  OptionalDouble lufs(List<TimeSpan> spans) {
    double sum = 0;
    double frames = 0;
    for (TimeSpan span : spans) {
      sum += at(span.to() * sampleRate) - at(span.from() * sampleRate);
      frames += span.seconds() * sampleRate;
    }
    double power = frames > 0 ? sum / frames : 0;
    return power > 1e-12
        ? OptionalDouble.of(-0.691 + 10 * Math.log10(power))
        : OptionalDouble.empty();
  }

  private double at(double frame) {
    double x = Math.max(0, Math.min(energy.length - 1.0, frame / step));
    int i = (int) Math.min(x, energy.length - 2.0);
    return energy[i] + (x - i) * (energy[i + 1] - energy[i]);
  }

  /** 5.1 in the usual order: the fourth channel is left out, the two behind count 1.41. */
  private static double channelWeight(int channel, int channels) {
    if (channels != 6 || channel < 3) {
      return 1;
    }
    return channel == 3 ? 0 : 1.41;
  }

  private static double[] coefficients(int sampleRate) {
    double k = Math.tan(Math.PI * HEAD_HZ / sampleRate);
    double vh = Math.pow(10, HEAD_DB / 20);
    double vb = Math.pow(vh, HEAD_SHAPE);
    double d = 1 + k / HEAD_Q + k * k;
    double low = Math.tan(Math.PI * LOW_HZ / sampleRate);
    double d2 = 1 + low / LOW_Q + low * low;
    double reference = Math.tan(Math.PI * LOW_HZ / 48000);
    double scale = (1 + reference / LOW_Q + reference * reference) / d2;
    return new double[] {
      (vh + vb * k / HEAD_Q + k * k) / d,
      2 * (k * k - vh) / d,
      (vh - vb * k / HEAD_Q + k * k) / d,
      2 * (k * k - 1) / d,
      (1 - k / HEAD_Q + k * k) / d,
      scale,
      2 * (low * low - 1) / d2,
      (1 - low / LOW_Q + low * low) / d2
    };
  }
}
