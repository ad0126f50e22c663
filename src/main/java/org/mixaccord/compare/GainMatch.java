package org.mixaccord.compare;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/**
 * The one level difference that most of the music shares.
 *
 * <p>Every band of every segment gives its own least-squares gain; the answer is the middle of the
 * narrowest group that holds a third of them. Sections and parts that were altered stand apart and
 * do not pull it.
 *
 * @param gain factor from there to here, positive
 */
record GainMatch(double gain) {
  private static final double LEAST_COHERENCE = 0.98;
  private static final double LEVEL_RANGE = 1e-5;
  private static final double SHARE = 1 / 3.0;
  private static final double LOWEST_HZ = 90;
  private static final double HIGHEST_HZ = 9000;

  double decibels() {
    return 20 * Math.log10(gain);
  }

  static GainMatch of(List<BandSums> parts, ThirdOctaves bands) {
    List<double[]> cells = cells(parts, bands, LEAST_COHERENCE);
    if (cells.size() < 6) {
      cells = cells(parts, bands, 0.5);
    }
    if (cells.isEmpty()) {
      double xy = 0;
      double yy = 0;
      for (BandSums part : parts) {
        for (int b = 0; b < part.there.length; b++) {
          xy += part.product[b];
          yy += part.there[b];
        }
      }
      return new GainMatch(xy > 0 && yy > 0 ? xy / yy : 1);
    }
    return new GainMatch(Math.pow(10, densest(cells) / 20));
  }

  private static List<double[]> cells(
      List<BandSums> parts, ThirdOctaves bands, double leastCoherence) {
    List<double[]> cells = new ArrayList<>();
    for (BandSums part : parts) {
      double total = part.totalThere();
      for (int b = 0; b < bands.count(); b++) {
        boolean heard = part.there[b] > total * LEVEL_RANGE && part.product[b] > 0;
        boolean inRange = bands.nominalHz(b) > LOWEST_HZ && bands.nominalHz(b) < HIGHEST_HZ;
        if (heard && inRange && part.coherence(b) >= leastCoherence) {
          cells.add(new double[] {20 * Math.log10(part.product[b] / part.there[b]), part.frames});
        }
      }
    }
    return cells;
  }

  private static double densest(List<double[]> cells) {
    cells.sort(Comparator.comparingDouble(c -> c[0]));
    double all = cells.stream().mapToDouble(c -> c[1]).sum();
    double narrowest = Double.POSITIVE_INFINITY;
    double answer = 0;
    int j = 0;
    double weight = 0;
    for (int i = 0; i < cells.size(); i++) {
      while (j < cells.size() && weight < SHARE * all) {
        weight += cells.get(j++)[1];
      }
      if (weight < SHARE * all) {
        break;
      }
      double width = cells.get(j - 1)[0] - cells.get(i)[0];
      if (width < narrowest) {
        narrowest = width;
        answer = middle(cells.subList(i, j));
      }
      weight -= cells.get(i)[1];
    }
    return answer;
  }

  private static double middle(List<double[]> group) {
    double half = group.stream().mapToDouble(c -> c[1]).sum() / 2;
    for (double[] cell : group) {
      half -= cell[1];
      if (half <= 0) {
        return cell[0];
      }
    }
    return group.get(group.size() - 1)[0];
  }
}
