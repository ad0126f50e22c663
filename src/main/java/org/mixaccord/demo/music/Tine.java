package org.mixaccord.demo.music;

/**
 * An electric piano: a struck tine as two sines, one bending the other, with a short bright ping.
 */
final class Tine implements Voice {
  private final double step;
  private final double gainLeft;
  private final double gainRight;
  private final double bodyFall;
  private final double bendFall;
  private final double pingFall;
  private final double releaseFall;
  private double phase;
  private double pingPhase;
  private double body;
  private double bend;
  private double ping;
  private double attack;
  private double release = 1;
  private int untilRelease;

  /**
   * A note.
   *
   * @param key pitch, 69 = 440 Hz
   * @param seconds until the key is let go
   * @param strength 0 … 1
   * @param pan −1 left … 1 right
   */
  Tine(double key, double seconds, double strength, double pan) {
    double hz = Waves.hz(key);
    step = hz / Waves.RATE;
    double higher = (key - 60) / 24;
    body = 0.22 * strength;
    bend = 0.06 + 0.22 * strength * strength * (1 - 0.3 * higher);
    ping = 0.05 * strength * strength;
    bodyFall = Waves.fall(1.5 - 0.4 * higher);
    bendFall = Waves.fall(0.45 - 0.1 * higher);
    pingFall = Waves.fall(0.07);
    releaseFall = Waves.fall(0.09);
    untilRelease = (int) (seconds * Waves.RATE);
    gainLeft = Math.sqrt((1 - pan) / 2);
    gainRight = Math.sqrt((1 + pan) / 2);
  }

  @Override
  public boolean add(double[] left, double[] right, int from, int to) {
    for (int i = from; i < to; i++) {
      phase += step;
      phase -= phase >= 1 ? 1 : 0;
      attack += 0.012 * (1 - attack);
      if (untilRelease > 0) {
        untilRelease--;
      } else {
        release *= releaseFall;
      }
      double tone = Waves.sine(phase + 1 + bend * Waves.sine(phase));
      double sum = body * tone;
      if (ping > 1e-6) {
        pingPhase += step * 7.01;
        pingPhase -= pingPhase >= 1 ? 1 : 0;
        sum += ping * Waves.sine(pingPhase);
        ping *= pingFall;
      }
      double out = attack * release * sum;
      body *= bodyFall;
      bend *= bendFall;
      left[i] += gainLeft * out;
      right[i] += gainRight * out;
    }
    return release * body > 1e-5;
  }
}
