package org.mixaccord.compare;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.OptionalDouble;
import java.util.stream.Collectors;

/**
 * What a pass is beside an earlier mix, for whoever has to know whether everything was recalled:
 * one to a few sentences, and the places to listen to.
 *
 * @param words the sentences; levels in dB, times m:ss on this bounce
 * @param places where the two differ or may differ, the largest difference first
 */
public record Recall(String words, List<Place> places) {
  /** More sections than this are named, but not described, in the sentences. */
  private static final int MOST_DESCRIBED = 3;

  /** Two files of one mix that null no further than this are no clean copies (dB). */
  private static final double POOR_NULL_DB = -40;

  private static final double WHOLE_PPM = 10;

  public Recall {
    places = List.copyOf(places);
  }

  /**
   * One place.
   *
   * @param name the section's
   * @param words what is different there
   * @param from start on this bounce, seconds; empty where it is only in the other
   * @param to end on this bounce, seconds; empty where it is only in the other
   * @param otherFrom start on the other bounce, seconds; empty where it is only here
   * @param otherTo end on the other bounce, seconds; empty where it is only here
   */
  public record Place(
      String name,
      String words,
      OptionalDouble from,
      OptionalDouble to,
      OptionalDouble otherFrom,
      OptionalDouble otherTo) {}

  /** Puts a comparison into words. */
  public static Recall of(Comparison c) {
    return switch (c.likeness()) {
      case IDENTICAL -> new Recall("The same audio, sample for sample.", List.of());
      case SAME_AUDIO -> new Recall(sameAudio(c), List.of());
      case NOT_COMPARABLE ->
          new Recall(
              "Another mix altogether: the music of the two does not run together anywhere.",
              List.of());
      case REQUANTISED, LEVEL_ONLY ->
          new Recall(joined("The same mix.", throughout(c), nulls(c)), List.of());
      case SECTIONS ->
          new Recall(joined(except(c), doubtful(c), throughout(c), restNulls(c)), places(c));
      case REWORK -> rework(c);
    };
  }

  private static String sameAudio(Comparison c) {
    List<FormEdits.Edit> edits = FormEdits.of(c);
    return edits.isEmpty()
        ? "The same audio, stored in another number format."
        : "The same audio; only silence at an end differs: " + list(edits) + ".";
  }

  private static Recall rework(Comparison c) {
    boolean folded =
        !c.sections().isEmpty()
            && c.sections().stream()
                .allMatch(s -> s.difference() == Difference.UNCHANGED || MonoFold.explains(c, s));
    if (FormEdits.of(c).isEmpty() && (has(c, CauseCode.TONE) || folded)) {
      return new Recall(joined("The same mix, treated as a whole.", throughout(c)), List.of());
    }
    List<String> same =
        c.sections().stream()
            .filter(s -> s.difference() == Difference.UNCHANGED)
            .map(Comparison.SectionDifference::name)
            .toList();
    List<String> doubt =
        c.sections().stream()
            .filter(s -> s.difference() == Difference.UNCERTAIN)
            .map(Comparison.SectionDifference::name)
            .toList();
    String head =
        !same.isEmpty()
            ? "Reworked: only " + names(same) + (same.size() == 1 ? " is" : " are") + " as before."
            : doubt.size() == c.sections().size() && !doubt.isEmpty()
                ? "Reworked, or played anew: no section can be told to be as before."
                : "Reworked: no section is as before.";
    return new Recall(joined(head, form(c), throughout(c)), places(c));
  }

  private static String except(Comparison c) {
    List<Comparison.SectionDifference> changed =
        largestFirst(c).stream().filter(s -> s.difference() != Difference.UNCERTAIN).toList();
    List<FormEdits.Edit> edits = FormEdits.of(c);
    if (changed.isEmpty()) {
      if (!edits.isEmpty()) {
        return "The same except the form: " + list(edits) + ".";
      }
      if (!largestFirst(c).isEmpty()) {
        return "The same as far as it can be told.";
      }
      return c.sections().isEmpty()
          ? "The same in part. Name the sections, and it can be said where."
          : "The same in every named section, not between them.";
    }
    String head =
        changed.size() > MOST_DESCRIBED
            ? names(changed.stream().map(Comparison.SectionDifference::name).toList())
            : changed.stream()
                .map(s -> BiggestDifferences.place(s) + ": " + described(c, s))
                .collect(Collectors.joining("; "));
    return joined("The same except " + head + ".", form(c));
  }

  private static String form(Comparison c) {
    List<FormEdits.Edit> edits = FormEdits.of(c);
    return edits.isEmpty() ? "" : "Form: " + list(edits) + ".";
  }

  private static String doubtful(Comparison c) {
    List<String> doubt =
        c.sections().stream()
            .filter(s -> s.difference() == Difference.UNCERTAIN)
            .map(Comparison.SectionDifference::name)
            .toList();
    return doubt.isEmpty() ? "" : "Whether " + names(doubt) + " changed cannot be told.";
  }

  private static String described(Comparison c, Comparison.SectionDifference s) {
    return switch (s.difference()) {
      case ONLY_HERE -> "only in this one";
      case ONLY_THERE -> "only in the other one";
      case CHANGED, UNCERTAIN, UNCHANGED -> BiggestDifferences.figures(s, c.gainDb());
    };
  }

  private static List<Place> places(Comparison c) {
    return largestFirst(c).stream()
        .map(
            s -> new Place(s.name(), described(c, s), s.from(), s.to(), s.otherFrom(), s.otherTo()))
        .toList();
  }

  private static List<Comparison.SectionDifference> largestFirst(Comparison c) {
    return c.sections().stream()
        .filter(s -> s.difference() != Difference.UNCHANGED)
        .sorted(Comparator.comparingDouble(s -> -BiggestDifferences.size(s)))
        .toList();
  }

  /** What holds everywhere, each cause once. */
  private static String throughout(Comparison c) {
    List<String> words = new ArrayList<>();
    for (Comparison.Cause cause : c.causes()) {
      words.add(cause(cause));
    }
    return words.isEmpty() ? "" : "Throughout: " + String.join("; ", words) + ".";
  }

  private static String cause(Comparison.Cause cause) {
    double value = cause.value().orElse(0);
    return switch (cause.code()) {
      case OVERALL_GAIN ->
          Figures.plain(Math.abs(value), 2) + " dB " + (value > 0 ? "louder" : "quieter");
      case LIMITER -> "through a limiter, " + cause.detail();
      case RESAMPLED -> "at another rate, " + cause.detail();
      case DRIFT ->
          "runs "
              + Figures.plain(Math.abs(value), Math.abs(value) < WHOLE_PPM ? 1 : 0)
              + " ppm "
              + (value > 0 ? "slow" : "fast");
      case POLARITY -> "polarity is inverted";
      case TONE, MONO, LOSSY_CODING, WRONG_RATE, CHANNELS_SWAPPED, DITHER -> cause.detail();
    };
  }

  /** How far the two cancel, once laid on each other and brought to one level. */
  private static String nulls(Comparison c) {
    return has(c, CauseCode.LIMITER) ? "" : nulls("The two null", c.whole().residualDb());
  }

  /** The same for the sections called unchanged: the worst of them. */
  private static String restNulls(Comparison c) {
    List<Comparison.SectionDifference> same =
        c.sections().stream().filter(s -> s.difference() == Difference.UNCHANGED).toList();
    if (same.isEmpty() || has(c, CauseCode.LIMITER)) {
      return "";
    }
    double worst =
        same.stream()
            .mapToDouble(s -> s.residualDb().orElse(Double.NEGATIVE_INFINITY))
            .max()
            .getAsDouble();
    return nulls(
        "The rest nulls",
        Double.isInfinite(worst) ? OptionalDouble.empty() : OptionalDouble.of(worst));
  }

  private static String nulls(String subject, OptionalDouble residualDb) {
    if (residualDb.isEmpty()) {
      return subject + " to silence.";
    }
    double db = residualDb.getAsDouble();
    return subject + (db > POOR_NULL_DB ? " only to " : " to ") + Figures.plain(db, 0) + " dB.";
  }

  private static boolean has(Comparison c, CauseCode code) {
    return c.causes().stream().anyMatch(cause -> cause.code() == code);
  }

  private static String list(List<FormEdits.Edit> edits) {
    return edits.stream().map(FormEdits.Edit::sentence).collect(Collectors.joining("; "));
  }

  private static String names(List<String> names) {
    int last = names.size() - 1;
    return last == 0
        ? names.get(0)
        : String.join(", ", names.subList(0, last)) + " and " + names.get(last);
  }

  private static String joined(String... sentences) {
    return java.util.Arrays.stream(sentences)
        .filter(s -> !s.isEmpty())
        .collect(Collectors.joining(" "));
  }
}
