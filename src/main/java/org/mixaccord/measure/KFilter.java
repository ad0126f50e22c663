package org.mixaccord.measure;

/** The running K-weighting of one channel and the sums it leaves behind for each cell. */
final class KFilter {
  private static final double GONE = 1e-25; // below this a state is rounded to rest

  private final double b0;
  private final double b1;
  private final double b2;
  private final double a1;
  private final double a2;
  private final double c1;
  private final double c2;
  private double z1;
  private double z2;
  private double z3;
  private double z4;

  double weighted;
  double energy;
  double sum;
  double peak;
  int peakAt;

  KFilter(KWeighting k) {
    // The high-pass's numerator is scale · (1, −2, 1): the scale moves into the shelf.
    double scale = k.highPassB()[0];
    b0 = scale * k.shelfB()[0];
    b1 = scale * k.shelfB()[1];
    b2 = scale * k.shelfB()[2];
    a1 = k.shelfA()[0];
    a2 = k.shelfA()[1];
    c1 = k.highPassA()[0];
    c2 = k.highPassA()[1];
  }

  /** Filters {@code x[from … to)}; sums and peak are those of this stretch. */
  void run(double[] x, int from, int to) {
    double s1 = z1;
    double s2 = z2;
    double s3 = z3;
    double s4 = z4;
    double k = 0;
    double e = 0;
    double s = 0;
    double p = 0;
    int at = from;
    for (int i = from; i < to; i++) {
      double v = x[i];
      double u = b0 * v + s1;
      s1 = b1 * v - a1 * u + s2;
      s2 = b2 * v - a2 * u;
      double y = u + s3;
      s3 = -2 * u - c1 * y + s4;
      s4 = u - c2 * y;
      k += y * y;
      e += v * v;
      s += v;
      double m = Math.abs(v);
      if (m > p) {
        p = m;
        at = i;
      }
    }
    z1 = settle(s1);
    z2 = settle(s2);
    z3 = settle(s3);
    z4 = settle(s4);
    weighted = k;
    energy = e;
    sum = s;
    peak = p;
    peakAt = at;
  }

  private static double settle(double state) {
    return Math.abs(state) < GONE ? 0 : state;
  }
}
