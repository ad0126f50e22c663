package org.mixaccord.align;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import org.jtransforms.fft.DoubleFFT_1D;
import org.mixaccord.audio.PcmSource;

/**
 * Measures an offset to a small fraction of a frame in many places of a piece.
 *
 * <p>At each place both bounces are windowed (Hann), their cross-spectrum is partly whitened
 * between 60 Hz and 0.4 of the lower rate (at most 15 kHz), and the maximum of its inverse
 * transform is found between the frames by Newton's method on the trigonometric sum, which is what
 * an endlessly upsampled correlation would give. Bins 60 dB under the strongest are left out.
 */
final class FineOffset {
  private static final int WINDOW = 1 << 15;

  /** Low-rate offsets are right to a sample of 6 kHz; frames searched beside them at 48 kHz. */
  private static final double SEARCH_SECONDS = 1.5 / 1000;

  private static final int MOST_PLACES = 32;
  private static final double LOWEST_HZ = 60;
  private static final double HIGHEST_HZ = 15000;
  private static final double SIGNAL_RANGE = 1e-6;

  private final PcmSource here;
  private final PcmSource there;
  private final double thereRate;
  private final Interpolator interpolator;
  private final DoubleFFT_1D fft = new DoubleFFT_1D(WINDOW);
  private final double[] hann = new double[WINDOW];
  private final double[][] hereBlock;
  private final double[][] thereBlock;

  /**
   * Prepares measuring.
   *
   * @param thereRate frames a second of the other bounce on the common clock; its own rate unless
   *     that is labelled wrongly
   */
  FineOffset(PcmSource here, PcmSource there, double thereRate) {
    this.here = here;
    this.there = there;
    this.thereRate = thereRate;
    this.interpolator = new Interpolator(there);
    this.hereBlock = new double[here.channels()][WINDOW];
    this.thereBlock = new double[there.channels()][WINDOW];
    for (int i = 0; i < WINDOW; i++) {
      hann[i] = 0.5 - 0.5 * Math.cos(2 * Math.PI * (i + 0.5) / WINDOW);
    }
  }

  /**
   * Offsets along a stretch.
   *
   * @param piece the stretch as found on the low rate
   * @param growth seconds there for one second here as known so far, near 1
   * @return pairs {seconds here, seconds by which the same moment is later there}
   */
  List<double[]> along(PieceFinder.Found piece, double growth) throws IOException {
    double fs = here.sampleRate();
    double low = LowRate.RATE;
    List<double[]> points = new ArrayList<>();
    double from = piece.from() / low * fs;
    double room = (piece.to() - piece.from()) / low * fs - WINDOW;
    int places = (int) Math.max(1, Math.min(MOST_PLACES, room / WINDOW + 1));
    for (int i = 0; i < places; i++) {
      long start =
          Math.round(
              from + (places == 1 ? Math.min(0, room) / 2 : room * i / (double) (places - 1)));
      start = Math.max(0, Math.min(start, here.frames() - WINDOW));
      double centreSeconds = (start + WINDOW / 2.0) / fs;
      double offset = piece.lagAt(centreSeconds * low) / low;
      double at = (start / fs + offset) * thereRate;
      double step = thereRate * growth / fs;
      if (step == 1) {
        at = Math.rint(at);
      } else {
        at -= (step * fs / thereRate - 1) * WINDOW / 2 / fs * thereRate;
      }
      double tau = shiftAt(Math.max(0, start), at, step);
      if (!Double.isNaN(tau)) {
        double otherCentre = at / thereRate + step * WINDOW / 2 / thereRate;
        points.add(new double[] {centreSeconds, otherCentre - centreSeconds + tau / fs});
      }
    }
    return points;
  }

  private double shiftAt(long start, double other, double step) throws IOException {
    int count = (int) Math.min(WINDOW, here.frames() - start);
    here.read(start, hereBlock, count);
    interpolator.read(other, step, thereBlock, 0, WINDOW);
    double[] x = mono(hereBlock, count);
    double[] y = mono(thereBlock, WINDOW);
    fft.realForward(x);
    fft.realForward(y);
    int lowest = (int) Math.ceil(LOWEST_HZ / here.sampleRate() * WINDOW);
    double top = Math.min(HIGHEST_HZ, 0.4 * Math.min(here.sampleRate(), there.sampleRate()));
    int highest = Math.min(WINDOW / 2 - 1, (int) (top / here.sampleRate() * WINDOW));
    double[] re = new double[highest + 1];
    double[] im = new double[highest + 1];
    double strongest = 0;
    for (int k = lowest; k <= highest; k++) {
      re[k] = x[2 * k] * y[2 * k] + x[2 * k + 1] * y[2 * k + 1];
      im[k] = x[2 * k] * y[2 * k + 1] - x[2 * k + 1] * y[2 * k];
      strongest = Math.max(strongest, Math.hypot(re[k], im[k]));
    }
    if (!(strongest > 1e-20)) {
      return Double.NaN;
    }
    double[] whole = new double[WINDOW];
    for (int k = lowest; k <= highest; k++) {
      double size = Math.hypot(re[k], im[k]);
      double weight = size > strongest * SIGNAL_RANGE ? 1 / Math.sqrt(size) : 0;
      re[k] *= weight;
      im[k] *= weight;
      whole[2 * k] = re[k];
      whole[2 * k + 1] = im[k];
    }
    fft.realInverse(whole, false);
    return climb(re, im, lowest, highest, peak(whole));
  }

  private int peak(double[] correlation) {
    int reach = (int) Math.ceil(SEARCH_SECONDS * here.sampleRate());
    int best = 0;
    for (int lag = -reach; lag <= reach; lag++) {
      if (Math.abs(correlation[lag & (WINDOW - 1)]) > Math.abs(correlation[best & (WINDOW - 1)])) {
        best = lag;
      }
    }
    return best;
  }

  private static double climb(double[] re, double[] im, int lowest, int highest, int start) {
    double tau = start;
    for (int round = 0; round < 8; round++) {
      double first = 0;
      double second = 0;
      for (int k = lowest; k <= highest; k++) {
        double w = 2 * Math.PI * k / WINDOW;
        double cos = Math.cos(w * tau);
        double sin = Math.sin(w * tau);
        first -= w * (re[k] * sin + im[k] * cos);
        second -= w * w * (re[k] * cos - im[k] * sin);
      }
      double move = second == 0 ? 0 : -first / second;
      if (!(Math.abs(move) < 1)) {
        return Double.NaN;
      }
      tau += move;
      if (Math.abs(move) < 1e-6) {
        break;
      }
    }
    return Math.abs(tau - start) <= 1.5 ? tau : Double.NaN;
  }

  private double[] mono(double[][] block, int count) {
    double[] out = new double[WINDOW];
    for (double[] channel : block) {
      for (int i = 0; i < count; i++) {
        out[i] += channel[i] * hann[i];
      }
    }
    return out;
  }
}
