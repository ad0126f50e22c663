package org.mixaccord.demo.music;

/** A bass: a dark, closing saw over a plain sine an octave's foundation, in the middle. */
final class Bass implements Voice {
  private final double[] table;
  private final double step;
  private final double level;
  private final double closeFall;
  private final double bodyFall;
  private final double releaseFall;
  private double open;
  private double body = 1;
  private double release = 1;
  private double attack;
  private double phase;
  private double low;
  private double band;
  private int untilRelease;

  /**
   * A note.
   *
   * @param key pitch, 69 = 440 Hz
   * @param seconds until it is stopped
   * @param strength 0 … 1
   * @param openHz how far the tone opens at the start of the note
   */
  Bass(double key, double seconds, double strength, double openHz) {
    double hz = Waves.hz(key);
    table = Waves.saw(hz);
    step = hz / Waves.RATE;
    level = 0.5 * strength;
    open = openHz * (0.6 + 0.6 * strength);
    closeFall = Waves.fall(0.16);
    bodyFall = Waves.fall(1.6);
    releaseFall = Waves.fall(0.025);
    untilRelease = (int) (seconds * Waves.RATE);
  }

  @Override
  public boolean add(double[] left, double[] right, int from, int to) {
    for (int i = from; i < to; i++) {
      phase += step;
      phase -= phase >= 1 ? 1 : 0;
      attack += 0.006 * (1 - attack);
      if (untilRelease > 0) {
        untilRelease--;
      } else {
        release *= releaseFall;
      }
      double f = 6.2832 * (260 + open) / Waves.RATE;
      open *= closeFall;
      body *= bodyFall;
      double high = Waves.at(table, phase) - low - 1.1 * band;
      band += f * high;
      low += f * band;
      double out = level * attack * release * body * (0.75 * low + 0.55 * Waves.sine(phase));
      left[i] += out;
      right[i] += out;
    }
    return release > 1e-5;
  }
}
