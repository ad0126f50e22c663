package org.mixaccord.demo.music;

import org.mixaccord.demo.music.DrumKit.Stroke;
import org.mixaccord.demo.music.Form.Passage;

/** Drums and bass of the first song. */
final class FirstRhythm {
  private final Form form;

  FirstRhythm(Form form) {
    this.form = form;
  }

  Track drums() {
    Track track =
        new Track(
            Filter.bell(380, 0.8, -2.5),
            new Warmth(4),
            Filter.highPass(26, 0.7),
            new Reverb(0.6, 0.55, 0.35, 0.004, -17));
    Drummer drummer = new Drummer(form, new DrumKit(11), track, new Dice(12));
    for (Passage passage : form.passages()) {
      for (int i = 0; i < passage.bars(); i++) {
        boolean last = i == passage.bars() - 1;
        drumBar(drummer, passage, passage.firstBar() + i, i, last);
      }
    }
    return track;
  }

  private static void drumBar(Drummer drummer, Passage passage, int bar, int i, boolean last) {
    switch (passage.kind()) {
      case "intro" -> {
        if (i >= 2) {
          drummer.bar(bar, Stroke.SHAKER, "5.3.6.3.5.3.6.4.", 0.8);
        }
        if (last) {
          drummer.bar(bar, Stroke.RIM, "............5.35", 0.8);
          drummer.bar(bar, Stroke.KICK, "..........4.....", 0.9);
        }
      }
      case "verse" -> verse(drummer, passage.number(), bar, i, last);
      case "pre" -> pre(drummer, bar, i, last);
      case "chorus" -> chorus(drummer, passage.number(), bar, i, last);
      case "bridge" -> bridge(drummer, bar, i, last);
      default -> outro(drummer, bar, i, last);
    }
  }

  private static void verse(Drummer drummer, int number, int bar, int i, boolean last) {
    drummer.bar(bar, Stroke.KICK, i % 2 == 0 ? "8......5..7....." : "8.....4...7..4..", 0.92);
    if (last) {
      drummer.bar(bar, Stroke.RIM, "....7.......6.45", 0.95);
      drummer.bar(bar, Stroke.HAT, "6.3.5.3.6.3.....", 0.8);
      drummer.bar(bar, Stroke.MID_TOM, "..............5.", 0.7);
      return;
    }
    drummer.bar(bar, Stroke.RIM, i % 4 == 3 ? "....7..3....7..." : "....7.......7...", 0.95);
    drummer.bar(bar, Stroke.HAT, i % 2 == 0 ? "6.4.5.4.6.4.5.43" : "6.4.5.4.6.435.4.", 0.78);
    if (number > 1) {
      drummer.bar(bar, Stroke.SHAKER, "3252325232523252", 0.75);
    }
  }

  private static void pre(Drummer drummer, int bar, int i, boolean last) {
    drummer.bar(bar, Stroke.KICK, last ? "8...8...8......." : "8.....5.8.......", 0.92);
    drummer.bar(bar, Stroke.SHAKER, "4352435243524353", 0.8);
    if (last) {
      drummer.bar(bar, Stroke.SNARE, "....4...33455678", 0.85);
      drummer.bar(bar, Stroke.HIGH_TOM, "..........5.....", 0.8);
      drummer.bar(bar, Stroke.LOW_TOM, "..............67", 0.8);
    } else {
      drummer.bar(bar, Stroke.SNARE, "....6.......6...", 0.8 + 0.05 * i);
      drummer.bar(bar, Stroke.HAT, "5.4.5.4.5.4.5.5.", 0.85);
    }
  }

  private static void chorus(Drummer drummer, int number, int bar, int i, boolean last) {
    double lift = 0.87 + 0.06 * number;
    if (i == 0 || number == 3 && i == 4) {
      drummer.stroke(bar, 0, Stroke.CRASH, 0.85 * lift);
    }
    drummer.bar(
        bar, Stroke.KICK, i % 2 == 0 ? "9..5..7.8.....5." : "9..5....8.6...5.", 0.95 * lift);
    if (last) {
      drummer.bar(bar, Stroke.SNARE, "....8..4..56....", 0.95 * lift);
      drummer.bar(bar, Stroke.HIGH_TOM, "............76..", 0.9);
      drummer.bar(bar, Stroke.LOW_TOM, "..............78", 0.9);
      drummer.bar(bar, Stroke.HAT, "6.5.6.5.........", 0.9);
      return;
    }
    drummer.bar(
        bar, Stroke.SNARE, i % 4 == 3 ? "....8..2....8.34" : "....8....2..8..2", 0.95 * lift);
    if (number == 3) {
      drummer.bar(bar, Stroke.RIDE, "7.5.6.5.7.5.6.5.", 0.85);
      drummer.bar(bar, Stroke.SHAKER, "4252425242524252", 0.85);
    } else {
      drummer.bar(bar, Stroke.HAT, "7.5.6.5.7.5.6...", 0.9);
      drummer.bar(bar, Stroke.OPEN_HAT, "..............6.", 0.8);
    }
  }

  private static void bridge(Drummer drummer, int bar, int i, boolean last) {
    if (i == 0) {
      drummer.stroke(bar, 0, Stroke.CRASH, 0.6);
    }
    if (i < 4) {
      drummer.bar(bar, Stroke.KICK, "7...............", 0.8);
      drummer.bar(bar, Stroke.SHAKER, "3.2.4.2.3.2.4.2.", 0.8);
      return;
    }
    drummer.bar(bar, Stroke.KICK, "7.........5.....", 0.85);
    drummer.bar(bar, Stroke.SHAKER, "4252425242524252", 0.85);
    drummer.bar(bar, Stroke.MID_TOM, "....4.......4...", 0.7 + 0.06 * (i - 4));
    if (i >= 6) {
      drummer.bar(bar, Stroke.SNARE, last ? "3.3.4.4.55667788" : "........2.2.2.3.", 0.85);
    }
  }

  private static void outro(Drummer drummer, int bar, int i, boolean last) {
    if (last) {
      drummer.stroke(bar, 0, Stroke.KICK, 0.6);
      drummer.stroke(bar, 0, Stroke.RIDE, 0.45);
      return;
    }
    drummer.bar(bar, Stroke.KICK, "7......4..6.....", 0.88 - 0.08 * i);
    drummer.bar(bar, Stroke.RIM, "....6.......6...", 0.9 - 0.1 * i);
    drummer.bar(bar, Stroke.SHAKER, "4.3.4.3.4.3.4.3.", 0.85 - 0.1 * i);
  }

  Track bass() {
    Track track =
        new Track(
            new Warmth(3),
            Filter.highPass(34, 0.7),
            Filter.bell(220, 0.9, -2),
            Filter.bell(900, 0.8, 4));
    Dice dice = new Dice(21);
    for (Passage passage : form.passages()) {
      for (int i = 0; i < passage.bars(); i++) {
        int bar = passage.firstBar() + i;
        Chord chord = passage.chords()[i];
        Chord next =
            i + 1 < passage.bars() ? passage.chords()[i + 1] : firstChordAfter(passage, chord);
        int root = chord.bassFrom(28);
        int ahead = next.bassFrom(28);
        int towards = ahead > root ? ahead - 2 : ahead < root ? ahead + 2 : root;
        bassBar(track, passage.kind(), bar, i, new int[] {root, towards}, dice);
      }
    }
    return track;
  }

  private Chord firstChordAfter(Passage passage, Chord otherwise) {
    for (Passage other : form.passages()) {
      if (other.firstBar() == passage.firstBar() + passage.bars()) {
        return other.chords()[0];
      }
    }
    return otherwise;
  }

  private void bassBar(Track track, String kind, int bar, int i, int[] keys, Dice dice) {
    int root = keys[0];
    switch (kind) {
      case "intro" -> {
        if (i >= 2) {
          note(track, bar, 0, 15, root, 0.6, dice);
        }
      }
      case "verse" -> {
        note(track, bar, 0, 5.5, root, 0.78, dice);
        note(track, bar, 7, 1.4, root, 0.55, dice);
        note(track, bar, 10, 3.6, root, 0.7, dice);
        note(track, bar, 14, 1.6, i % 2 == 0 ? root + 12 : keys[1], 0.5, dice);
      }
      case "pre" -> {
        for (int step = 0; step < 16; step += 2) {
          note(track, bar, step, 1.7, root, 0.55 + 0.04 * i + (step % 8 == 0 ? 0.12 : 0), dice);
        }
      }
      case "chorus" -> {
        note(track, bar, 0, 2.8, root, 0.86, dice);
        note(track, bar, 3, 2.6, root, 0.7, dice);
        note(track, bar, 6, 1.6, root + 12, 0.62, dice);
        note(track, bar, 8, 3.6, root, 0.82, dice);
        note(track, bar, 12, 1.6, root + 7, 0.66, dice);
        note(track, bar, 14, 1.7, keys[1], 0.7, dice);
      }
      case "bridge" -> {
        if (i < 4) {
          note(track, bar, 0, 15.5, root, 0.68, dice);
        } else {
          note(track, bar, 0, 9.5, root, 0.74, dice);
          note(track, bar, 10, 5.5, i == 7 ? root + 12 : root, 0.66, dice);
        }
      }
      default -> {
        note(track, bar, 0, i == 3 ? 22 : 9.5, root, 0.66 - 0.04 * i, dice);
        if (i < 3) {
          note(track, bar, 10, 5.5, root, 0.55 - 0.04 * i, dice);
        }
      }
    }
  }

  private void note(
      Track track, int bar, double step, double length, int key, double strength, Dice dice) {
    double real = strength * (1 + 0.03 * dice.sway());
    long frame = form.frame(bar, step) + Math.round(0.002 * (1 + dice.sway()) * Waves.RATE);
    double seconds = form.seconds(length);
    track.play(frame, () -> new Bass(key, seconds, real, 900));
  }
}
