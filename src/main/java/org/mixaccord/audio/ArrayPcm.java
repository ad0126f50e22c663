package org.mixaccord.audio;

/** PCM held in memory: {@code samples[channel][frame]}, full scale = ±1.0. */
public final class ArrayPcm implements PcmSource {
  private final int sampleRate;
  private final double[][] samples;

  /**
   * Wraps the arrays without copying them.
   *
   * @param sampleRate frames per second
   * @param samples one array a channel, all of one length
   * @throws IllegalArgumentException if there is no channel or the lengths differ
   */
  public ArrayPcm(int sampleRate, double[]... samples) {
    if (samples.length == 0) {
      throw new IllegalArgumentException("a clip needs at least one channel");
    }
    for (double[] channel : samples) {
      if (channel.length != samples[0].length) {
        throw new IllegalArgumentException("channels of different lengths");
      }
    }
    this.sampleRate = sampleRate;
    this.samples = samples;
  }

  @Override
  public int sampleRate() {
    return sampleRate;
  }

  @Override
  public int channels() {
    return samples.length;
  }

  @Override
  public long frames() {
    return samples[0].length;
  }

  @Override
  public void read(long from, double[][] into, int count) {
    if (from < 0 || count < 0 || from + count > frames()) {
      throw new IllegalArgumentException(
          "frames " + from + " + " + count + " are outside the clip of " + frames());
    }
    for (int c = 0; c < samples.length; c++) {
      System.arraycopy(samples[c], (int) from, into[c], 0, count);
    }
  }
}
