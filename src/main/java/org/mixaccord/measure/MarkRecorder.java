package org.mixaccord.measure;

/** Looks for single events in the blocks of a clip as they come by. */
final class MarkRecorder {
  private final int channels;
  private final GapFinder gaps;
  private final ClickFinder clicks;
  private final FlatTopFinder flats;
  private final BitGrid grid;

  MarkRecorder(int sampleRate, int channels, long frames, boolean integers) {
    this.channels = channels;
    this.gaps = new GapFinder(sampleRate, channels);
    this.clicks = new ClickFinder(sampleRate, channels, frames);
    this.flats = new FlatTopFinder(sampleRate, channels);
    this.grid = new BitGrid(integers);
  }

  void look(Blocks block) {
    for (int c = 0; c < channels; c++) {
      gaps.look(block, c);
      clicks.look(block, c);
      flats.look(block, c);
      grid.look(block.samples[c], Blocks.PAD, block.count);
    }
  }

  /** Call once, at the end. */
  Marks finish(FineSpectrum spectrum) {
    Worst<Marks.Gap> gap = gaps.finish();
    Worst<Marks.Click> click = clicks.finish();
    return new Marks(
        gap.list(), gap.left(), click.list(), click.left(), flats.found(), grid.bits(), spectrum);
  }
}
