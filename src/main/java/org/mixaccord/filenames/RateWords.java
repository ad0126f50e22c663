package org.mixaccord.filenames;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalInt;
import org.mixaccord.filenames.Board.Claim;

/** Finds sample rate and bit depth: 48k, 44.1, 24bit, 4824, 96_24, 32f. */
final class RateWords {
  private static final Map<String, Integer> RATES =
      Map.ofEntries(
          Map.entry("44", 44100),
          Map.entry("44.1", 44100),
          Map.entry("441", 44100),
          Map.entry("48", 48000),
          Map.entry("88", 88200),
          Map.entry("88.2", 88200),
          Map.entry("882", 88200),
          Map.entry("96", 96000),
          Map.entry("176", 176400),
          Map.entry("176.4", 176400),
          Map.entry("1764", 176400),
          Map.entry("192", 192000));
  private static final List<String> DEPTHS = List.of("16", "24", "32");
  private static final Map<String, int[]> PAIRS = pairs();

  private final Board board;
  private OptionalInt rateHz = OptionalInt.empty();
  private OptionalInt bits = OptionalInt.empty();

  private RateWords(Board board) {
    this.board = board;
  }

  /** Takes what speaks of rate and depth from the board. */
  static RateWords take(Board board) {
    RateWords words = new RateWords(board);
    for (int i = 0; i < board.size(); i++) {
      words.withUnit(i);
    }
    for (int i = 0; i < board.size(); i++) {
      words.alone(i);
    }
    for (int i = 0; i < board.size(); i++) {
      words.beside(i);
    }
    return words;
  }

  OptionalInt rateHz() {
    return rateHz;
  }

  OptionalInt bits() {
    return bits;
  }

  private boolean number(int i) {
    return board.free(i) && (board.at(i).digits() || board.at(i).decimal());
  }

  private void withUnit(int i) {
    if (!number(i) || !board.free(i + 1)) {
      return;
    }
    String value = board.at(i).text();
    String unit = board.at(i + 1).norm();
    boolean glued = board.at(i + 1).glued();
    boolean kilo = unit.equals("khz") || (glued && unit.equals("k"));
    if (kilo && RATES.containsKey(value)) {
      rate(RATES.get(value), i, i + 2);
    } else if ((unit.equals("hz") || kilo) && exact(value) > 0) {
      rate(exact(value), i, i + 2);
    } else if (DEPTHS.contains(value)
        && (unit.equals("bit")
            || unit.equals("bits")
            || unit.equals("float")
            || (glued && (unit.equals("b") || unit.equals("f") || unit.equals("fp"))))) {
      boolean more = board.free(i + 2) && board.at(i + 2).norm().equals("float");
      depth(Integer.parseInt(value), i, more ? i + 3 : i + 2);
    }
  }

  private void alone(int i) {
    if (!number(i)) {
      return;
    }
    String value = board.at(i).text();
    int[] pair = PAIRS.get(value);
    if (exact(value) > 0) {
      rate(exact(value), i, i + 1);
    } else if (pair != null) {
      rate(pair[0], i, i + 1);
      depth(pair[1], i, i + 1);
    } else if (board.at(i).decimal() && RATES.containsKey(value)) {
      rate(RATES.get(value), i, i + 1);
    } else if (number(i + 1)) {
      pair = PAIRS.get(value + board.at(i + 1).text());
      if (pair != null && !board.at(i + 1).before().contains(" - ")) {
        rate(pair[0], i, i + 2);
        depth(pair[1], i, i + 2);
      }
    }
  }

  /** A bare 24 beside a rate, a bare 48 beside a depth. */
  private void beside(int i) {
    if (!number(i) || !(board.is(i - 1, Claim.RATE) || board.is(i + 1, Claim.RATE))) {
      return;
    }
    String value = board.at(i).text();
    if (bits.isEmpty() && DEPTHS.contains(value)) {
      depth(Integer.parseInt(value), i, i + 1);
    } else if (rateHz.isEmpty() && RATES.containsKey(value)) {
      rate(RATES.get(value), i, i + 1);
    }
  }

  private void rate(int hz, int from, int to) {
    rateHz = OptionalInt.of(hz);
    board.claim(from, to, Claim.RATE);
  }

  private void depth(int depth, int from, int to) {
    bits = OptionalInt.of(depth);
    board.claim(from, to, Claim.RATE);
  }

  private static int exact(String value) {
    return RATES.values().stream()
        .filter(hz -> value.equals(String.valueOf(hz)))
        .findFirst()
        .orElse(0);
  }

  private static Map<String, int[]> pairs() {
    Map<String, int[]> pairs = new HashMap<>();
    RATES.forEach(
        (rate, hz) -> {
          for (String depth : DEPTHS) {
            pairs.put(rate + depth, new int[] {hz, Integer.parseInt(depth)});
            pairs.put(depth + rate, new int[] {hz, Integer.parseInt(depth)});
            pairs.put(rate + "." + depth, new int[] {hz, Integer.parseInt(depth)});
            pairs.put(depth + "." + rate, new int[] {hz, Integer.parseInt(depth)});
          }
        });
    return pairs;
  }
}
