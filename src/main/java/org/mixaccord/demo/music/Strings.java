package org.mixaccord.demo.music;

/** A few bowed players on one note: three slightly different saws, each with its own vibrato. */
final class Strings implements Voice {
  private static final int PLAYERS = 3;
  private final double[] table;
  private final double[] phase = new double[PLAYERS];
  private final double[] step = new double[PLAYERS];
  private final double[] sway = new double[PLAYERS];
  private final double[] swayStep = new double[PLAYERS];
  private final double[] bent = new double[PLAYERS];
  private final double[] gainLeft = new double[PLAYERS];
  private final double[] gainRight = new double[PLAYERS];
  private final double rise;
  private final double releaseFall;
  private final double brightness;
  private double bow;
  private double release = 1;
  private double left1;
  private double left2;
  private double right1;
  private double right2;
  private int untilRelease;
  private int clock;

  /**
   * A note.
   *
   * @param key pitch, 69 = 440 Hz
   * @param seconds until the bows leave the strings
   * @param strength 0 … 1, also the brightness
   * @param pan −1 left … 1 right, the middle of the group
   * @param riseSeconds time in which the note swells
   */
  Strings(double key, double seconds, double strength, double pan, double riseSeconds, Dice dice) {
    double hz = Waves.hz(key);
    table = Waves.saw(hz * 1.02);
    for (int p = 0; p < PLAYERS; p++) {
      phase[p] = dice.unit();
      step[p] = hz * (1 + 0.0035 * (p - 1) + 0.0008 * dice.bipolar()) / Waves.RATE;
      sway[p] = dice.unit();
      swayStep[p] = (5.1 + 0.8 * dice.bipolar()) * 32 / Waves.RATE;
      double place = Math.max(-1, Math.min(1, pan + 0.35 * (p - 1)));
      gainLeft[p] = 0.13 * strength * Math.sqrt((1 - place) / 2);
      gainRight[p] = 0.13 * strength * Math.sqrt((1 + place) / 2);
    }
    rise = 1 - Waves.fall(riseSeconds / 2);
    releaseFall = Waves.fall(0.16);
    brightness = Math.min(0.6, (1300 + 2600 * strength + hz) * 6.2832 / Waves.RATE);
    untilRelease = (int) (seconds * Waves.RATE);
  }

  @Override
  public boolean add(double[] left, double[] right, int from, int to) {
    for (int i = from; i < to; i++) {
      if ((clock++ & 31) == 0) {
        for (int p = 0; p < PLAYERS; p++) {
          sway[p] += swayStep[p];
          sway[p] -= sway[p] >= 1 ? 1 : 0;
          bent[p] = step[p] * (1 + 0.0045 * bow * Waves.sine(sway[p]));
        }
      }
      bow += rise * (1 - bow);
      if (untilRelease > 0) {
        untilRelease--;
      } else {
        release *= releaseFall;
      }
      double sumLeft = 0;
      double sumRight = 0;
      for (int p = 0; p < PLAYERS; p++) {
        phase[p] += bent[p];
        phase[p] -= phase[p] >= 1 ? 1 : 0;
        double tone = Waves.at(table, phase[p]);
        sumLeft += gainLeft[p] * tone;
        sumRight += gainRight[p] * tone;
      }
      double envelope = bow * bow * release;
      left1 += brightness * (sumLeft * envelope - left1);
      left2 += brightness * (left1 - left2);
      right1 += brightness * (sumRight * envelope - right1);
      right2 += brightness * (right1 - right2);
      left[i] += left2;
      right[i] += right2;
    }
    return release > 1e-4;
  }
}
