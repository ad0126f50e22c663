package org.mixaccord.align;

import java.io.IOException;
import org.mixaccord.audio.PcmSource;

/**
 * Whether the other bounce is turned upside down or has its sides exchanged, from products of the
 * aligned channels in up to 24 places.
 *
 * @param polarity +1 or −1
 * @param swapped whether left here is right there
 */
record ChannelMatch(int polarity, boolean swapped) {
  private static final int PLACES = 24;
  private static final int FRAMES = 1 << 14;

  /** Sides must agree this clearly, crossed over, to be called exchanged. */
  private static final double CLEAR = 0.5;

  static ChannelMatch of(PcmSource here, PcmSource there, TimeMap map) throws IOException {
    Retimed other = new Retimed(there, map, here.sampleRate(), here.frames());
    double[][] x = new double[here.channels()][FRAMES];
    double[][] y = new double[there.channels()][FRAMES];
    double mid = 0;
    double side = 0;
    double sideHere = 0;
    double sideThere = 0;
    boolean stereo = x.length == 2 && y.length == 2;
    for (int p = 0; p < PLACES; p++) {
      long room = Math.max(0, here.frames() - FRAMES);
      int count = (int) Math.min(FRAMES, here.frames());
      long from = room * p / (PLACES - 1);
      here.read(from, x, count);
      other.read(from, y, count);
      for (int i = 0; i < count; i++) {
        mid += sum(x, i) * sum(y, i);
        if (stereo) {
          double a = x[0][i] - x[1][i];
          double b = y[0][i] - y[1][i];
          side += a * b;
          sideHere += a * a;
          sideThere += b * b;
        }
      }
    }
    int polarity = mid < 0 ? -1 : 1;
    boolean swapped = stereo && side * polarity < -CLEAR * Math.sqrt(sideHere * sideThere);
    return new ChannelMatch(polarity, swapped && sideHere > 0 && sideThere > 0);
  }

  private static double sum(double[][] block, int frame) {
    double sum = 0;
    for (double[] channel : block) {
      sum += channel[frame];
    }
    return sum / block.length;
  }
}
