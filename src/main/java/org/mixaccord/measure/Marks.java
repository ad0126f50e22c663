package org.mixaccord.measure;

import java.util.List;
import java.util.OptionalInt;

/**
 * Single events and habits of the samples that the cells cannot tell.
 *
 * @param gaps sudden short silences or held values in a channel, the longest first
 * @param moreGaps how many more there were
 * @param clicks lonely corners of the waveform, the sharpest first
 * @param moreClicks how many more there were
 * @param flatTops flat peaks at a channel's own highest or lowest value
 * @param bits 16 or 24 when every sample fits that grid; 0 when none does or nobody looked
 * @param spectrum long-term spectrum of the loud parts
 */
record Marks(
    List<Gap> gaps,
    long moreGaps,
    List<Click> clicks,
    long moreClicks,
    List<FlatTop> flatTops,
    int bits,
    FineSpectrum spectrum) {
  Marks {
    gaps = List.copyOf(gaps);
    clicks = List.copyOf(clicks);
    flatTops = List.copyOf(flatTops);
  }

  OptionalInt gridBits() {
    return bits == 0 ? OptionalInt.empty() : OptionalInt.of(bits);
  }

  /**
   * The same value in one channel from {@code from} to {@code to}, with a jump at its edges.
   *
   * @param value what is held; 0 for silence
   */
  record Gap(int channel, long from, long to, double value) {
    long frames() {
      return to - from;
    }
  }

  /**
   * A corner that lasts less than a millisecond.
   *
   * @param height how far the waveform stands off the line between its neighbours, linear
   */
  record Click(int channel, long frame, double height) {}

  /**
   * Flat peaks at one channel's extreme value.
   *
   * @param positive whether at the highest value, else at the lowest
   * @param tolerance which of {@link FlatTopFinder#WIDTHS} counts as equal
   * @param level magnitude of the value, linear
   * @param stretches where they are, in order of time
   */
  record FlatTop(
      int channel, boolean positive, int tolerance, double level, List<Stretch> stretches) {
    FlatTop {
      stretches = List.copyOf(stretches);
    }

    int runs() {
      return stretches.stream().mapToInt(Stretch::runs).sum();
    }
  }

  /**
   * Flat peaks that follow each other closely, from the first one's start to the last one's end.
   */
  record Stretch(long from, long to, int runs) {}
}
