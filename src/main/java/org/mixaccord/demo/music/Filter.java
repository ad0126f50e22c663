package org.mixaccord.demo.music;

/**
 * A second-order filter on both channels (the usual bilinear low pass, high pass, bell and shelf).
 */
final class Filter implements Effect {
  private final double b0;
  private final double b1;
  private final double b2;
  private final double a1;
  private final double a2;
  private final double[] first = new double[2];
  private final double[] second = new double[2];

  private Filter(double b0, double b1, double b2, double a0, double a1, double a2) {
    this.b0 = b0 / a0;
    this.b1 = b1 / a0;
    this.b2 = b2 / a0;
    this.a1 = a1 / a0;
    this.a2 = a2 / a0;
  }

  static Filter lowPass(double hz, double q) {
    double w = 2 * StrictMath.PI * hz / Waves.RATE;
    double c = StrictMath.cos(w);
    double alpha = StrictMath.sin(w) / (2 * q);
    return new Filter((1 - c) / 2, 1 - c, (1 - c) / 2, 1 + alpha, -2 * c, 1 - alpha);
  }

  static Filter highPass(double hz, double q) {
    double w = 2 * StrictMath.PI * hz / Waves.RATE;
    double c = StrictMath.cos(w);
    double alpha = StrictMath.sin(w) / (2 * q);
    return new Filter((1 + c) / 2, -1 - c, (1 + c) / 2, 1 + alpha, -2 * c, 1 - alpha);
  }

  static Filter bandPass(double hz, double q) {
    double w = 2 * StrictMath.PI * hz / Waves.RATE;
    double alpha = StrictMath.sin(w) / (2 * q);
    return new Filter(alpha, 0, -alpha, 1 + alpha, -2 * StrictMath.cos(w), 1 - alpha);
  }

  static Filter bell(double hz, double q, double db) {
    double w = 2 * StrictMath.PI * hz / Waves.RATE;
    double a = StrictMath.pow(10, db / 40);
    double c = StrictMath.cos(w);
    double alpha = StrictMath.sin(w) / (2 * q);
    return new Filter(1 + alpha * a, -2 * c, 1 - alpha * a, 1 + alpha / a, -2 * c, 1 - alpha / a);
  }

  static Filter highShelf(double hz, double db) {
    double w = 2 * StrictMath.PI * hz / Waves.RATE;
    double a = StrictMath.pow(10, db / 40);
    double c = StrictMath.cos(w);
    double beta = 2 * Math.sqrt(a) * StrictMath.sin(w) * Math.sqrt(0.5);
    return new Filter(
        a * (a + 1 + (a - 1) * c + beta),
        -2 * a * (a - 1 + (a + 1) * c),
        a * (a + 1 + (a - 1) * c - beta),
        a + 1 - (a - 1) * c + beta,
        2 * (a - 1 - (a + 1) * c),
        a + 1 - (a - 1) * c - beta);
  }

  @Override
  public void process(double[] left, double[] right, int count) {
    run(0, left, count);
    run(1, right, count);
  }

  private void run(int channel, double[] samples, int count) {
    double s1 = first[channel];
    double s2 = second[channel];
    for (int i = 0; i < count; i++) {
      double in = samples[i];
      double out = b0 * in + s1;
      s1 = b1 * in - a1 * out + s2;
      s2 = b2 * in - a2 * out;
      samples[i] = out;
    }
    // Numbers far below hearing would otherwise fall into the slow range of the processor.
    first[channel] = Math.abs(s1) < 1e-20 ? 0 : s1;
    second[channel] = Math.abs(s2) < 1e-20 ? 0 : s2;
  }

  /** One channel alone, for building drum hits. */
  double[] through(double[] samples) {
    run(0, samples, samples.length);
    return samples;
  }
}
