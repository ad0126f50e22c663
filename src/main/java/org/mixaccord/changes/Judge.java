package org.mixaccord.changes;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.TreeSet;
import org.mixaccord.notes.Amount;

/**
 * Judges a change by what comparing two bounces found of its part. Only changes of level, and only
 * where the parts are there as files of their own: everything else cannot be told from the sound of
 * a whole mix, and is not guessed.
 *
 * <p>Source: docs/review-rules.md, "What moved". Linear in the figures.
 */
public final class Judge {
  /** Level changes below this cannot be told from the arithmetic of a render. */
  static final double FLOOR_DB = 0.15;

  /** A figure less sure than this says nothing. */
  static final double MOST_DOUBT_DB = 1.0;

  private Judge() {}

  /**
   * How the part's level moved in one section.
   *
   * @param section its name
   * @param gainChangeDb as delivered, dB; empty when it could not be told
   * @param plusMinusDb how unsure, dB; empty when unknown
   */
  public record Figure(String section, OptionalDouble gainChangeDb, OptionalDouble plusMinusDb) {}

  /**
   * Judges one change.
   *
   * @param aspect of the change
   * @param direction of the change
   * @param amount of the change
   * @param overallGainDb how much louder the whole newer bounce is, dB
   * @param figures the part's figures in the places of the change; empty without the part's files
   */
  public static Verdict judge(
      String aspect,
      String direction,
      Optional<Amount> amount,
      double overallGainDb,
      List<Figure> figures) {
    boolean up = direction.equals("up");
    if (!aspect.equals("level") || !(up || direction.equals("down"))) {
      return Verdict.cannotTell("Only louder and quieter can be measured so far; listen to this.");
    }
    Optional<Expectation> expected = Expectation.of(amount, up);
    if (expected.isEmpty()) {
      return Verdict.cannotTell("The amount asked for is not one of level.");
    }
    List<Figure> known =
        figures.stream()
            .filter(f -> f.gainChangeDb().isPresent())
            .filter(f -> f.plusMinusDb().orElse(0) <= MOST_DOUBT_DB)
            .toList();
    if (known.isEmpty()) {
      return Verdict.cannotTell("Both mixes need a file of this part that plays here.");
    }
    Set<Seen> seen = new TreeSet<>();
    for (Figure figure : known) {
      double moved = (figure.gainChangeDb().getAsDouble() - overallGainDb) * (up ? 1 : -1);
      seen.add(one(moved, expected.get(), figure.plusMinusDb().orElse(0)));
    }
    double delivered =
        known.stream().mapToDouble(f -> f.gainChangeDb().getAsDouble()).average().orElseThrow();
    double measured = delivered - overallGainDb;
    return new Verdict(
        together(seen),
        OptionalDouble.of(measured),
        OptionalDouble.of(delivered),
        words(known, measured, delivered, figures.size() - known.size()));
  }

  private static Seen one(double movedDb, Expectation expected, double plusMinusDb) {
    double floor = Math.max(FLOOR_DB, 2 * plusMinusDb);
    if (movedDb <= -floor) {
      return Seen.OPPOSITE;
    }
    if (movedDb < Math.min(floor, expected.leastDb())) {
      return Seen.NOT_SEEN;
    }
    if (movedDb < expected.leastDb()) {
      return Seen.PARTLY;
    }
    return movedDb <= expected.mostDb() ? Seen.AS_ASKED : Seen.TOO_FAR;
  }

  /** Sections that agree speak with one voice; otherwise the least favourable true word is used. */
  private static Seen together(Set<Seen> seen) {
    if (seen.size() == 1) {
      return seen.iterator().next();
    }
    if (seen.equals(Set.of(Seen.AS_ASKED, Seen.TOO_FAR))) {
      return Seen.TOO_FAR;
    }
    if (seen.equals(Set.of(Seen.OPPOSITE, Seen.NOT_SEEN))) {
      return Seen.OPPOSITE;
    }
    return Seen.PARTLY;
  }

  private static String words(List<Figure> known, double measured, double delivered, int unknown) {
    String where = String.join(", ", known.stream().map(Figure::section).toList());
    return String.format(
        Locale.ROOT,
        "%s in %s with the overall level removed (%s as delivered)%s.",
        signed(measured),
        where,
        signed(delivered),
        unknown == 0 ? "" : "; it could not be told in " + unknown + " more");
  }

  private static String signed(double db) {
    return String.format(Locale.ROOT, "%+.1f dB", db).replace('-', '−');
  }
}
