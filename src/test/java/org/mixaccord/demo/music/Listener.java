package org.mixaccord.demo.music;

import java.io.OutputStream;

/** Reads the WAV bytes it is given back into whole 24-bit samples, interleaved. */
final class Listener extends OutputStream {
  static final int HEADER = 44;
  final byte[] header = new byte[HEADER];
  final int[] samples;
  private final boolean adding;
  private int headerAt;
  private int at;
  private int value;
  private int bytes;

  /** Keeps the samples of one file of so many frames. */
  Listener(long frames) {
    this(new int[Math.toIntExact(frames * 2)], false);
  }

  private Listener(int[] samples, boolean adding) {
    this.samples = samples;
    this.adding = adding;
  }

  /** Adds the samples of a file to those already in {@code sum}. */
  static Listener addingTo(int[] sum) {
    return new Listener(sum, true);
  }

  int written() {
    return at;
  }

  @Override
  public void write(int one) {
    write(new byte[] {(byte) one}, 0, 1);
  }

  @Override
  public void write(byte[] from, int offset, int count) {
    for (int i = offset; i < offset + count; i++) {
      if (headerAt < HEADER) {
        header[headerAt++] = from[i];
        continue;
      }
      value |= (from[i] & 0xff) << (8 * bytes++);
      if (bytes == 3) {
        int sample = value << 8 >> 8;
        samples[at] = adding ? samples[at] + sample : sample;
        at++;
        value = 0;
        bytes = 0;
      }
    }
  }

  /** Loudest sample of a stretch of frames, 1.0 = full scale. */
  double peak(long fromFrame, long toFrame) {
    int most = 0;
    for (int i = (int) fromFrame * 2; i < toFrame * 2; i++) {
      most = Math.max(most, Math.abs(samples[i]));
    }
    return most / 8_388_608.0;
  }

  /** Mean power of a stretch of frames, in dB below a full-scale square wave. */
  double powerDb(long fromFrame, long toFrame) {
    double sum = 0;
    for (int i = (int) fromFrame * 2; i < toFrame * 2; i++) {
      double sample = samples[i] / 8_388_608.0;
      sum += sample * sample;
    }
    return 10 * Math.log10(sum / (2.0 * (toFrame - fromFrame)));
  }

  /** Mean of both channels over the whole file. */
  double mean() {
    long sum = 0;
    for (int sample : samples) {
      sum += sample;
    }
    return sum / 8_388_608.0 / samples.length;
  }

  /**
   * Peak in dB between the samples too, on a grid four times as fine: an interpolating sinc under a
   * Hann window, worked out only where the neighbours are loud enough to matter.
   */
  double truePeakDb(long fromFrame, long toFrame) {
    double most = peak(fromFrame, toFrame);
    int reach = 16;
    int loud = (int) (0.75 * most * 8_388_608);
    for (int i = (int) fromFrame * 2; i < toFrame * 2 - 2; i++) {
      if (Math.abs(samples[i]) < loud && Math.abs(samples[i + 2]) < loud) {
        continue;
      }
      for (int quarter = 1; quarter < 4; quarter++) {
        double sum = 0;
        for (int k = -reach + 1; k <= reach; k++) {
          int j = i + 2 * k;
          if (j >= 0 && j < samples.length) {
            double x = quarter / 4.0 - k;
            double window = 0.5 + 0.5 * Math.cos(Math.PI * x / reach);
            sum += samples[j] / 8_388_608.0 * window * Math.sin(Math.PI * x) / (Math.PI * x);
          }
        }
        most = Math.max(most, Math.abs(sum));
      }
    }
    return 20 * Math.log10(most);
  }
}
