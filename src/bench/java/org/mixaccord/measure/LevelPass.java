package org.mixaccord.measure;

import java.io.IOException;
import org.mixaccord.audio.PcmSource;

/** Loudness and true peak alone, by the same filters and scanner as the whole measuring uses. */
record LevelPass(double lufs, double rangeLu, double truePeakDbtp) {
  private static final int CELLS_PER_BLOCK = 64;

  static LevelPass over(PcmSource pcm) throws IOException {
    Grid grid = new Grid(pcm.sampleRate(), pcm.frames());
    int n = grid.cells();
    int longest = CELLS_PER_BLOCK * (pcm.sampleRate() / Grid.CELLS_PER_SECOND + 1);
    Blocks block = new Blocks(pcm, longest);
    KWeighting weighting = KWeighting.at(pcm.sampleRate());
    KFilter left = new KFilter(weighting);
    KFilter right = new KFilter(weighting);
    PeakScanner scanner = new PeakScanner(TruePeakKernel.at(pcm.sampleRate()));
    double[] power = new double[n];
    double peak = 0;
    for (int k = 0; k < n; k += CELLS_PER_BLOCK) {
      int end = Math.min(n, k + CELLS_PER_BLOCK);
      block.load(grid.edge(k), (int) (grid.edge(end) - grid.edge(k)));
      for (int cell = k; cell < end; cell++) {
        int a = (int) (grid.edge(cell) - block.from);
        int b = (int) (grid.edge(cell + 1) - block.from);
        double[][] x = block.samples;
        KFilter.runPair(left, right, x[0], x[1], Blocks.PAD + a, Blocks.PAD + b);
        power[cell] = left.weighted + right.weighted;
        KFilter louder = left.peak >= right.peak ? left : right;
        int channel = louder == left ? 0 : 1;
        scanner.scan(block, a, b, louder.peak, channel, louder.peakAt - Blocks.PAD);
        peak = Math.max(peak, scanner.peak());
      }
    }
    double[] momentary = means(grid, power, Grid.BLOCK);
    double[] shortTerm = means(grid, power, Grid.SHORT_TERM);
    return new LevelPass(
        Loudness.lufs(Loudness.gated(everyHop(momentary)).orElseThrow()).orElseThrow(),
        Loudness.range(everyHop(shortTerm)).orElseThrow(),
        20 * Math.log10(peak));
  }

  private static double[] means(Grid grid, double[] power, int width) {
    double[] sums = Loudness.windowSums(power, grid.fullCells(), width);
    for (int k = 0; k < sums.length; k++) {
      sums[k] /= grid.edge(k + width) - grid.edge(k);
    }
    return sums;
  }

  private static double[] everyHop(double[] windows) {
    double[] out = new double[(windows.length + Grid.HOP - 1) / Grid.HOP];
    for (int i = 0; i < out.length; i++) {
      out[i] = windows[i * Grid.HOP];
    }
    return out;
  }
}
