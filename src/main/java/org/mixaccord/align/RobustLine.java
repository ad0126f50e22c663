package org.mixaccord.align;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.DoubleStream;

/**
 * A straight line through points of which some may be far off: median of pairwise slopes, then
 * least squares over the points near that line.
 *
 * @param intercept value at 0
 * @param slope growth a unit
 * @param slopeError standard error of the slope
 */
record RobustLine(double intercept, double slope, double slopeError) {
  private static final int MOST_POINTS = 200;

  double at(double x) {
    return intercept + slope * x;
  }

  /**
   * Fits the line.
   *
   * @param given pairs {x, y}, at least one
   */
  static RobustLine through(List<double[]> given) {
    List<double[]> points = thinned(given);
    int n = points.size();
    double[] slopes = new double[n * (n - 1) / 2];
    int count = 0;
    for (int i = 0; i < n; i++) {
      for (int j = i + 1; j < n; j++) {
        double dx = points.get(j)[0] - points.get(i)[0];
        if (dx != 0) {
          slopes[count++] = (points.get(j)[1] - points.get(i)[1]) / dx;
        }
      }
    }
    double slope = count == 0 ? 0 : median(Arrays.stream(slopes, 0, count));
    double middle = median(points.stream().mapToDouble(p -> p[1] - slope * p[0]));
    double spread =
        median(points.stream().mapToDouble(p -> Math.abs(p[1] - middle - slope * p[0])));
    double near = Math.max(4 * spread, 1e-4);
    List<double[]> inliers = new ArrayList<>();
    for (double[] p : given) {
      if (Math.abs(p[1] - middle - slope * p[0]) <= near) {
        inliers.add(p);
      }
    }
    return inliers.size() < 3 ? new RobustLine(middle, slope, 0) : leastSquares(inliers);
  }

  static double median(DoubleStream values) {
    double[] sorted = values.sorted().toArray();
    int n = sorted.length;
    return n % 2 == 1 ? sorted[n / 2] : (sorted[n / 2 - 1] + sorted[n / 2]) / 2;
  }

  private static List<double[]> thinned(List<double[]> points) {
    if (points.size() <= MOST_POINTS) {
      return points;
    }
    List<double[]> out = new ArrayList<>();
    for (int i = 0; i < MOST_POINTS; i++) {
      out.add(points.get((int) ((long) i * points.size() / MOST_POINTS)));
    }
    return out;
  }

  private static RobustLine leastSquares(List<double[]> points) {
    int n = points.size();
    double meanX = points.stream().mapToDouble(p -> p[0]).sum() / n;
    double meanY = points.stream().mapToDouble(p -> p[1]).sum() / n;
    double xx = 0;
    double xy = 0;
    for (double[] p : points) {
      xx += (p[0] - meanX) * (p[0] - meanX);
      xy += (p[0] - meanX) * (p[1] - meanY);
    }
    double slope = xx > 0 ? xy / xx : 0;
    double rest = 0;
    for (double[] p : points) {
      double d = p[1] - meanY - slope * (p[0] - meanX);
      rest += d * d;
    }
    double error = xx > 0 ? Math.sqrt(rest / (n - 2) / xx) : 0;
    return new RobustLine(meanY - slope * meanX, slope, error);
  }
}
