package org.mixaccord.align;

import java.util.ArrayList;
import java.util.List;
import org.jtransforms.fft.FloatFFT_1D;

/**
 * Offsets at which two reduced bounces agree anywhere, strongest first, by one cross-correlation of
 * the whole with the whole.
 *
 * <p>The cross-spectrum is partly whitened ({@code |.|^-0.7}, between plain and phase-only
 * correlation) and restricted to bins that carry signal in both: empty bins would lose the lock.
 * Long bounces are thinned first so that memory stays under 120 MB.
 */
final class CoarseOffsets {
  private static final float WHITENING = 0.7f;
  private static final double LOWEST_HZ = 80;
  private static final double SIGNAL_RANGE = 1e-6;
  private static final int MOST_CANDIDATES = 24;
  private static final int MOST_POINTS = 1 << 23;
  private static final double LEAST_SPACING_SECONDS = 0.004;

  /**
   * An offset worth trying.
   *
   * @param lag in samples of {@link LowRate#RATE}: there = here + lag
   * @param strength height over the correlation's own standard deviation
   */
  record Candidate(int lag, double strength) {}

  private CoarseOffsets() {}

  static List<Candidate> find(float[] here, float[] there) {
    int thin = 1;
    while ((long) here.length / thin + there.length / thin > MOST_POINTS) {
      thin *= 2;
    }
    float[] x = thinned(here, thin);
    float[] y = thinned(there, thin);
    int size = FastSizes.atLeast(x.length + y.length);
    float[] correlation = correlate(x, y, size, (double) LowRate.RATE / thin);
    return peaks(correlation, x.length, y.length, size, thin);
  }

  private static float[] thinned(float[] in, int by) {
    float[] out = new float[in.length / by];
    for (int i = 0; i < out.length; i++) {
      for (int k = 0; k < by; k++) {
        out[i] += in[i * by + k];
      }
    }
    return out;
  }

  private static float[] correlate(float[] x, float[] y, int size, double rate) {
    FloatFFT_1D fft = new FloatFFT_1D(size);
    float[] a = java.util.Arrays.copyOf(x, size);
    float[] b = java.util.Arrays.copyOf(y, size);
    fft.realForward(a);
    fft.realForward(b);
    double strongest = 0;
    for (int k = 1; k < size / 2; k++) {
      float re = b[2 * k] * a[2 * k] + b[2 * k + 1] * a[2 * k + 1];
      float im = b[2 * k + 1] * a[2 * k] - b[2 * k] * a[2 * k + 1];
      a[2 * k] = re;
      a[2 * k + 1] = im;
      strongest = Math.max(strongest, (double) re * re + (double) im * im);
    }
    a[0] = 0;
    a[1] = 0;
    int lowest = (int) (LOWEST_HZ / rate * size);
    double least = strongest * SIGNAL_RANGE * SIGNAL_RANGE;
    for (int k = 1; k < size / 2; k++) {
      double power = (double) a[2 * k] * a[2 * k] + (double) a[2 * k + 1] * a[2 * k + 1];
      float weight = k < lowest || power <= least ? 0 : (float) Math.pow(power, -WHITENING / 2);
      a[2 * k] *= weight;
      a[2 * k + 1] *= weight;
    }
    fft.realInverse(a, true);
    return a;
  }

  private static List<Candidate> peaks(float[] r, int nHere, int nThere, int size, int thin) {
    double sum = 0;
    for (float v : r) {
      sum += (double) v * v;
    }
    double deviation = Math.sqrt(sum / size);
    List<Candidate> found = new ArrayList<>();
    if (!(deviation > 0)) {
      return found;
    }
    int spacing = Math.max(1, (int) (LEAST_SPACING_SECONDS * LowRate.RATE / thin));
    float[] height = new float[nHere + nThere - 1];
    for (int i = 0; i < height.length; i++) {
      int lag = i - (nHere - 1);
      height[i] = Math.abs(r[lag < 0 ? lag + size : lag]);
    }
    for (int n = 0; n < MOST_CANDIDATES; n++) {
      int best = 0;
      for (int i = 1; i < height.length; i++) {
        if (height[i] > height[best]) {
          best = i;
        }
      }
      if (height[best] < 6 * deviation) {
        break;
      }
      found.add(new Candidate((best - (nHere - 1)) * thin, height[best] / deviation));
      int to = Math.min(height.length, best + spacing + 1);
      for (int i = Math.max(0, best - spacing); i < to; i++) {
        height[i] = 0;
      }
    }
    return found;
  }
}
