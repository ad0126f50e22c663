package org.mixaccord.acceptance;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;

/**
 * An invented song that is known at every instant, not only at frames: notes of swelling partials,
 * none above 9 kHz, so that it can be sampled at any rate.
 */
final class Tones {
  private static final double HIGHEST_HZ = 9000;

  private record Note(double at, double length, double hz, double level, double pan) {
    double value(double t) {
      double u = (t - at) / length;
      if (u <= 0 || u >= 1) {
        return 0;
      }
      double swell = Math.pow(Math.sin(Math.PI * u), 2) * level;
      double sum = 0;
      for (int h = 1; h <= 4 && h * hz < HIGHEST_HZ; h++) {
        sum += Math.sin(2 * Math.PI * h * hz * (t - at) + h) / h;
      }
      return swell * sum;
    }
  }

  private final List<Note> notes = new ArrayList<>();

  Tones(long seed, double seconds) {
    Random random = new Random(seed);
    for (double at = 0; at < seconds - 0.5; at += 0.06) {
      notes.add(
          new Note(
              at + 0.05 * random.nextDouble(),
              0.08 + 0.4 * random.nextDouble(),
              60 * Math.pow(2, 6.5 * random.nextDouble()),
              0.02 + 0.05 * random.nextDouble(),
              2 * random.nextDouble() - 1));
    }
  }

  /**
   * The song at a rate.
   *
   * @param from seconds of the song at the first frame
   * @param gainDb how much louder than as composed
   * @return {@code [side][frame]}
   */
  double[][] at(int rate, double from, double seconds, double gainDb) {
    int frames = (int) Math.round(seconds * rate);
    double gain = Math.pow(10, gainDb / 20);
    double[][] out = new double[2][frames];
    for (Note note : notes) {
      int first = Math.max(0, (int) Math.ceil((note.at - from) * rate));
      int last = Math.min(frames, (int) ((note.at + note.length - from) * rate) + 1);
      for (int i = first; i < last; i++) {
        double value = gain * note.value(from + i / (double) rate);
        out[0][i] += value * Math.sqrt(0.5 * (1 - note.pan));
        out[1][i] += value * Math.sqrt(0.5 * (1 + note.pan));
      }
    }
    return out;
  }
}
