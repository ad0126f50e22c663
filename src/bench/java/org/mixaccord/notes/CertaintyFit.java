package org.mixaccord.notes;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeSet;

/**
 * Fits the weights of {@code certainty.tsv} on marked notes and prints the table: penalised maximum
 * likelihood by Newton's method. A change counts as right where part, aspect and direction are.
 */
final class CertaintyFit {
  private static final List<String> SETS =
      List.of("marked", "third", "fifth", "seventh", "eighth", "ninth", "eleventh", "fifteenth", "sixteenth", "seventeenth");
  private static final double PENALTY = 3;
  private static final int STEPS = 80;

  /** What is seen less often is not worth a weight. */
  private static final int OFTEN = 20;

  private record Seen(Map<String, Double> features, boolean right) {}

  private CertaintyFit() {}

  public static void main(String[] args) throws IOException {
    List<Seen> all = new ArrayList<>();
    for (String set : SETS) {
      for (Marked.Note note : Marked.later(set)) {
        all.addAll(seen(note));
      }
    }
    List<String> names = new ArrayList<>();
    TreeSet<String> found = new TreeSet<>();
    all.forEach(s -> found.addAll(s.features.keySet()));
    for (String name : found) {
      long often = all.stream().filter(s -> s.features.containsKey(name)).count();
      if (often >= OFTEN) {
        names.add(name);
      }
    }
    double[] weights = fit(all, names);
    System.out.println("# what is seen of a change <tab> weight in favour; by CertaintyFit");
    for (int k = 0; k < weights.length; k++) {
      System.out.printf(Locale.ROOT, "%s\t%.2f%n", names.get(k), weights[k]);
    }
  }

  private static List<Seen> seen(Marked.Note note) {
    NoteContext context = Marked.context(note.context());
    List<String> asked = new ArrayList<>();
    for (JsonNode change : note.changes()) {
      asked.add(
          wish(
              change.get("element").asText(),
              change.get("aspect").asText(),
              change.get("direction").asText()));
    }
    NoteReader.Parsed parsed = NoteReader.parse(note.text(), context);
    Certainty certainty =
        new Certainty(parsed.settled(), parsed.pieces().segments(), note.text());
    List<Seen> seen = new ArrayList<>();
    for (int i = 0; i < parsed.settled().size(); i++) {
      Draft draft = parsed.settled().get(i);
      boolean right =
          asked.remove(wish(draft.element, draft.pred.aspect(), draft.pred.direction()));
      seen.add(new Seen(certainty.features(i), right));
    }
    return seen;
  }

  private static String wish(String element, String aspect, String direction) {
    return element + "|" + aspect + "|" + direction;
  }

  private static double[] fit(List<Seen> all, List<String> names) {
    int n = names.size();
    double[] w = new double[n];
    for (int step = 0; step < STEPS; step++) {
      double[] gradient = new double[n];
      double[][] hessian = new double[n][n];
      for (Seen seen : all) {
        double[] x = new double[n];
        double sum = 0;
        for (int k = 0; k < n; k++) {
          x[k] = seen.features.getOrDefault(names.get(k), 0.0);
          sum += x[k] * w[k];
        }
        double p = 1 / (1 + Math.exp(-sum));
        for (int k = 0; k < n; k++) {
          gradient[k] += x[k] * ((seen.right ? 1 : 0) - p);
          for (int j = 0; j < n; j++) {
            hessian[k][j] += x[k] * x[j] * p * (1 - p);
          }
        }
      }
      for (int k = 0; k < n; k++) {
        gradient[k] -= PENALTY * w[k];
        hessian[k][k] += PENALTY;
      }
      double[] move = solve(hessian, gradient);
      for (int k = 0; k < n; k++) {
        w[k] += move[k];
      }
    }
    return w;
  }

  /** Gauss's elimination; the matrix is positive definite. */
  private static double[] solve(double[][] a, double[] b) {
    int n = b.length;
    for (int k = 0; k < n; k++) {
      for (int i = k + 1; i < n; i++) {
        double factor = a[i][k] / a[k][k];
        for (int j = k; j < n; j++) {
          a[i][j] -= factor * a[k][j];
        }
        b[i] -= factor * b[k];
      }
    }
    double[] x = new double[n];
    for (int k = n - 1; k >= 0; k--) {
      double sum = b[k];
      for (int j = k + 1; j < n; j++) {
        sum -= a[k][j] * x[j];
      }
      x[k] = sum / a[k][k];
    }
    return x;
  }
}
