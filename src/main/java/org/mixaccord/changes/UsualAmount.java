package org.mixaccord.changes;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.mixaccord.notes.Amount;
import org.mixaccord.notes.Wording;

/**
 * What a vague amount usually means, beside the words and never in their place.
 *
 * @param fromDb the least, in dB of level
 * @param toDb the most
 * @param learned whether it comes from what people here called good, not from the table
 * @param good what was measured where somebody here called the same words good, dB
 */
public record UsualAmount(double fromDb, double toDb, boolean learned, List<Good> good) {
  /** So many times it takes before people's own scale replaces the table's. */
  static final int ENOUGH = 3;

  /** How far beyond the least and the most that were good the range reaches. */
  private static final double MARGIN = 0.25;

  /**
   * Something done that was called good.
   *
   * @param asker the person who asked
   * @param name of that person
   * @param word their words of degree
   * @param aspect what it was about
   * @param db by how much it had moved, without sign
   */
  public record Good(String asker, String name, String word, String aspect, double db) {}

  public UsualAmount {
    good = List.copyOf(good);
  }

  /**
   * What these words mean from this person. Their own scale counts before everybody's here, and
   * that before the table of the trade.
   *
   * @param done everything of the project that was called good
   * @return empty for an amount in figures, none at all, a word that neither the table nor anybody
   *     here has a figure for, or an aspect that has no decibels
   */
  public static Optional<UsualAmount> of(
      String asker, String aspect, Optional<Amount> amount, List<Good> done) {
    Optional<String> word = amount.flatMap(Amount::word);
    if (word.isEmpty() || !aspect.equals("level")) {
      return Optional.empty();
    }
    String said = word.get().toLowerCase(Locale.ROOT);
    List<Good> same =
        done.stream()
            .filter(
                g -> g.aspect().equals(aspect) && g.word().toLowerCase(Locale.ROOT).equals(said))
            .toList();
    List<Good> own = same.stream().filter(g -> g.asker().equals(asker)).toList();
    List<Good> scale = own.size() >= ENOUGH ? own : same;
    if (scale.size() >= ENOUGH) {
      double least = scale.stream().mapToDouble(Good::db).min().orElseThrow();
      double most = scale.stream().mapToDouble(Good::db).max().orElseThrow();
      return Optional.of(new UsualAmount(least * (1 - MARGIN), most * (1 + MARGIN), true, scale));
    }
    return Wording.usualRange(amount.get())
        .map(usual -> new UsualAmount(usual.lowDb(), usual.highDb(), false, same));
  }
}
