package org.mixaccord.demo.music;

import java.util.ArrayList;
import java.util.List;
import org.mixaccord.demo.music.Singer.Sung;

/**
 * Turns a written melody into sung phrases: {@code F#4/3} is a note of three sixteenths, {@code
 * r/2} a rest; bars are parted by a stroke. A rest of two sixteenths or more ends a phrase.
 */
final class Melody {
  private record Written(int from, int length, int key) {}

  private final List<List<Written>> phrases = new ArrayList<>();

  Melody(String written) {
    List<Written> phrase = new ArrayList<>();
    int bar = 0;
    for (String line : written.split("\\|")) {
      int at = 0;
      for (String word : line.trim().split(" +")) {
        int slash = word.indexOf('/');
        int length = Integer.parseInt(word.substring(slash + 1));
        String note = word.substring(0, slash);
        if (!note.equals("r")) {
          phrase.add(new Written(16 * bar + at, length, Chord.key(note)));
        } else if (length >= 2 && !phrase.isEmpty()) {
          phrases.add(phrase);
          phrase = new ArrayList<>();
        }
        at += length;
      }
      if (at != 16) {
        throw new IllegalArgumentException("a bar of " + at + " sixteenths: " + line);
      }
      bar++;
    }
    if (!phrase.isEmpty()) {
      phrases.add(phrase);
    }
  }

  /**
   * Sings the melody from a bar on.
   *
   * @param syllables sung in turn, one a note
   * @param strength 0 … 1
   * @param pan −1 left … 1 right
   * @param cents detuning
   */
  void sing(
      Form form,
      Track track,
      int firstBar,
      String[] syllables,
      double strength,
      double pan,
      double cents,
      Dice dice) {
    int syllable = 0;
    for (List<Written> phrase : phrases) {
      long start = form.frame(firstBar, 0) + place(form, phrase.get(0).from());
      long late = Math.round(0.006 * (1 + dice.sway()) * Waves.RATE);
      List<Sung> sung = new ArrayList<>();
      for (Written note : phrase) {
        long from = form.frame(firstBar, 0) + place(form, note.from()) - start;
        long to = from + Math.round(form.seconds(note.length()) * Waves.RATE * 0.96);
        double real = strength * (note.from() % 8 == 0 ? 1.05 : 1) * (1 + 0.03 * dice.sway());
        String text = syllables[syllable++ % syllables.length];
        sung.add(new Sung((int) from, (int) to, note.key(), text, real));
      }
      long seed = dice.seed();
      track.play(start + late, () -> new Singer(sung, pan, cents, new Dice(seed)));
    }
  }

  private static long place(Form form, int sixteenth) {
    return form.frame(sixteenth / 16, sixteenth % 16) - form.frame(0, 0);
  }
}
