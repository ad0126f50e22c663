package org.mixaccord.compare;

/**
 * Weights of a sum by least squares from products of its terms with each other and with the target.
 * Terms without power, or that others already make up, get weight 1 and an endless error.
 */
final class LeastSquares {
  /** Terms that add less than this share of their own power to the others are not told apart. */
  private static final double INDEPENDENT = 1e-7;

  private final double[] weights;
  private final double[] errors;
  private final double rest;
  private final double unweightedRest;
  private final double target;

  private LeastSquares(
      double[] weights, double[] errors, double rest, double unweightedRest, double target) {
    this.weights = weights;
    this.errors = errors;
    this.rest = rest;
    this.unweightedRest = unweightedRest;
    this.target = target;
  }

  /**
   * Solves one system.
   *
   * @param products symmetric, row by row, {@code size × size}, the target last
   * @param size number of terms and one
   * @param independent number of independent values the products were summed over
   */
  static LeastSquares solve(double[] products, int size, double independent) {
    int n = size - 1;
    double[][] a = new double[n][2 * n];
    boolean[] used = new boolean[n];
    double most = 0;
    for (int i = 0; i < n; i++) {
      most = Math.max(most, products[i * size + i]);
    }
    for (int i = 0; i < n; i++) {
      used[i] = products[i * size + i] > most * 1e-12;
      for (int j = 0; j < n; j++) {
        a[i][j] = products[i * size + j];
      }
      a[i][n + i] = 1;
    }
    invert(a, n, used, products, size);
    double[] weights = new double[n];
    double[] errors = new double[n];
    double target = products[size * size - 1];
    double rest = target;
    double plain = target;
    for (int i = 0; i < n; i++) {
      weights[i] = used[i] ? 0 : 1;
      for (int j = 0; j < n && used[i]; j++) {
        weights[i] += used[j] ? a[i][n + j] * products[j * size + n] : 0;
      }
    }
    for (int i = 0; i < n; i++) {
      plain -= 2 * products[i * size + n];
      rest -= 2 * weights[i] * products[i * size + n];
      for (int j = 0; j < n; j++) {
        plain += products[i * size + j];
        rest += weights[i] * weights[j] * products[i * size + j];
      }
    }
    rest = Math.max(0, rest);
    for (int i = 0; i < n; i++) {
      errors[i] =
          used[i]
              ? Math.sqrt(rest / Math.max(1, independent - n) * Math.max(0, a[i][n + i]))
              : Double.POSITIVE_INFINITY;
    }
    return new LeastSquares(weights, errors, rest, Math.max(0, plain), target);
  }

  /** Gauss and Jordan on the used rows; a row that turns out to depend on others is let go. */
  private static void invert(double[][] a, int n, boolean[] used, double[] products, int size) {
    for (int p = 0; p < n; p++) {
      if (!used[p]) {
        continue;
      }
      if (a[p][p] < products[p * size + p] * INDEPENDENT) {
        used[p] = false;
        continue;
      }
      double pivot = a[p][p];
      for (int j = 0; j < 2 * n; j++) {
        a[p][j] /= pivot;
      }
      for (int i = 0; i < n; i++) {
        if (i == p || !used[i]) {
          continue;
        }
        double factor = a[i][p];
        for (int j = 0; j < 2 * n && factor != 0; j++) {
          a[i][j] -= factor * a[p][j];
        }
      }
    }
  }

  double weight(int term) {
    return weights[term];
  }

  /** Standard error of a weight. */
  double error(int term) {
    return errors[term];
  }

  /** What the weighted sum leaves of the target. */
  double rest() {
    return rest;
  }

  /** What the plain sum leaves of the target. */
  double unweightedRest() {
    return unweightedRest;
  }

  double target() {
    return target;
  }
}
