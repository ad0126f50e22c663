package org.mixaccord.demo.music;

/**
 * A room: eight delay lines fed back through a Householder matrix, each losing highs on the way.
 * Linear, so the room of a sum is the sum of the rooms.
 */
final class Reverb implements Effect {
  private static final int[] LENGTHS = {1427, 1637, 1871, 2053, 2273, 2477, 2719, 2927};
  private static final int LINES = LENGTHS.length;
  private static final int MASK = 8191;
  private final double[][] lines = new double[LINES][MASK + 1];
  private final int[] lengths = new int[LINES];
  private final double[] feedback = new double[LINES];
  private final double[] damped = new double[LINES];
  private final double[] before;
  private final double dampingKept;
  private final double wet;
  private final double[] low = new double[2];
  private int at;
  private int beforeAt;

  /**
   * A room.
   *
   * @param size 1 = a chamber, 2 = a hall; delays are that much longer
   * @param seconds time to fall by 60 dB
   * @param damping 0 = bright walls … 0.9 = curtains
   * @param preDelaySeconds time before the room answers
   * @param wetDb level of the room beside the dry sound
   */
  Reverb(double size, double seconds, double damping, double preDelaySeconds, double wetDb) {
    for (int i = 0; i < LINES; i++) {
      lengths[i] = Math.min(MASK, (int) (LENGTHS[i] * size));
      feedback[i] = StrictMath.pow(10, -3.0 * lengths[i] / (seconds * Waves.RATE));
    }
    before = new double[2 * Math.max(1, (int) (preDelaySeconds * Waves.RATE))];
    dampingKept = damping;
    wet = Waves.gain(wetDb) * 0.5;
  }

  @Override
  public void process(double[] left, double[] right, int count) {
    double bright = 1 - dampingKept;
    for (int n = 0; n < count; n++) {
      double inLeft = before[beforeAt];
      double inRight = before[beforeAt + 1];
      before[beforeAt] = left[n];
      before[beforeAt + 1] = right[n];
      beforeAt += 2;
      if (beforeAt == before.length) {
        beforeAt = 0;
      }
      double sum = 0;
      double outLeft = 0;
      double outRight = 0;
      for (int i = 0; i < LINES; i++) {
        double read = lines[i][(at - lengths[i]) & MASK];
        double soft = damped[i] + bright * (read - damped[i]);
        damped[i] = soft;
        sum += soft * feedback[i];
        if ((i & 1) == 0) {
          outLeft += (i & 2) == 0 ? soft : -soft;
        } else {
          outRight += (i & 2) == 0 ? soft : -soft;
        }
      }
      double shared = sum * (2.0 / LINES);
      for (int i = 0; i < LINES; i++) {
        double in = (i & 1) == 0 ? inLeft : inRight;
        lines[i][at] = in + damped[i] * feedback[i] - shared;
      }
      at = (at + 1) & MASK;
      // The room keeps no rumble: one high pass at about 150 Hz on what comes back.
      low[0] += 0.02 * (outLeft - low[0]);
      low[1] += 0.02 * (outRight - low[1]);
      left[n] += wet * (outLeft - low[0]);
      right[n] += wet * (outRight - low[1]);
    }
  }
}
