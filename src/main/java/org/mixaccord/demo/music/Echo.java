package org.mixaccord.demo.music;

/** Repeats that cross from side to side and grow darker. */
final class Echo implements Effect {
  private final double[] left;
  private final double[] right;
  private final double level;
  private final double again;
  private double darkLeft;
  private double darkRight;
  private int at;

  Echo(double seconds, double levelDb, double again) {
    int frames = (int) (seconds * Waves.RATE);
    this.left = new double[frames];
    this.right = new double[frames];
    this.level = Waves.gain(levelDb);
    this.again = again;
  }

  @Override
  public void process(double[] outLeft, double[] outRight, int count) {
    for (int i = 0; i < count; i++) {
      darkLeft += 0.25 * (left[at] - darkLeft);
      darkRight += 0.25 * (right[at] - darkRight);
      left[at] = outLeft[i] + again * darkRight;
      right[at] = again * darkLeft;
      outLeft[i] += level * darkLeft;
      outRight[i] += level * darkRight;
      if (++at == left.length) {
        at = 0;
      }
    }
  }
}
