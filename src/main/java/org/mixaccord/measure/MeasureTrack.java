package org.mixaccord.measure;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.function.DoubleConsumer;
import org.mixaccord.audio.FrameRange;
import org.mixaccord.audio.PcmSource;

/**
 * Everything measured of one clip in one pass, on a grid of 10 ms cells (third octaves: 100 ms).
 * Figures of the whole and of any section are worked out from it in milliseconds, without the
 * audio.
 *
 * <p>Section boundaries are rounded to the nearest cell edge, by at most 5 ms; {@link #onGrid}
 * tells where they come to lie. Two sections that meet keep meeting. About 100 bytes a cell: 2.5 MB
 * for four minutes of stereo. Never changes once made; safe for many threads.
 */
public final class MeasureTrack {
  /** Version of the maths and of the stored form; a track of another version is measured again. */
  public static final int VERSION = 5;

  /**
   * A sample counts as full scale from here: the highest 16-bit value. A finer file that comes this
   * close is full scale as soon as it is delivered at 16 bit.
   */
  public static final double FULL_SCALE = 32767.0 / 32768.0;

  private static final double OUTLINE_FLOOR_LUFS = -70;

  private final Grid grid;
  private final int channels;
  private final Cells cells;
  private final BandGrid bandGrid;
  private final Edges edges;
  private final Marks marks;
  private final double[] power;
  private final double[] momentary;
  private final double[] shortTerm;
  private final OptionalDouble gate;

  MeasureTrack(Grid grid, int channels, Cells cells, BandGrid bandGrid, Edges edges, Marks marks) {
    this.grid = grid;
    this.channels = channels;
    this.cells = cells;
    this.bandGrid = bandGrid;
    this.edges = edges;
    this.marks = marks;
    double[] weights = ChannelWeights.of(channels);
    power = new double[cells.count()];
    for (int c = 0; c < channels; c++) {
      for (int k = 0; k < power.length; k++) {
        power[k] += weights[c] * cells.weighted[c][k];
      }
    }
    momentary = windows(Grid.BLOCK);
    shortTerm = windows(Grid.SHORT_TERM);
    gate = Loudness.gate(blocks(0, power.length));
  }

  /**
   * Measures a clip from its first frame to its last. Reads it in blocks of 0.64 s; memory beside
   * the track does not grow with the clip. NaN and infinite samples count as silence, see {@link
   * #nonFinite()}.
   *
   * @param pcm the clip, 4 to 768 kHz
   * @param progress told the share done, 0 to 1, after each block
   * @throws IllegalArgumentException for a sample rate outside that range
   * @throws IOException if the clip cannot be read
   */
  public static MeasureTrack measure(PcmSource pcm, DoubleConsumer progress) throws IOException {
    return TrackRecorder.record(pcm, TrackRecorder.CELLS_PER_BLOCK, progress);
  }

  /**
   * Reads a stored track.
   *
   * @throws IOException if the bytes are no track, are cut off, or are of another {@link #VERSION}
   */
  public static MeasureTrack read(InputStream in) throws IOException {
    return TrackFormat.read(in);
  }

  /** Stores the track; the stream is flushed and left open. */
  public void write(OutputStream out) throws IOException {
    TrackFormat.write(this, out);
  }

  /** Frames per second of the clip. */
  public int sampleRate() {
    return grid.sampleRate();
  }

  /** Channels of the clip. */
  public int channels() {
    return channels;
  }

  /** Length of the clip in frames. */
  public long frames() {
    return grid.frames();
  }

  /** Length of the clip in seconds. */
  public double seconds() {
    return grid.frames() / (double) grid.sampleRate();
  }

  /** Samples of the clip that are no numbers. */
  public NonFinite nonFinite() {
    boolean any = edges.nonFinite() > 0;
    double rate = grid.sampleRate();
    return new NonFinite(
        edges.nonFinite(),
        any ? OptionalDouble.of(edges.firstNonFinite() / rate) : OptionalDouble.empty(),
        any ? OptionalDouble.of(edges.lastNonFinite() / rate) : OptionalDouble.empty());
  }

  /** Figures of the whole clip. */
  public Measurements whole() {
    return new SectionFigures(this, 0, cells.count()).work();
  }

  /**
   * Figures of a section, on the nearest cell edges. The filters have run from the clip's start, so
   * a section is not disturbed by its own beginning.
   *
   * @param range may reach past the clip's end, where there is nothing
   */
  public Measurements section(FrameRange range) {
    int[] k = grid.cellsOf(range);
    return new SectionFigures(this, k[0], k[1]).work();
  }

  /** The range a section is really measured over: nearest cell edges, inside the clip. */
  public FrameRange onGrid(FrameRange range) {
    int[] k = grid.cellsOf(range);
    return new FrameRange(grid.edge(k[0]), grid.edge(k[1]));
  }

  /**
   * Ungated loudness of a section in LUFS: every sample counts the same, so it does not jump when a
   * gate lets a block in or out. Empty under 0.4 s and for digital silence.
   */
  public OptionalDouble ungatedLufs(FrameRange range) {
    int[] k = grid.cellsOf(range);
    return ungated(k[0], k[1]);
  }

  /**
   * Loudness over time for drawing: one value for each of {@code points} equal stretches of the
   * clip, taken over the stretch or over 400 ms round its middle where the stretch is shorter.
   *
   * @param points number of values, 1 or more
   * @return LUFS, at least −70, never NaN
   */
  public double[] outline(int points) {
    if (points < 1) {
      throw new IllegalArgumentException("points: " + points);
    }
    double[] out = new double[points];
    double width = Math.max(Grid.BLOCK, cells.count() / (double) points);
    for (int p = 0; p < points; p++) {
      double middle = (p + 0.5) * cells.count() / points;
      int a = (int) Math.max(0, Math.round(middle - width / 2));
      int b = (int) Math.min(cells.count(), Math.round(middle + width / 2));
      OptionalDouble lufs = b > a ? Loudness.lufs(meanPower(a, b)) : OptionalDouble.empty();
      out[p] = Math.max(OUTLINE_FLOOR_LUFS, lufs.orElse(OUTLINE_FLOOR_LUFS));
    }
    return out;
  }

  /**
   * Which of several sections is the loudest by {@link #ungatedLufs}; the first of equals. Empty
   * when none has a loudness.
   */
  public OptionalInt loudest(List<FrameRange> sections) {
    int best = -1;
    double most = Double.NEGATIVE_INFINITY;
    for (int i = 0; i < sections.size(); i++) {
      OptionalDouble lufs = ungatedLufs(sections.get(i));
      if (lufs.isPresent() && lufs.getAsDouble() > most) {
        most = lufs.getAsDouble();
        best = i;
      }
    }
    return best < 0 ? OptionalInt.empty() : OptionalInt.of(best);
  }

  /** The loudest 3 s of the clip; empty under 3 s and for digital silence. */
  public Optional<FrameRange> loudestThreeSeconds() {
    int k = loudestWindow(shortTerm, 0, cells.count(), Grid.SHORT_TERM);
    return k < 0 || !(shortTerm[k] > 0)
        ? Optional.empty()
        : Optional.of(new FrameRange(grid.edge(k), grid.edge(k + Grid.SHORT_TERM)));
  }

  Grid grid() {
    return grid;
  }

  Cells cells() {
    return cells;
  }

  BandGrid bandGrid() {
    return bandGrid;
  }

  Edges edges() {
    return edges;
  }

  Marks marks() {
    return marks;
  }

  /** Weighted power of the 400 ms window that starts at each cell. */
  double[] momentary() {
    return momentary;
  }

  /** Weighted power of the 3 s window that starts at each cell. */
  double[] shortTerm() {
    return shortTerm;
  }

  /** Powers of the gating blocks wholly inside, the first at the section's start. */
  double[] blocks(int a, int b) {
    return every(momentary, a, b, Grid.BLOCK);
  }

  /** Every 100 ms one of the windows wholly inside. */
  double[] every(double[] windows, int a, int b, int width) {
    int last = Math.min(b - width, windows.length - 1);
    double[] out = new double[last < a ? 0 : (last - a) / Grid.HOP + 1];
    for (int i = 0; i < out.length; i++) {
      out[i] = windows[a + i * Grid.HOP];
    }
    return out;
  }

  /** Start of the loudest window wholly inside, the first of equals; −1 if there is none. */
  int loudestWindow(double[] windows, int a, int b, int width) {
    int best = -1;
    for (int k = a; k <= Math.min(b - width, windows.length - 1); k++) {
      if (best < 0 || windows[k] > windows[best]) {
        best = k;
      }
    }
    return best;
  }

  OptionalDouble ungated(int a, int b) {
    return b - a < Grid.BLOCK || silent(a, b)
        ? OptionalDouble.empty()
        : Loudness.lufs(meanPower(a, b));
  }

  /** Gated by the whole clip, blocks of the whole clip whose centre lies inside. */
  OptionalDouble share(int a, int b) {
    if (gate.isEmpty()) {
      return OptionalDouble.empty();
    }
    double sum = 0;
    int n = 0;
    for (int k = 0; k < momentary.length; k += Grid.HOP) {
      int centre = k + Grid.BLOCK / 2;
      if (centre >= a && centre < b && momentary[k] > gate.getAsDouble()) {
        sum += momentary[k];
        n++;
      }
    }
    return n == 0 ? OptionalDouble.empty() : Loudness.lufs(sum / n);
  }

  boolean silent(int a, int b) {
    for (int k = a; k < b; k++) {
      if (cells.samplePeak[k] > 0) {
        return false;
      }
    }
    return true;
  }

  private double meanPower(int a, int b) {
    double sum = 0;
    for (int k = a; k < b; k++) {
      sum += power[k];
    }
    return sum / (grid.edge(b) - grid.edge(a));
  }

  private double[] windows(int width) {
    double[] sums = Loudness.windowSums(power, grid.fullCells(), width);
    for (int k = 0; k < sums.length; k++) {
      sums[k] /= grid.edge(k + width) - grid.edge(k);
    }
    return sums;
  }
}
