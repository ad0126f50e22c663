package org.mixaccord.demo.music;

import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.ConcurrentMap;

/** Two singers holding one note on one vowel; their waves carry the vowel's resonances. */
final class Choir implements Voice {
  private record Wanted(double key, Vowel vowel) {}

  /** Waves already worked out, shared by all notes of one pitch and vowel of one song. */
  static final class Waveforms {
    private final ConcurrentMap<Wanted, double[]> made = new ConcurrentHashMap<>();

    double[] of(double key, Vowel vowel) {
      return made.computeIfAbsent(new Wanted(key, vowel), Waveforms::make);
    }

    private static double[] make(Wanted wanted) {
      double hz = Waves.hz(wanted.key());
      int harmonics = (int) (7500 / hz);
      double[] amplitudes = new double[harmonics + 1];
      double power = 0;
      for (int n = 1; n <= harmonics; n++) {
        amplitudes[n] = wanted.vowel().response(n * hz) / StrictMath.pow(n, 1.05);
        power += amplitudes[n] * amplitudes[n] / 2;
      }
      for (int n = 1; n <= harmonics; n++) {
        amplitudes[n] *= 0.2 / Math.sqrt(power);
      }
      return Waves.table(amplitudes);
    }
  }

  private final double[] table;
  private final double step;
  private final double gain;
  private final double pan;
  private final double spread;
  private final double rise;
  private final double releaseFall;
  private final double swayStep;
  private double sway;
  private double phaseOne;
  private double phaseTwo;
  private double bend;
  private double bow;
  private double release = 1;
  private int untilRelease;
  private int clock;

  /**
   * A note.
   *
   * @param key pitch, 69 = 440 Hz
   * @param seconds until breath is out
   * @param strength 0 … 1
   * @param pan −1 left … 1 right, where the two stand around
   */
  Choir(
      Waveforms waveforms,
      Vowel vowel,
      double key,
      double seconds,
      double strength,
      double pan,
      Dice dice) {
    table = waveforms.of(key, vowel);
    step = Waves.hz(key) / Waves.RATE;
    gain = 0.5 * strength;
    this.pan = pan;
    spread = 0.0025 + 0.001 * dice.unit();
    rise = 1 - Waves.fall(0.09);
    releaseFall = Waves.fall(0.14);
    swayStep = (4.6 + dice.unit()) * 32 / Waves.RATE;
    sway = dice.unit();
    phaseOne = dice.unit();
    phaseTwo = dice.unit();
    untilRelease = (int) (seconds * Waves.RATE);
  }

  @Override
  public boolean add(double[] left, double[] right, int from, int to) {
    double near = Math.sqrt((1 - pan) / 2) * gain;
    double far = Math.sqrt((1 + pan) / 2) * gain;
    for (int i = from; i < to; i++) {
      if ((clock++ & 31) == 0) {
        sway += swayStep;
        sway -= sway >= 1 ? 1 : 0;
        bend = 0.0032 * Waves.sine(sway);
      }
      phaseOne += step * (1 + spread + bend);
      phaseOne -= phaseOne >= 1 ? 1 : 0;
      phaseTwo += step * (1 - spread + 0.6 * bend);
      phaseTwo -= phaseTwo >= 1 ? 1 : 0;
      bow += rise * (1 - bow);
      if (untilRelease > 0) {
        untilRelease--;
      } else {
        release *= releaseFall;
      }
      double envelope = bow * bow * release;
      double one = Waves.at(table, phaseOne) * envelope;
      double two = Waves.at(table, phaseTwo) * envelope;
      left[i] += near * (one + 0.35 * two);
      right[i] += far * (two + 0.35 * one);
    }
    return release > 1e-4;
  }
}
