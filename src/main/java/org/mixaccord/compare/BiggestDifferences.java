package org.mixaccord.compare;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.OptionalDouble;

/**
 * The few things worth saying of a comparison, in short sentences, the largest first: with figures
 * for engineers, without for everybody else. Times are m:ss on this bounce.
 */
public final class BiggestDifferences {
  private static final double LEAST_PART_DB = 0.1;
  private static final double LEAST_PAN = 0.05;
  private static final double LEAST_LOUDER_LU = 0.2;
  private static final double BANDS_DOWN_DB = 40;
  private static final double BASS_BELOW_HZ = 250;
  private static final double TREBLE_ABOVE_HZ = 2000;

  /** Shorter edits of the form are for engineers. */
  private static final double LEAST_EDIT_SECONDS = 0.25;

  private BiggestDifferences() {}

  /**
   * Sentences with figures and, where stems told them, parts. Levels are beyond the overall level
   * difference, which has its own sentence.
   *
   * @param most how many sentences at most
   */
  public static List<String> forEngineers(Comparison comparison, int most) {
    List<String> out = new ArrayList<>();
    if (comparison.likeness() == Likeness.NOT_COMPARABLE) {
      out.add("The two do not match in time, so nothing can be compared.");
    }
    for (Comparison.Cause cause : comparison.causes()) {
      out.add("Everywhere: " + cause.detail() + ".");
    }
    boolean tone = toneMoved(comparison);
    FormEdits.of(comparison).forEach(edit -> out.add("Form: " + edit.sentence() + "."));
    for (Comparison.SectionDifference s : largestFirst(comparison)) {
      switch (s.difference()) {
        case CHANGED, UNCERTAIN -> {
          if (!tone && !MonoFold.explains(comparison, s)) {
            out.add(place(s) + ": " + figures(s, comparison.gainDb()) + ".");
          }
        }
        case ONLY_HERE -> out.add(place(s) + ": only in this mix.");
        case ONLY_THERE -> out.add(s.name() + ": only in the other mix.");
        case UNCHANGED -> {}
      }
    }
    return List.copyOf(out.subList(0, Math.min(most, out.size())));
  }

  /**
   * Sentences without figures and without parts.
   *
   * @param most how many sentences at most
   */
  public static List<String> forListeners(Comparison comparison, int most) {
    List<String> out = new ArrayList<>();
    switch (comparison.likeness()) {
      case IDENTICAL, SAME_AUDIO -> out.add("Both mixes are the same audio.");
      case REQUANTISED -> out.add("Both mixes are the same, only stored differently.");
      case NOT_COMPARABLE -> out.add("The two do not match, so they cannot be compared.");
      case LEVEL_ONLY, SECTIONS, REWORK -> {
        if (Math.abs(comparison.gainDb()) >= LEAST_LOUDER_LU) {
          out.add("The whole mix is " + louder(comparison.gainDb()) + ".");
        }
        if (toneMoved(comparison)) {
          out.add("The whole mix is " + tone(comparison) + ".");
        }
        comparison.causes().stream()
            .filter(cause -> cause.code() == CauseCode.MONO)
            .forEach(cause -> out.add(capital(cause.detail()) + "."));
        for (FormEdits.Edit edit : FormEdits.of(comparison)) {
          if (edit.seconds() >= LEAST_EDIT_SECONDS) {
            out.add(capital(edit.sentence()) + ".");
          }
        }
      }
    }
    boolean tone = toneMoved(comparison);
    for (Comparison.SectionDifference s : largestFirst(comparison)) {
      switch (s.difference()) {
        case CHANGED -> {
          double beyond = s.loudnessChangeLu().orElse(0) - comparison.gainDb();
          if (!tone && !MonoFold.explains(comparison, s)) {
            out.add(
                place(s)
                    + (Math.abs(beyond) >= LEAST_LOUDER_LU
                        ? " changed and is " + louder(beyond) + "."
                        : " changed."));
          }
        }
        case UNCERTAIN -> {
          if (comparison.likeness() != Likeness.NOT_COMPARABLE) {
            out.add(place(s) + " may have changed.");
          }
        }
        case ONLY_HERE -> out.add(place(s) + " is new.");
        case ONLY_THERE -> out.add(s.name() + " was taken out.");
        case UNCHANGED -> {}
      }
    }
    return List.copyOf(out.subList(0, Math.min(most, out.size())));
  }

  private static List<Comparison.SectionDifference> largestFirst(Comparison comparison) {
    List<Comparison.SectionDifference> sorted = new ArrayList<>(comparison.sections());
    sorted.sort(Comparator.comparingDouble(s -> -size(s)));
    return sorted;
  }

  static double size(Comparison.SectionDifference s) {
    return switch (s.difference()) {
      case ONLY_HERE, ONLY_THERE -> 0;
      case CHANGED -> s.residualDb().orElse(-200);
      case UNCERTAIN -> s.residualDb().orElse(-200) - 200;
      case UNCHANGED -> -1000;
    };
  }

  static String place(Comparison.SectionDifference s) {
    if (s.from().isEmpty() || s.to().isEmpty()) {
      return s.name();
    }
    return s.name()
        + " ("
        + Figures.time(s.from().getAsDouble())
        + "–"
        + Figures.time(s.to().getAsDouble())
        + ")";
  }

  static String figures(Comparison.SectionDifference s, double gainDb) {
    List<String> words = new ArrayList<>(parts(s, gainDb));
    if (words.isEmpty()) {
      s.loudnessChangeLu()
          .ifPresent(lu -> words.add("loudness " + Figures.signed(lu - gainDb, 1) + " LU"));
      strongestBand(s, gainDb)
          .ifPresent(
              b ->
                  words.add(
                      "most at "
                          + Figures.hertz(b.centreHz())
                          + " ("
                          + Figures.signed(b.changeDb().orElse(0) - gainDb, 1)
                          + " dB)"));
    }
    s.residualDb().ifPresent(r -> words.add("what differs lies at " + Figures.plain(r, 1) + " dB"));
    String sentence = String.join(", ", words);
    return s.difference() == Difference.UNCERTAIN ? "cannot be told; " + sentence : sentence;
  }

  private static List<String> parts(Comparison.SectionDifference s, double gainDb) {
    List<Comparison.ElementDifference> moved = new ArrayList<>(s.elements());
    moved.sort(
        Comparator.comparingDouble(e -> -Math.abs(e.gainChangeDb().orElse(gainDb) - gainDb)));
    List<String> words = new ArrayList<>();
    for (Comparison.ElementDifference e : moved) {
      if (e.present() != e.presentThere()) {
        words.add(e.element() + (e.present() ? " is new here" : " is no longer there"));
      }
    }
    for (Comparison.ElementDifference e : moved) {
      OptionalDouble change = e.gainChangeDb();
      double least = Math.max(LEAST_PART_DB, e.plusMinusDb().orElse(0));
      if (change.isPresent() && Math.abs(change.getAsDouble() - gainDb) >= least) {
        words.add(e.element() + " " + Figures.signed(change.getAsDouble() - gainDb, 1) + " dB");
      }
      double pan = e.panChange().orElse(0);
      if (Math.abs(pan) >= LEAST_PAN) {
        words.add(e.element() + " further " + (pan > 0 ? "right" : "left"));
      }
      double lag = e.lagSeconds().orElse(0);
      if (lag != 0) {
        words.add(
            e.element()
                + " "
                + Figures.plain(Math.abs(lag) * 1000, 0)
                + " ms "
                + (lag > 0 ? "later" : "earlier"));
      }
    }
    return words;
  }

  private static java.util.Optional<Comparison.BandDifference> strongestBand(
      Comparison.SectionDifference s, double gainDb) {
    double loudest =
        s.bands().stream().mapToDouble(b -> b.residualDb().orElse(-300)).max().orElse(-300);
    return s.bands().stream()
        .filter(b -> b.changeDb().isPresent())
        .filter(b -> b.residualDb().orElse(-300) > loudest - BANDS_DOWN_DB)
        .max(Comparator.comparingDouble(b -> Math.abs(b.changeDb().orElse(gainDb) - gainDb)));
  }

  /** An equaliser on the whole mix explains every section: it is said once. */
  private static boolean toneMoved(Comparison comparison) {
    return comparison.causes().stream().anyMatch(c -> c.code() == CauseCode.TONE);
  }

  private static String tone(Comparison comparison) {
    double bass = mean(comparison, 60, BASS_BELOW_HZ);
    double treble = mean(comparison, TREBLE_ABOVE_HZ, 12500);
    if (Math.max(Math.abs(bass), Math.abs(treble)) < LEAST_LOUDER_LU) {
      return "a little different in tone";
    }
    return Math.abs(treble) >= Math.abs(bass)
        ? treble > 0 ? "brighter" : "darker"
        : bass > 0 ? "fuller in the bass" : "thinner in the bass";
  }

  /** Mean change of the bands between two frequencies, beyond the overall level. */
  private static double mean(Comparison comparison, double fromHz, double toHz) {
    return comparison.whole().bands().stream()
        .filter(b -> b.centreHz() >= fromHz && b.centreHz() <= toHz)
        .filter(b -> b.changeDb().isPresent())
        .mapToDouble(b -> b.changeDb().getAsDouble() - comparison.gainDb())
        .average()
        .orElse(0);
  }

  private static String capital(String words) {
    return words.substring(0, 1).toUpperCase(java.util.Locale.ROOT) + words.substring(1);
  }

  private static String louder(double db) {
    String how = Math.abs(db) < 1 ? "a little " : Math.abs(db) < 3 ? "" : "much ";
    return how + (db > 0 ? "louder" : "quieter");
  }
}
