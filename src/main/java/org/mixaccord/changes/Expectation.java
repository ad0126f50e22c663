package org.mixaccord.changes;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.mixaccord.notes.Amount;

/**
 * How many decibels count as what was asked for.
 *
 * @param leastDb less than this is only partly
 * @param mostDb more than this is too far
 */
record Expectation(double leastDb, double mostDb) {
  /**
   * What small-amount words usually mean, in dB: a starting guess from the trade, wide on purpose,
   * since people mean a feeling and not a figure. Longer phrases stand before the words they hold.
   */
  private static final List<Map.Entry<List<String>, Expectation>> WORDS =
      List.of(
          Map.entry(
              List.of("quite a bit", "fair bit", "good bit", "decent"), new Expectation(1.5, 5)),
          Map.entry(
              List.of("whisker", "hair", "smidge", "tiny", "smallest"), new Expectation(0.15, 1)),
          Map.entry(
              List.of("touch", "tad", "nudge", "slight", "notch", "click", "step"),
              new Expectation(0.3, 1.6)),
          Map.entry(List.of("half of it", "all of it"), new Expectation(0.3, 12)),
          Map.entry(List.of("bit", "little"), new Expectation(0.35, 2)),
          Map.entry(List.of("lot", "way", "much", "loads", "far", "crank"), new Expectation(2, 9)),
          Map.entry(List.of("some", "noticeabl", "clearly"), new Expectation(1, 4)));

  /** A bare “up” or “down”, or a word the table does not know. */
  private static final Expectation UNSAID = new Expectation(0.35, 3);

  /** A figure is kept to within a quarter, and a little for the ear on top. */
  private static final double SHARE = 0.25;

  private static final double SLACK_DB = 0.25;

  /** What an amount of level means in dB; empty for a unit that says nothing about level. */
  static Optional<Expectation> of(Optional<Amount> amount, boolean up) {
    if (amount.isEmpty()) {
      return Optional.of(UNSAID);
    }
    if (amount.get().word().isPresent()) {
      String word = amount.get().word().get();
      return Optional.of(
          WORDS.stream()
              .filter(row -> row.getKey().stream().anyMatch(word::contains))
              .map(Map.Entry::getValue)
              .findFirst()
              .orElse(UNSAID));
    }
    double value = amount.get().value().getAsDouble();
    double to = amount.get().to().orElse(value);
    return switch (amount.get().unit().orElseThrow()) {
      case "dB" -> Optional.of(around(value, to));
      // Ten per cent louder is 20 lg 1.1.
      case "%" -> Optional.of(around(percent(value, up), percent(to, up)));
      default -> Optional.empty();
    };
  }

  private static Expectation around(double fromDb, double toDb) {
    double low = Math.min(fromDb, toDb);
    double high = Math.max(fromDb, toDb);
    return new Expectation(
        Math.max(low / 2, low * (1 - SHARE) - SLACK_DB), high * (1 + SHARE) + SLACK_DB);
  }

  private static double percent(double value, boolean up) {
    double factor = up ? 1 + value / 100 : Math.max(0.001, 1 - value / 100);
    return Math.abs(20 * Math.log10(factor));
  }
}
