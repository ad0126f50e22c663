package org.mixaccord.demo.music;

import org.mixaccord.demo.music.Form.Passage;

/** Keys, guitars, backing vocals and strings of the first song. */
final class FirstHarmony {
  private static final int[] START = {57, 62, 66, 69};
  private static final int[] UP_AND_DOWN = {0, 2, 1, 3, 2, 1, 3, 2};
  private final Form form;

  FirstHarmony(Form form) {
    this.form = form;
  }

  /** A bar to be played: its place, its chord as four keys, its passage. */
  private interface BarPlayer {
    void play(Passage passage, int bar, int i, int[] keys);
  }

  private void everyBar(int lowest, int highest, BarPlayer player) {
    int[] keys = START;
    for (Passage passage : form.passages()) {
      for (int i = 0; i < passage.bars(); i++) {
        keys = passage.chords()[i].voicedAfter(keys, lowest, highest);
        player.play(passage, passage.firstBar() + i, i, keys);
      }
    }
  }

  private long frame(int bar, double step, double swaySeconds, Dice dice) {
    return form.frame(bar, step) + Math.round(swaySeconds * dice.sway() * Waves.RATE);
  }

  Track keys() {
    Track track =
        new Track(
            Filter.highPass(140, 0.7),
            Filter.bell(320, 0.8, -2),
            new Reverb(1.3, 1.6, 0.4, 0.015, -15));
    Dice dice = new Dice(31);
    everyBar(
        54,
        76,
        (passage, bar, i, keys) -> {
          switch (passage.kind()) {
            case "intro", "outro" -> {
              boolean end = passage.kind().equals("outro") && i == 3;
              chord(track, bar, 0, end ? 24 : 9.5, keys, 0.58, dice);
              if (!end) {
                chord(track, bar, 10, 5.5, keys, 0.44, dice);
              }
            }
            case "verse" -> {
              chord(track, bar, 0, 5, keys, 0.5, dice);
              chord(track, bar, 6, 3.2, keys, 0.38, dice);
              chord(track, bar, 11, 4.4, keys, 0.42, dice);
            }
            case "pre" -> {
              chord(track, bar, 0, 7.6, keys, 0.52 + 0.03 * i, dice);
              chord(track, bar, 8, 7.6, keys, 0.48 + 0.03 * i, dice);
            }
            case "chorus" -> {
              double lift = 0.04 * passage.number();
              chord(track, bar, 0, 2.6, keys, 0.56 + lift, dice);
              chord(track, bar, 3, 2.6, keys, 0.45 + lift, dice);
              chord(track, bar, 6, 3.6, keys, 0.5 + lift, dice);
              chord(track, bar, 10, 5.4, keys, 0.48 + lift, dice);
            }
            default -> {
              chord(track, bar, 0, 15, keys, 0.46, dice);
              for (int step = 4; i >= 4 && step < 16; step += 4) {
                long at = frame(bar, step, 0.004, dice);
                int key = keys[step / 4] + 12;
                track.play(at, () -> new Tine(key, form.seconds(4), 0.36, 0.3));
              }
            }
          }
        });
    return track;
  }

  private void chord(
      Track track, int bar, double step, double length, int[] keys, double strength, Dice dice) {
    long at = frame(bar, step, 0.003, dice);
    for (int v = 0; v < keys.length; v++) {
      int key = keys[v];
      double pan = -0.42 + 0.28 * v;
      double real = strength * (1 + 0.05 * dice.sway()) * (v == 3 ? 1.08 : 1);
      long roll = at + Math.round(0.004 * v * Waves.RATE);
      track.play(roll, () -> new Tine(key, form.seconds(length), real, pan));
    }
  }

  Track guitars() {
    Track track =
        new Track(
            Filter.highPass(150, 0.7),
            Filter.bell(240, 1, -2),
            Filter.bell(2600, 0.8, -2),
            Filter.highShelf(6500, -2.5),
            new Reverb(1.1, 1.2, 0.4, 0.01, -17));
    Dice dice = new Dice(41);
    everyBar(
        55,
        79,
        (passage, bar, i, keys) -> {
          switch (passage.kind()) {
            case "intro" -> picked(track, bar, keys, 2, i < 2 ? 0.75 : 0.8, 3.5, dice);
            case "verse" -> picked(track, bar, keys, 2, 0.78, 2.2, dice);
            case "pre" -> picked(track, bar, keys, 1, 0.6 + 0.05 * i, 1.2, dice);
            case "chorus" -> {
              strum(track, bar, "8.57.5.78.57.5.7", keys, 0.6 + 0.035 * passage.number(), dice);
            }
            case "bridge" -> picked(track, bar, keys, i < 4 ? 4 : 2, 0.8, 6, dice);
            default -> {
              if (i < 3) {
                picked(track, bar, keys, 2, 0.76 - 0.05 * i, 4, dice);
              } else {
                strum(track, bar, "7...............", keys, 0.5, dice);
              }
            }
          }
        });
    return track;
  }

  private void picked(
      Track track, int bar, int[] keys, int every, double strength, double length, Dice dice) {
    for (int step = 0, n = 0; step < 16; step += every, n++) {
      int key = keys[UP_AND_DOWN[n % UP_AND_DOWN.length]];
      double real = strength * (step % 8 == 0 ? 1.15 : 1) * (1 + 0.06 * dice.sway());
      double pan = every == 1 && step % 2 == 1 ? 0.62 : -0.58;
      long at = frame(bar, step, 0.004, dice);
      long seed = dice.seed();
      double seconds = form.seconds(length * every);
      track.play(at, () -> new Pluck(key, seconds, real, pan, 1.6, new Dice(seed)));
    }
  }

  private void strum(Track track, int bar, String line, int[] keys, double strength, Dice dice) {
    for (int side = -1; side <= 1; side += 2) {
      for (int step = 0; step < line.length(); step++) {
        char mark = line.charAt(step);
        if (mark == '.') {
          continue;
        }
        long at = frame(bar, step, 0.005, dice);
        boolean up = step % 2 == 1;
        for (int v = 0; v < keys.length; v++) {
          int string = up ? keys.length - 1 - v : v;
          int key = keys[string] - (side > 0 && string == 3 ? 12 : 0);
          double real = strength * (mark - '0') / 9.0 * (1 + 0.06 * dice.sway());
          long seed = dice.seed();
          double pan = 0.72 * side;
          double seconds = form.seconds(mark == '8' ? 3.2 : 1.6);
          long late = at + Math.round(0.007 * v * Waves.RATE);
          track.play(late, () -> new Pluck(key, seconds, real, pan, 1.1, new Dice(seed)));
        }
      }
    }
  }

  Track backingVocals() {
    Track track =
        new Track(
            Filter.highPass(190, 0.7),
            Filter.bell(500, 0.8, -1.5),
            Filter.highShelf(5000, 2),
            new Reverb(1.8, 2.2, 0.35, 0.02, -9));
    Choir.Waveforms waveforms = new Choir.Waveforms();
    Dice dice = new Dice(51);
    everyBar(
        57,
        76,
        (passage, bar, i, keys) -> {
          boolean secondVerse = passage.kind().equals("verse") && passage.number() == 2 && i >= 4;
          switch (passage.kind()) {
            case "pre" -> sing(track, waveforms, Vowel.U, bar, keys, 0.55 + 0.06 * i, dice);
            case "chorus" -> {
              sing(
                  track,
                  waveforms,
                  i % 2 == 0 ? Vowel.A : Vowel.O,
                  bar,
                  keys,
                  0.6 + 0.03 * passage.number(),
                  dice);
            }
            case "bridge" -> {
              if (i >= 4) {
                sing(track, waveforms, Vowel.U, bar, keys, 0.3 + 0.06 * (i - 4), dice);
              }
            }
            case "outro" -> sing(track, waveforms, Vowel.U, bar, keys, 0.44 - 0.05 * i, dice);
            default -> {
              if (secondVerse) {
                sing(track, waveforms, Vowel.U, bar, keys, 0.34, dice);
              }
            }
          }
        });
    return track;
  }

  private void sing(
      Track track,
      Choir.Waveforms waveforms,
      Vowel vowel,
      int bar,
      int[] keys,
      double strength,
      Dice dice) {
    for (int v = 0; v < keys.length; v++) {
      int key = keys[v];
      double pan = -0.75 + 0.5 * v;
      long at = frame(bar, 0, 0.008, dice);
      long seed = dice.seed();
      track.play(
          at,
          () ->
              new Choir(waveforms, vowel, key, form.seconds(15.3), strength, pan, new Dice(seed)));
    }
  }

  Track strings() {
    Track track =
        new Track(
            Filter.highPass(170, 0.7),
            Filter.bell(2900, 0.7, -2),
            Filter.highShelf(7000, -2),
            new Reverb(2.2, 2.6, 0.35, 0.025, -8));
    Dice dice = new Dice(61);
    everyBar(
        57,
        77,
        (passage, bar, i, keys) -> {
          double strength =
              switch (passage.kind()) {
                case "chorus" -> passage.number() == 1 ? 0 : passage.number() == 2 ? 0.62 : 0.74;
                case "bridge" -> 0.5 + 0.035 * i;
                case "outro" -> 0.5 - 0.06 * i;
                default -> 0;
              };
          if (strength == 0) {
            return;
          }
          double rise = passage.kind().equals("chorus") ? 0.22 : 0.5;
          for (int v = 0; v < keys.length; v++) {
            bow(
                track,
                frame(bar, 0, 0.01, dice),
                15.6,
                keys[v],
                strength,
                -0.6 + 0.4 * v,
                rise,
                dice);
          }
          if (passage.kind().equals("chorus") && passage.number() == 3) {
            bow(track, frame(bar, 0, 0.01, dice), 7.6, keys[3] + 12, 0.5, 0.5, 0.2, dice);
            bow(track, frame(bar, 8, 0.01, dice), 7.6, keys[2] + 12, 0.5, 0.5, 0.2, dice);
          }
        });
    return track;
  }

  private void bow(
      Track track,
      long at,
      double length,
      int key,
      double strength,
      double pan,
      double rise,
      Dice dice) {
    long seed = dice.seed();
    double seconds = form.seconds(length);
    track.play(at, () -> new Strings(key, seconds, strength, pan, rise, new Dice(seed)));
  }
}
