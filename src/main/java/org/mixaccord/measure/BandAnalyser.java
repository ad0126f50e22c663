package org.mixaccord.measure;

/**
 * Third-octave energies of a stream of blocks. Three resolutions: spectra at the clip's own rate
 * (lines at most 24.5 Hz apart) from 315 Hz up, and at about 6 kHz (6.5 Hz and 1.6 Hz apart) for 80
 * to 250 Hz and 20 to 63 Hz. Each window's energy is spread over the 100 ms cells its middle third
 * touches; what falls outside the clip counts in its first or last cell.
 */
final class BandAnalyser {
  private static final double LOW_RATE = 6553; // 4096 lines of it are at most 1.6 Hz apart
  private static final int FIRST_MIDDLE = 6; // 80 Hz
  private static final int FIRST_HIGH = 12; // 315 Hz
  private static final double HIGH_LINE_HZ = 24.5;
  private static final double MIDDLE_LINE_HZ = 6.5;
  private static final double LOW_LINE_HZ = 1.6;

  private final int sampleRate;
  private final int channels;
  private final long frames;
  private final float[] total;
  private final float[] difference;
  private final float[] product;
  private final PitchClasses pitch;
  private final BandTier[] high;
  private final BandTier[] middle;
  private final BandTier[] low;
  private final Decimator[] decimators;
  private final FineSpectrum.Sum lines;

  BandAnalyser(int sampleRate, int channels, long frames) {
    this.sampleRate = sampleRate;
    this.channels = channels;
    this.frames = frames;
    int n = BandGrid.cells(sampleRate, frames) * ThirdOctaves.COUNT;
    boolean stereo = channels == 2;
    this.total = new float[n];
    this.difference = new float[stereo ? n : 0];
    this.product = new float[stereo ? n : 0];
    this.pitch = new PitchClasses(sampleRate, frames);
    int pairs = (channels + 1) / 2;
    int step = (int) Math.ceil(sampleRate / LOW_RATE);
    int end = 0;
    while (end < ThirdOctaves.COUNT && ThirdOctaves.within(end, sampleRate)) {
      end++;
    }
    high = new BandTier[pairs];
    middle = new BandTier[pairs];
    low = new BandTier[pairs];
    decimators = new Decimator[pairs];
    for (int p = 0; p < pairs; p++) {
      high[p] = new BandTier(sampleRate, 1, HIGH_LINE_HZ, FIRST_HIGH, end, this::add);
      high[p].tellPitches(pitch);
      middle[p] =
          new BandTier(
              sampleRate, step, MIDDLE_LINE_HZ, FIRST_MIDDLE, Math.min(end, FIRST_HIGH), this::add);
      low[p] = new BandTier(sampleRate, step, LOW_LINE_HZ, 0, FIRST_MIDDLE, this::add);
      decimators[p] = new Decimator(sampleRate, step);
    }
    lines = new FineSpectrum.Sum(high[0].lineHz(), high[0].size());
    for (BandTier tier : high) {
      tier.sumInto(lines);
    }
  }

  /** What the spectra of {@link #push} come to, line by line. */
  FineSpectrum spectrum() {
    return lines.finish();
  }

  /** Takes the next frames, planar. */
  void push(double[][] x, int offset, int count) {
    for (int p = 0; p < high.length; p++) {
      double[] left = x[2 * p];
      double[] right = 2 * p + 1 < channels ? x[2 * p + 1] : null;
      high[p].push(left, right, offset, count);
      decimators[p].push(left, right, offset, count, middle[p], low[p]);
    }
  }

  /** Ends the stream. */
  BandGrid finish() {
    int step = (int) Math.ceil(sampleRate / LOW_RATE);
    int rest = decimators[0].tail() + step * Math.max(middle[0].tail(), low[0].tail());
    rest = Math.max(rest, high[0].tail());
    double[] silence = new double[4096];
    double[][] planar = new double[channels][];
    java.util.Arrays.fill(planar, silence);
    for (; frames > 0 && rest > 0; rest -= silence.length) {
      push(planar, 0, silence.length);
    }
    return new BandGrid(sampleRate, channels, frames, total, difference, product, pitch.energy());
  }

  private void add(double from, double to, int band, double all, double diff, double cross) {
    double cell = sampleRate / (double) BandGrid.CELLS_PER_SECOND;
    int last = BandGrid.cells(sampleRate, frames) - 1;
    int a = (int) Math.max(0, Math.min(last, Math.floor(from / cell)));
    int b = (int) Math.max(a, Math.min(last, Math.floor(to / cell)));
    for (int i = a; i <= b; i++) {
      double begin = i == a ? from : i * cell;
      double end = i == b ? to : (i + 1) * cell;
      double share = (end - begin) / (to - from);
      int at = i * ThirdOctaves.COUNT + band;
      total[at] += (float) (share * all);
      if (difference.length > 0) {
        difference[at] += (float) (share * diff);
        product[at] += (float) (share * cross);
      }
    }
  }
}
