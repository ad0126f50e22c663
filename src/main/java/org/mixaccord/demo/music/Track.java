package org.mixaccord.demo.music;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.function.Supplier;

/** One part being played: its notes in time order, then the effects it runs through. */
final class Track {
  private record Cue(long frame, Supplier<Voice> voice) {}

  private static final double UNHEARD = 1e-9;
  private static final int QUIET_BLOCKS = 200;
  private final List<Cue> cues = new ArrayList<>();
  private final List<Effect> effects;
  private final List<Voice> sounding = new ArrayList<>();
  private int nextCue;
  private boolean sorted;
  private int quietBlocks = QUIET_BLOCKS;

  Track(Effect... effects) {
    this.effects = List.of(effects);
  }

  /** Lets a note begin at a frame of the song; the voice is made only when it is reached. */
  void play(long frame, Supplier<Voice> voice) {
    cues.add(new Cue(Math.max(0, frame), voice));
    sorted = false;
  }

  /** Plays the next block, which begins at {@code frame}, into cleared arrays. */
  void render(long frame, double[] left, double[] right, int count) {
    if (!sorted) {
      cues.sort(Comparator.comparingLong(Cue::frame));
      sorted = true;
    }
    sounding.removeIf(voice -> !voice.add(left, right, 0, count));
    while (nextCue < cues.size() && cues.get(nextCue).frame() < frame + count) {
      Cue cue = cues.get(nextCue++);
      Voice voice = cue.voice().get();
      if (voice.add(left, right, (int) (cue.frame() - frame), count)) {
        sounding.add(voice);
      }
      quietBlocks = 0;
    }
    if (!sounding.isEmpty()) {
      quietBlocks = 0;
    }
    if (quietBlocks >= QUIET_BLOCKS) {
      return;
    }
    for (Effect effect : effects) {
      effect.process(left, right, count);
    }
    // A part whose rooms and echoes have died away rests until its next note.
    quietBlocks = loudest(left, right, count) < UNHEARD ? quietBlocks + 1 : 0;
  }

  private static double loudest(double[] left, double[] right, int count) {
    double most = 0;
    for (int i = 0; i < count; i++) {
      most = Math.max(most, Math.max(Math.abs(left[i]), Math.abs(right[i])));
    }
    return most;
  }
}
