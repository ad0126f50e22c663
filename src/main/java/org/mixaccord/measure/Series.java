package org.mixaccord.measure;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import org.mixaccord.audio.FrameRange;

/**
 * Loudness, peaks and correlation over time, in steps of equal length, for drawing and for
 * spreadsheets. Every list has one value a step; what does not exist there is empty.
 *
 * <p>A loudness window belongs to the step that holds its <b>centre</b>, so a curve lies over the
 * music it was measured on; a meter that runs along shows the same value half a window later. Each
 * step has the highest of its windows, so the highest of a whole series is the clip's own maximum.
 * Windows lie wholly inside the clip: the first and last 1.5 s have no short-term value.
 *
 * @param fromSeconds start of the first step
 * @param toSeconds end of the last step, which may be shorter than the others
 * @param stepSeconds length of a step, a whole number of 10 ms
 * @param momentaryLufs loudest 0.4 s window centred in the step
 * @param shortTermLufs loudest 3 s window centred in the step
 * @param truePeakDbtp highest value of the interpolated signal in the step
 * @param samplePeakDbfs highest |sample| in the step, dB re full scale 1.0
 * @param correlation left against right over the step, or over 0.4 s round its middle where the
 *     step is shorter; empty for other than two channels
 */
public record Series(
    double fromSeconds,
    double toSeconds,
    double stepSeconds,
    List<OptionalDouble> momentaryLufs,
    List<OptionalDouble> shortTermLufs,
    List<OptionalDouble> truePeakDbtp,
    List<OptionalDouble> samplePeakDbfs,
    List<OptionalDouble> correlation) {
  public Series {
    momentaryLufs = List.copyOf(momentaryLufs);
    shortTermLufs = List.copyOf(shortTermLufs);
    truePeakDbtp = List.copyOf(truePeakDbtp);
    samplePeakDbfs = List.copyOf(samplePeakDbfs);
    correlation = List.copyOf(correlation);
  }

  /**
   * The series of a stretch, on the nearest cell edges. Linear in the stretch's length.
   *
   * @param range may reach past the clip's end, where there is nothing
   * @param points how many steps at most, 1 or more; there are fewer where one would be shorter
   *     than 10 ms, or where longer ones of whole 10 ms need fewer
   */
  public static Series of(MeasureTrack track, FrameRange range, int points) {
    if (points < 1) {
      throw new IllegalArgumentException("points: " + points);
    }
    int[] ends = track.grid().cellsOf(range);
    int cells = ends[1] - ends[0];
    int step = Math.max(1, (cells + points - 1) / points);
    List<OptionalDouble> momentary = new ArrayList<>();
    List<OptionalDouble> shortTerm = new ArrayList<>();
    List<OptionalDouble> truePeak = new ArrayList<>();
    List<OptionalDouble> samplePeak = new ArrayList<>();
    List<OptionalDouble> correlation = new ArrayList<>();
    for (int a = ends[0]; a < ends[1]; a += step) {
      int b = Math.min(a + step, ends[1]);
      momentary.add(loudest(track, track.momentary(), a, b, Grid.BLOCK));
      shortTerm.add(loudest(track, track.shortTerm(), a, b, Grid.SHORT_TERM));
      truePeak.add(highest(track.cells().truePeak, a, b));
      samplePeak.add(highest(track.cells().samplePeak, a, b));
      correlation.add(correlation(track, a, b));
    }
    return new Series(
        track.grid().seconds(ends[0]),
        track.grid().seconds(ends[1]),
        step / (double) Grid.CELLS_PER_SECOND,
        momentary,
        shortTerm,
        truePeak,
        samplePeak,
        correlation);
  }

  /** Number of steps. */
  public int steps() {
    return momentaryLufs.size();
  }

  /** The middle of a step in seconds. */
  public double middleSeconds(int step) {
    double start = fromSeconds + step * stepSeconds;
    return (start + Math.min(toSeconds, start + stepSeconds)) / 2;
  }

  private static OptionalDouble loudest(
      MeasureTrack track, double[] windows, int a, int b, int width) {
    int best = -1;
    int first = Math.max(0, a - width / 2);
    for (int k = first; k < Math.min(b - width / 2, windows.length); k++) {
      if (best < 0 || windows[k] > windows[best]) {
        best = k;
      }
    }
    // The filters ring on into digital silence, which nevertheless has no loudness.
    return best < 0 || track.silent(best, best + width)
        ? OptionalDouble.empty()
        : Loudness.lufs(windows[best]);
  }

  private static OptionalDouble highest(double[] peaks, int a, int b) {
    double most = 0;
    for (int k = a; k < b; k++) {
      most = Math.max(most, peaks[k]);
    }
    return SectionFigures.db(most);
  }

  private static OptionalDouble correlation(MeasureTrack track, int a, int b) {
    if (track.channels() != 2) {
      return OptionalDouble.empty();
    }
    Cells cells = track.cells();
    int missing = Math.max(0, Grid.BLOCK - (b - a));
    int from = Math.max(0, a - missing / 2);
    int to = Math.min(cells.count(), b + (missing + 1) / 2);
    double left = 0;
    double right = 0;
    double product = 0;
    for (int k = from; k < to; k++) {
      left += cells.energy[0][k];
      right += cells.energy[1][k];
      product += cells.product[k];
    }
    return Stereo.correlation(left, right, product);
  }
}
