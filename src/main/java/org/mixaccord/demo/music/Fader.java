package org.mixaccord.demo.music;

import java.util.List;

/**
 * The level of one part in one mix along the song: the balance, the mix's moves, the fade-out at
 * the very end. Each change is a ramp of 30 ms inside the section that is moved more, so that a
 * section without a move stays untouched to the last frame.
 */
final class Fader {
  private static final int RAMP = 1440;
  private final long[] from;
  private final double[] level;
  private final boolean[] rampInBefore;
  private final long fadeFrom;
  private final long end;
  private int at;

  /**
   * A fader.
   *
   * @param balanceDb the part's level in the song
   * @param sections in order, without gaps
   * @param fadeFrames length of the fade-out at the end of the last section
   */
  Fader(String part, double balanceDb, MixPlan plan, List<DemoSection> sections, int fadeFrames) {
    int count = sections.size();
    from = new long[count];
    level = new double[count];
    rampInBefore = new boolean[count];
    double[] moved = new double[count];
    for (int i = 0; i < count; i++) {
      DemoSection section = sections.get(i);
      double db = plan.moveDb(part, section.name());
      from[i] = section.fromFrame();
      level[i] = db == MixPlan.OUT ? 0 : Waves.gain(balanceDb + db);
      moved[i] = Math.abs(db);
      rampInBefore[i] = i > 0 && moved[i - 1] > moved[i];
    }
    end = sections.get(count - 1).toFrame();
    fadeFrom = end - fadeFrames;
  }

  /** The gain at a frame; frames are asked for in rising order. */
  double gain(long frame) {
    while (at + 1 < from.length && frame >= from[at + 1]) {
      at++;
    }
    double gain = level[at];
    if (at + 1 < from.length && rampInBefore[at + 1]) {
      long left = from[at + 1] - frame;
      if (left < RAMP) {
        gain = level[at + 1] + (gain - level[at + 1]) * left / RAMP;
      }
    }
    if (at > 0 && !rampInBefore[at]) {
      long into = frame - from[at];
      if (into < RAMP) {
        gain = level[at - 1] + (gain - level[at - 1]) * into / RAMP;
      }
    }
    if (frame >= fadeFrom) {
      gain *= (end - frame) / (double) (end - fadeFrom);
    }
    return gain;
  }

  /** Whether the gain is one and the same for {@code count} frames from {@code frame} on. */
  boolean steady(long frame, int count) {
    gain(frame);
    long last = frame + count;
    boolean nearNext = at + 1 < from.length && last > from[at + 1] - RAMP;
    boolean nearStart = at > 0 && frame < from[at] + RAMP;
    return !nearNext && !nearStart && last <= fadeFrom;
  }
}
