package org.mixaccord.measure;

import java.math.BigInteger;
import org.mixaccord.audio.PcmSource;

/**
 * A sine whose level changes in steps, made while it is read, so that long cases at high rates cost
 * no memory. The phase runs on through the steps.
 */
final class ToneSteps implements PcmSource {
  private final int rate;
  private final double[] period;
  private final double[] gains;
  private final long[] edges;
  private final double[] amplitudes;

  /**
   * @param hz a whole number, so that one period repeats in whole frames
   * @param channelsDb level of each channel re the steps' levels
   * @param secondsAndDbfs pairs of length and peak level (NaN: silence)
   */
  ToneSteps(int rate, int hz, double[] channelsDb, double... secondsAndDbfs) {
    this.rate = rate;
    period = new double[rate / BigInteger.valueOf(rate).gcd(BigInteger.valueOf(hz)).intValue()];
    for (int n = 0; n < period.length; n++) {
      period[n] = Math.sin(2 * Math.PI * hz * n / rate);
    }
    gains = new double[channelsDb.length];
    for (int c = 0; c < gains.length; c++) {
      gains[c] = Signals.amplitude(channelsDb[c]);
    }
    edges = new long[secondsAndDbfs.length / 2 + 1];
    amplitudes = new double[secondsAndDbfs.length / 2];
    double seconds = 0;
    for (int i = 0; i < amplitudes.length; i++) {
      seconds += secondsAndDbfs[2 * i];
      edges[i + 1] = Math.round(seconds * rate);
      double dbfs = secondsAndDbfs[2 * i + 1];
      amplitudes[i] = Double.isNaN(dbfs) ? 0 : Signals.amplitude(dbfs);
    }
  }

  @Override
  public int sampleRate() {
    return rate;
  }

  @Override
  public int channels() {
    return gains.length;
  }

  @Override
  public long frames() {
    return edges[edges.length - 1];
  }

  @Override
  public void read(long from, double[][] into, int count) {
    for (int step = 0; step < amplitudes.length; step++) {
      long a = Math.max(from, edges[step]);
      long b = Math.min(from + count, edges[step + 1]);
      for (int c = 0; c < gains.length && a < b; c++) {
        double gain = gains[c] * amplitudes[step];
        int at = (int) (a % period.length);
        for (int i = (int) (a - from); i < b - from; i++) {
          into[c][i] = gain * period[at];
          at = at + 1 == period.length ? 0 : at + 1;
        }
      }
    }
  }
}
