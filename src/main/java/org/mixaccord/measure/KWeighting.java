package org.mixaccord.measure;

/**
 * The K-weighting of BS.1770 at one sample rate: a high shelf followed by a high-pass, both second
 * order, normalised so that a0 = 1.
 *
 * <p>The Recommendation prints coefficients for 48 kHz only. Both stages are rebuilt here from
 * their analogue prototypes for any rate, and the numerator of the second stage is scaled so that
 * its pass band has the same gain at every rate as the printed one has at 48 kHz. Below 32 kHz the
 * shelf is fitted instead: rebuilt at 8 kHz it would read a tone of 1 kHz 0.2 dB too low.
 *
 * @param shelfB numerator b0, b1, b2 of the shelf
 * @param shelfA denominator a1, a2 of the shelf
 * @param highPassB numerator of the high-pass, (1, −2, 1) times the scale
 * @param highPassA denominator a1, a2 of the high-pass
 */
record KWeighting(double[] shelfB, double[] shelfA, double[] highPassB, double[] highPassA) {
  // Prototype parameters that regenerate Tables 1 and 2 of BS.1770-5 Annex 1 to 14 decimals.
  private static final double SHELF_HZ = 1681.974450955533;
  private static final double SHELF_GAIN_DB = 3.999843853973347;
  private static final double SHELF_Q = 0.7071752369554196;
  private static final double SHELF_MIDDLE_POWER = 0.4996667741545416;
  private static final double HIGH_PASS_HZ = 38.13547087602444;
  private static final double HIGH_PASS_Q = 0.5003270373238773;
  private static final double PRINTED_RATE = 48000;

  /** Below, the bilinear transform bends the shelf by more than 0.01 dB. */
  private static final double BENT_BELOW_RATE = 32000;

  private record Stage(double[] b, double[] a) {}

  /** Coefficients for a sample rate in Hz, above twice the shelf's frequency. */
  static KWeighting at(double sampleRate) {
    Stage shelf = sampleRate < BENT_BELOW_RATE ? fittedShelf(sampleRate) : shelf(sampleRate);
    double h = Math.tan(Math.PI * HIGH_PASS_HZ / sampleRate);
    double d2 = highPassDenominator(sampleRate);
    double scale = highPassDenominator(PRINTED_RATE) / d2;
    double[] highPassB = {scale, -2 * scale, scale};
    double[] highPassA = {2 * (h * h - 1) / d2, (1 - h / HIGH_PASS_Q + h * h) / d2};
    return new KWeighting(shelf.b, shelf.a, highPassB, highPassA);
  }

  private static Stage shelf(double sampleRate) {
    double k = Math.tan(Math.PI * SHELF_HZ / sampleRate);
    double vh = Math.pow(10, SHELF_GAIN_DB / 20);
    double vb = Math.pow(vh, SHELF_MIDDLE_POWER);
    double d = 1 + k / SHELF_Q + k * k;
    return new Stage(
        new double[] {
          (vh + vb * k / SHELF_Q + k * k) / d,
          2 * (k * k - vh) / d,
          (vh - vb * k / SHELF_Q + k * k) / d
        },
        new double[] {2 * (k * k - 1) / d, (1 - k / SHELF_Q + k * k) / d});
  }

  /**
   * The shelf for low rates: the prototype's poles as they are, and the zeros that give the printed
   * filter's gain at 0 Hz, at the shelf's frequency and at half the sample rate.
   */
  private static Stage fittedShelf(double sampleRate) {
    double w = 2 * Math.PI * SHELF_HZ / sampleRate;
    double damping = 1 / (2 * SHELF_Q);
    double a1 = -2 * Math.exp(-damping * w) * Math.cos(Math.sqrt(1 - damping * damping) * w);
    double a2 = Math.exp(-2 * damping * w);
    // Power over frequency is a sum of three terms, above the fraction line as below it.
    double high = Math.pow(Math.sin(w / 2), 2);
    double low = 1 - high;
    double middle = 4 * low * high;
    double poles0 = Math.pow(1 + a1 + a2, 2);
    double poles1 = Math.pow(1 - a1 + a2, 2);
    double zeros0 = poles0;
    double zeros1 = poles1 * printedShelfPower(sampleRate / 2);
    double power = printedShelfPower(SHELF_HZ) * (poles0 * low + poles1 * high - 4 * a2 * middle);
    double zeros2 = (power - zeros0 * low - zeros1 * high) / middle;
    double half = (Math.sqrt(zeros0) + Math.sqrt(zeros1)) / 2;
    double b0 = (half + Math.sqrt(half * half + zeros2)) / 2;
    return new Stage(
        new double[] {b0, (Math.sqrt(zeros0) - Math.sqrt(zeros1)) / 2, -zeros2 / (4 * b0)},
        new double[] {a1, a2});
  }

  private static double printedShelfPower(double hz) {
    Stage printed = shelf(PRINTED_RATE);
    return power(printed.b, printed.a, 2 * Math.PI * hz / PRINTED_RATE);
  }

  private static double highPassDenominator(double sampleRate) {
    double k = Math.tan(Math.PI * HIGH_PASS_HZ / sampleRate);
    return 1 + k / HIGH_PASS_Q + k * k;
  }

  /** Gain of both stages together at a frequency, in dB. */
  double gainDb(double hz, double sampleRate) {
    double w = 2 * Math.PI * hz / sampleRate;
    return 10 * Math.log10(power(shelfB, shelfA, w) * power(highPassB, highPassA, w));
  }

  private static double power(double[] b, double[] a, double w) {
    double re = b[0] + b[1] * Math.cos(w) + b[2] * Math.cos(2 * w);
    double im = b[1] * Math.sin(w) + b[2] * Math.sin(2 * w);
    double dre = 1 + a[0] * Math.cos(w) + a[1] * Math.cos(2 * w);
    double dim = a[0] * Math.sin(w) + a[1] * Math.sin(2 * w);
    return (re * re + im * im) / (dre * dre + dim * dim);
  }
}
