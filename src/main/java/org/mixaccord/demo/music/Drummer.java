package org.mixaccord.demo.music;

import java.util.EnumMap;
import java.util.Map;
import org.mixaccord.demo.music.DrumKit.Stroke;

/**
 * Plays drum patterns with a human hand: a line of sixteen letters a bar, '1' … '9' for strength.
 */
final class Drummer {
  private static final double SWAY_SECONDS = 0.0022;
  private final Form form;
  private final DrumKit kit;
  private final Track track;
  private final Dice dice;
  private final Map<Stroke, Integer> turns = new EnumMap<>(Stroke.class);

  Drummer(Form form, DrumKit kit, Track track, Dice dice) {
    this.form = form;
    this.kit = kit;
    this.track = track;
    this.dice = dice;
  }

  /** One bar, or a shorter line from its start; {@code more} scales the strength. */
  void bar(int bar, Stroke stroke, String line, double more) {
    for (int step = 0; step < line.length(); step++) {
      char mark = line.charAt(step);
      if (mark >= '1' && mark <= '9') {
        stroke(bar, step, stroke, more * (mark - '0') / 9.0);
      }
    }
  }

  /** A single stroke. */
  void stroke(int bar, double step, Stroke stroke, double strength) {
    double real = Math.min(1.1, strength * (1 + 0.05 * dice.sway()));
    int turn = turns.merge(stroke, 1, Integer::sum);
    // The kick holds the grid; hands sway more than the foot.
    double sway = (stroke == Stroke.KICK ? 0.4 : 1) * SWAY_SECONDS * dice.sway();
    long frame = form.frame(bar, step) + Math.round(sway * Waves.RATE);
    track.play(frame, () -> kit.hit(stroke, real, turn));
  }
}
