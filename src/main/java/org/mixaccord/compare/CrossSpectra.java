package org.mixaccord.compare;

import java.io.IOException;
import java.util.List;
import java.util.function.DoubleConsumer;
import org.jtransforms.fft.DoubleFFT_1D;
import org.mixaccord.align.Alignment;
import org.mixaccord.align.MapPiece;
import org.mixaccord.align.Retimed;
import org.mixaccord.audio.PcmSource;

/**
 * One pass over two aligned bounces: spectra of half-overlapping Hann frames of about 0.17 s,
 * summed into segments by third-octave band, and a short record of every frame.
 *
 * <p>A frame counts for a segment only when it lies inside it with 30 ms to spare, because a fader
 * moved at an edge takes some milliseconds on either side, and only when it lies inside one piece
 * of the time map. Memory: one frame's buffers and about 0.8 kB for a second of music.
 */
final class CrossSpectra {
  private static final double FRAME_SECONDS = 0.17;
  private static final double GUARD_SECONDS = 0.03;

  private static final double MOVING_SECONDS = 0.005;

  /** Above this part of the lower rate, resampling is no longer exact enough to compare. */
  private static final double RESAMPLED_TOP = 0.41;

  private static final double TOP = 0.45;

  final ThirdOctaves bands;
  final int hop;
  final double hopSeconds;
  final int frameCount;

  /** Per frame and band: product over the other's power, and the other's power. */
  final float[][] gain;

  final float[][] power;

  /** Per frame: power here, product, power there, over all bands. */
  final double[] here;

  final double[] product;
  final double[] there;

  /** Per frame: what a level that may move every 5 ms leaves over, both sides moving alike. */
  final double[] leftAtMovingLevel;

  /** Per frame: the largest sample on either side, in its middle half. */
  final float[] peakHere;

  final float[] peakThere;

  /** Per frame: the largest difference of two samples, where whole frames match. */
  final float[] sampleDifference;

  /** Whether the frame lies inside one piece of the map. */
  final boolean[] inPiece;

  /** The largest difference of two samples where whole frames match, else NaN. */
  double largestDifference;

  private final int size;
  private final int channels;
  private final int polarity;
  private final boolean swapped;
  private final PcmSource a;
  private final PcmSource b;
  private final boolean exact;
  private final List<MapPiece> pieces;

  CrossSpectra(PcmSource here, PcmSource there, Alignment alignment) {
    a = here;
    pieces = alignment.timeMap().pieces();
    b = new Retimed(there, alignment.timeMap(), here.sampleRate(), here.frames());
    channels = Math.max(here.channels(), there.channels());
    polarity = alignment.polarity();
    swapped = alignment.channelsSwapped();
    exact = wholeFrames(alignment, here, there);
    int n = 1024;
    while (n * 1.5 < FRAME_SECONDS * here.sampleRate()) {
      n *= 2;
    }
    size = n;
    hop = n / 2;
    hopSeconds = hop / (double) here.sampleRate();
    double lower = Math.min(here.sampleRate(), there.sampleRate());
    boolean moved = here.sampleRate() != there.sampleRate() || alignment.speedRatio() != 1;
    bands = new ThirdOctaves(n, here.sampleRate(), lower * (exact || !moved ? TOP : RESAMPLED_TOP));
    frameCount = (int) Math.max(1, (here.frames() + hop - 1) / hop);
    gain = new float[frameCount][bands.count()];
    power = new float[frameCount][bands.count()];
    this.here = new double[frameCount];
    this.product = new double[frameCount];
    this.there = new double[frameCount];
    inPiece = new boolean[frameCount];
    sampleDifference = new float[frameCount];
    leftAtMovingLevel = new double[frameCount];
    peakHere = new float[frameCount];
    peakThere = new float[frameCount];
    largestDifference = exact ? 0 : Double.NaN;
  }

  /** Start of a frame in seconds; frames are {@code 2·hop} long. */
  double startSeconds(int frame) {
    return (frame - 1) * hopSeconds + hopSeconds / 2;
  }

  /** Runs the pass and fills the segments' sums. */
  void run(List<Segment> segments, DoubleConsumer progress) throws IOException {
    DoubleFFT_1D fft = new DoubleFFT_1D(size);
    double[] hann = new double[size];
    double windowPower = 0;
    for (int i = 0; i < size; i++) {
      hann[i] = 0.5 - 0.5 * Math.cos(2 * Math.PI * (i + 0.5) / size);
      windowPower += hann[i] * hann[i];
    }
    double scale = 2 / (size * windowPower * channels);
    double[][] x = new double[channels][size];
    double[][] y = new double[channels][size];
    double[][] in = new double[a.channels()][size];
    double[][] other = new double[b.channels()][size];
    double[] spectrumX = new double[2 * size];
    double[] spectrumY = new double[2 * size];
    double[][] bins = new double[4][size / 2 + 1];
    BandSums frameSums = new BandSums(bands.count());
    int loaded = -2;
    for (int f = 0; f < frameCount; f++) {
      long start = Math.round(startSeconds(f) * a.sampleRate());
      inPiece[f] = insideOnePiece(f);
      if (inPiece[f] || exact) {
        // Frames overlap by half: what the last one held need not be read, or moved in time, again.
        boolean follows = loaded == f - 1;
        load(a, start, in, x, follows, 1, false);
        load(b, start, other, y, follows, polarity, swapped);
        loaded = f;
        if (exact) {
          compareSamples(f, x, y, start);
        }
      }
      if (!inPiece[f]) {
        continue;
      }
      frameSums.clear();
      for (int c = 0; c < channels; c += 2) {
        pack(x, c, hann, spectrumX);
        pack(y, c, hann, spectrumY);
        fft.complexForward(spectrumX);
        fft.complexForward(spectrumY);
        addPair(spectrumX, spectrumY, c + 1 < channels, scale, bins, frameSums);
      }
      leftAtMovingLevel[f] = leftAtMovingLevel(x, y);
      peakHere[f] = peak(x);
      peakThere[f] = peak(y);
      frameSums.frames = 1;
      record(f, frameSums);
      for (Segment segment : segments) {
        if (startSeconds(f) >= segment.from() + guard(segment)
            && startSeconds(f + 2) <= segment.to() - guard(segment)) {
          segment.sums().add(frameSums);
        }
      }
      if (f % 64 == 0) {
        progress.accept(f / (double) frameCount);
      }
    }
  }

  private double guard(Segment segment) {
    return segment.seconds() > 1 ? GUARD_SECONDS : 0;
  }

  /** Whether a frame lies in a segment with the usual margin. */
  boolean inside(int frame, Segment segment) {
    return inPiece[frame]
        && startSeconds(frame) >= segment.from() + guard(segment)
        && startSeconds(frame + 2) <= segment.to() - guard(segment);
  }

  private boolean insideOnePiece(int f) {
    double from = startSeconds(f);
    double to = startSeconds(f + 2);
    double end = a.frames() / (double) a.sampleRate();
    for (int i = 0; i < pieces.size(); i++) {
      MapPiece p = pieces.get(i);
      double first = i == 0 && p.from() < GUARD_SECONDS ? from : p.from() + GUARD_SECONDS;
      boolean last = i == pieces.size() - 1 && end - p.to() < GUARD_SECONDS;
      if (from >= first && to <= (last ? to : p.to() - GUARD_SECONDS)) {
        return true;
      }
    }
    return false;
  }

  private void record(int f, BandSums sums) {
    for (int band = 0; band < bands.count(); band++) {
      power[f][band] = (float) sums.there[band];
      gain[f][band] =
          sums.there[band] > 0 ? (float) (sums.product[band] / sums.there[band]) : Float.NaN;
      here[f] += sums.here[band];
      product[f] += sums.product[band];
      there[f] += sums.there[band];
    }
  }

  /** Mean square left over in the middle half of a frame, which its neighbours do not share. */
  private double leftAtMovingLevel(double[][] x, double[][] y) {
    int step = Math.max(8, (int) Math.round(MOVING_SECONDS * a.sampleRate()));
    double left = 0;
    for (int at = size / 4; at < size * 3 / 4; at += step) {
      int to = Math.min(size * 3 / 4, at + step);
      double xx = 0;
      double xy = 0;
      double yy = 0;
      for (int c = 0; c < x.length; c++) {
        for (int i = at; i < to; i++) {
          xx += x[c][i] * x[c][i];
          xy += x[c][i] * y[c][i];
          yy += y[c][i] * y[c][i];
        }
      }
      left += yy > 0 ? Math.max(0, xx - xy * xy / yy) : xx;
    }
    return left / (size / 2.0 * x.length);
  }

  private float peak(double[][] block) {
    double peak = 0;
    for (double[] channel : block) {
      for (int i = size / 4; i < size * 3 / 4; i++) {
        peak = Math.max(peak, Math.abs(channel[i]));
      }
    }
    return (float) peak;
  }

  /** Two channels at once: the halves of one complex transform are taken apart bin by bin. */
  private void addPair(
      double[] zx, double[] zy, boolean pair, double scale, double[][] bins, BandSums sums) {
    double mx = 0;
    double my = 0;
    double sx = 0;
    double sy = 0;
    for (int k = 1; k < size / 2; k++) {
      int m = 2 * (size - k);
      double xl = (zx[2 * k] + zx[m]) / 2;
      double xlI = (zx[2 * k + 1] - zx[m + 1]) / 2;
      double xr = (zx[2 * k + 1] + zx[m + 1]) / 2;
      double xrI = (zx[m] - zx[2 * k]) / 2;
      double yl = (zy[2 * k] + zy[m]) / 2;
      double ylI = (zy[2 * k + 1] - zy[m + 1]) / 2;
      double yr = (zy[2 * k + 1] + zy[m + 1]) / 2;
      double yrI = (zy[m] - zy[2 * k]) / 2;
      double hl = xl * xl + xlI * xlI;
      double hr = xr * xr + xrI * xrI;
      double tl = yl * yl + ylI * ylI;
      double tr = yr * yr + yrI * yrI;
      bins[0][k] = (hl + hr) * scale;
      bins[1][k] = (tl + tr) * scale;
      bins[2][k] = (xl * yl + xlI * ylI + xr * yr + xrI * yrI) * scale;
      bins[3][k] = (xl * ylI - xlI * yl + xr * yrI - xrI * yr) * scale;
      double hc = 2 * (xl * xr + xlI * xrI);
      double tc = 2 * (yl * yr + ylI * yrI);
      mx += hl + hr + hc;
      sx += hl + hr - hc;
      my += tl + tr + tc;
      sy += tl + tr - tc;
    }
    for (int band = 0; band < bands.count(); band++) {
      sums.here[band] += bands.sum(bins[0], band);
      sums.there[band] += bands.sum(bins[1], band);
      sums.product[band] += bands.sum(bins[2], band);
      sums.turned[band] += bands.sum(bins[3], band);
    }
    if (pair) {
      sums.midHere += mx * scale / 2;
      sums.midThere += my * scale / 2;
      sums.sideHere += sx * scale / 2;
      sums.sideThere += sy * scale / 2;
    }
  }

  private static void pack(double[][] from, int channel, double[] window, double[] into) {
    boolean pair = channel + 1 < from.length;
    for (int i = 0; i < window.length; i++) {
      into[2 * i] = from[channel][i] * window[i];
      into[2 * i + 1] = pair ? from[channel + 1][i] * window[i] : 0;
    }
  }

  private void load(
      PcmSource pcm,
      long start,
      double[][] buffer,
      double[][] into,
      boolean follows,
      int sign,
      boolean swap)
      throws IOException {
    int kept = follows ? size - hop : 0;
    long from = Math.max(0, start + kept);
    long to = Math.min(pcm.frames(), start + size);
    int head = (int) (from - start);
    int count = (int) Math.max(0, to - from);
    if (count > 0) {
      pcm.read(from, buffer, count);
    }
    for (int c = 0; c < into.length; c++) {
      double[] source = buffer[buffer.length == 1 ? 0 : swap ? buffer.length - 1 - c : c];
      System.arraycopy(into[c], size - kept, into[c], 0, kept);
      java.util.Arrays.fill(into[c], kept, size, 0);
      for (int i = 0; i < count; i++) {
        into[c][head + i] = sign * source[i];
      }
    }
  }

  /** The largest difference of two samples in a segment, its edges left out where asked. */
  double differenceIn(Segment segment, boolean guarded) {
    double largest = 0;
    for (int f = 0; f < frameCount; f++) {
      boolean touches =
          inPiece[f] && startSeconds(f) < segment.to() && startSeconds(f + 2) > segment.from();
      if (guarded ? inside(f, segment) : touches) {
        largest = Math.max(largest, sampleDifference[f]);
      }
    }
    return largest;
  }

  private void compareSamples(int f, double[][] x, double[][] y, long start) {
    double rate = a.sampleRate();
    for (MapPiece p : pieces) {
      int from = (int) Math.max(0, Math.round(p.from() * rate) - start);
      int to = (int) Math.min(size, Math.round(p.to() * rate) - start);
      for (int c = 0; c < x.length; c++) {
        for (int i = from; i < to; i++) {
          double d = Math.abs(x[c][i] - y[c][i]);
          if (d > sampleDifference[f]) {
            sampleDifference[f] = (float) Math.max(d, Float.MIN_NORMAL);
          }
        }
      }
    }
    largestDifference = Math.max(largestDifference, sampleDifference[f]);
  }

  private static boolean wholeFrames(Alignment alignment, PcmSource here, PcmSource there) {
    if (here.sampleRate() != there.sampleRate() || alignment.speedRatio() != 1) {
      return false;
    }
    for (MapPiece p : alignment.timeMap().pieces()) {
      double offset = (p.otherFrom() - p.from()) * here.sampleRate();
      if (Math.abs(offset - Math.rint(offset)) > 1e-3) {
        return false;
      }
    }
    return true;
  }
}
