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
    keep(s1, s2, s3, s4, k, e, s, p, at);
  }

  /**
   * Filters the same stretch of both channels of a pair, as {@link #run} would one after the other;
   * together they keep the processor busy while each waits for its own last value.
   *
   * @return the sum of the products left · right over the stretch
   */
  static double runPair(KFilter left, KFilter right, double[] x, double[] y, int from, int to) {
    double b0 = left.b0;
    double b1 = left.b1;
    double b2 = left.b2;
    double a1 = left.a1;
    double a2 = left.a2;
    double c1 = left.c1;
    double c2 = left.c2;
    double l1 = left.z1;
    double l2 = left.z2;
    double l3 = left.z3;
    double l4 = left.z4;
    double r1 = right.z1;
    double r2 = right.z2;
    double r3 = right.z3;
    double r4 = right.z4;
    double lk = 0;
    double le = 0;
    double ls = 0;
    double lp = 0;
    double rk = 0;
    double re = 0;
    double rs = 0;
    double rp = 0;
    double product = 0;
    int lat = from;
    int rat = from;
    for (int i = from; i < to; i++) {
      double v = x[i];
      double u = b0 * v + l1;
      l1 = b1 * v - a1 * u + l2;
      l2 = b2 * v - a2 * u;
      double w = u + l3;
      l3 = -2 * u - c1 * w + l4;
      l4 = u - c2 * w;
      lk += w * w;
      le += v * v;
      ls += v;
      double m = Math.abs(v);
      if (m > lp) {
        lp = m;
        lat = i;
      }
      double v2 = y[i];
      double u2 = b0 * v2 + r1;
      r1 = b1 * v2 - a1 * u2 + r2;
      r2 = b2 * v2 - a2 * u2;
      double w2 = u2 + r3;
      r3 = -2 * u2 - c1 * w2 + r4;
      r4 = u2 - c2 * w2;
      rk += w2 * w2;
      re += v2 * v2;
      rs += v2;
      double m2 = Math.abs(v2);
      if (m2 > rp) {
        rp = m2;
        rat = i;
      }
      product += v * v2;
    }
    left.keep(l1, l2, l3, l4, lk, le, ls, lp, lat);
    right.keep(r1, r2, r3, r4, rk, re, rs, rp, rat);
    return product;
  }

  private void keep(
      double s1, double s2, double s3, double s4, double k, double e, double s, double p, int at) {
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
