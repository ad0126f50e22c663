package org.mixaccord.measure;

import org.mixaccord.audio.PcmSource;

/** A clip over and over again, to any length, without the memory for it. */
record RepeatedPcm(int sampleRate, double[][] clip, long frames) implements PcmSource {
  @Override
  public int channels() {
    return clip.length;
  }

  @Override
  public void read(long from, double[][] into, int count) {
    int length = clip[0].length;
    for (int done = 0; done < count; ) {
      int at = (int) ((from + done) % length);
      int some = Math.min(count - done, length - at);
      for (int c = 0; c < clip.length; c++) {
        System.arraycopy(clip[c], at, into[c], done, some);
      }
      done += some;
    }
  }
}
