package org.mixaccord.measure;

import java.io.IOException;
import java.util.function.DoubleConsumer;
import org.mixaccord.audio.PcmSource;

/** The one pass over a clip that fills its measure track. */
final class TrackRecorder {
  /**
   * What is read at a time; no figure depends on it. Clicks are judged by chunks counted from each
   * block's start, so this is whole chunks at every rate that 25 divides.
   */
  static final int CELLS_PER_BLOCK = 64;

  private static final int LOWEST_RATE = 4000;
  private static final int HIGHEST_RATE = 768_000;
  private static final int CLIPPED_RUN = 3;

  private final PcmSource pcm;
  private final int cellsPerBlock;
  private final Grid grid;
  private final int channels;
  private final Cells cells;
  private final KFilter[] filters;
  private final PeakScanner scanner;
  private final OverCounter overs;
  private final MarkRecorder marks;
  private final BandAnalyser bands;
  private final int[] run;
  private final int[] runCell;

  private TrackRecorder(PcmSource pcm, int cellsPerBlock) {
    if (pcm.sampleRate() < LOWEST_RATE || pcm.sampleRate() > HIGHEST_RATE) {
      throw new IllegalArgumentException("sample rate " + pcm.sampleRate());
    }
    this.pcm = pcm;
    this.cellsPerBlock = cellsPerBlock;
    this.grid = new Grid(pcm.sampleRate(), pcm.frames());
    this.channels = pcm.channels();
    this.cells = new Cells(channels, grid.cells());
    KWeighting weighting = KWeighting.at(pcm.sampleRate());
    this.filters = new KFilter[channels];
    for (int c = 0; c < channels; c++) {
      filters[c] = new KFilter(weighting);
    }
    TruePeakKernel kernel = TruePeakKernel.at(pcm.sampleRate());
    this.scanner = new PeakScanner(kernel);
    this.overs = new OverCounter(kernel, pcm.sampleRate(), cells.interSampleOvers);
    this.marks = new MarkRecorder(pcm.sampleRate(), channels, pcm.frames(), pcm.integers());
    this.bands = new BandAnalyser(pcm.sampleRate(), channels, pcm.frames());
    this.run = new int[channels];
    this.runCell = new int[channels];
  }

  static MeasureTrack record(PcmSource pcm, int cellsPerBlock, DoubleConsumer progress)
      throws IOException {
    return new TrackRecorder(pcm, cellsPerBlock).record(progress);
  }

  private MeasureTrack record(DoubleConsumer progress) throws IOException {
    int n = grid.cells();
    int longest = 0;
    for (int k = 0; k < n; k += cellsPerBlock) {
      longest = Math.max(longest, (int) (grid.edge(Math.min(n, k + cellsPerBlock)) - grid.edge(k)));
    }
    Blocks block = new Blocks(pcm, longest);
    double first = 0;
    for (int k = 0; k < n; k += cellsPerBlock) {
      int end = Math.min(n, k + cellsPerBlock);
      long from = grid.edge(k);
      block.load(from, (int) (grid.edge(end) - from));
      for (int c = 0; c < channels; c++) {
        first = k == 0 ? Math.max(first, Math.abs(block.samples[c][Blocks.PAD])) : first;
      }
      marks.look(block);
      for (int cell = k; cell < end; cell++) {
        measure(block, cell);
      }
      bands.push(block.samples, Blocks.PAD, block.count);
      progress.accept(end / (double) n);
    }
    overs.finish();
    Edges edges = new Edges(first, block.nonFinite, block.firstNonFinite, block.lastNonFinite);
    BandGrid grids = bands.finish();
    return new MeasureTrack(grid, channels, cells, grids, edges, marks.finish(bands.spectrum()));
  }

  private void measure(Blocks block, int cell) {
    int a = (int) (grid.edge(cell) - block.from);
    int b = (int) (grid.edge(cell + 1) - block.from);
    double peak = -1;
    int peakChannel = 0;
    int peakFrame = a;
    filter(block, a, b, cell);
    for (int c = 0; c < channels; c++) {
      KFilter filter = filters[c];
      cells.weighted[c][cell] = filter.weighted;
      cells.energy[c][cell] = filter.energy;
      cells.sum[c][cell] = filter.sum;
      if (filter.peak > peak) {
        peak = filter.peak;
        peakChannel = c;
        peakFrame = filter.peakAt - Blocks.PAD;
      }
      if (filter.peak >= MeasureTrack.FULL_SCALE || run[c] > 0) {
        countClippedRuns(block.samples[c], c, a, b, cell);
      }
    }
    cells.samplePeak[cell] = peak;
    cells.samplePeakAt[cell] = peakFrame - a;
    scanner.scan(block, a, b, peak, peakChannel, peakFrame);
    cells.truePeak[cell] = scanner.peak();
    cells.truePeakAt[cell] = (float) (scanner.at() - a);
    if (scanner.peak() > 1) {
      overs.look(block, a, b, cell, scanner.highestPoint());
    }
  }

  private void filter(Blocks block, int a, int b, int cell) {
    int from = Blocks.PAD + a;
    int to = Blocks.PAD + b;
    if (channels == 2) {
      cells.product[cell] =
          KFilter.runPair(filters[0], filters[1], block.samples[0], block.samples[1], from, to);
      return;
    }
    for (int c = 0; c < channels; c++) {
      filters[c].run(block.samples[c], from, to);
    }
  }

  private void countClippedRuns(double[] x, int channel, int a, int b, int cell) {
    for (int i = Blocks.PAD + a; i < Blocks.PAD + b; i++) {
      if (Math.abs(x[i]) >= MeasureTrack.FULL_SCALE) {
        if (run[channel]++ == 0) {
          runCell[channel] = cell;
        }
        if (run[channel] == CLIPPED_RUN) {
          cells.clippedRuns[channel][runCell[channel]]++;
        }
      } else {
        run[channel] = 0;
      }
    }
  }
}
