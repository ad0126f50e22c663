package org.mixaccord.notes;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.mixaccord.notes.Token.Kind;

/** Reads numbers with their units: "1.5 dB", "4 or 5 seconds", "half a dB", "1k", "a dB or two". */
final class Amounts {
  /** An amount and how many tokens it takes. */
  record Found(Amount amount, int length) {}

  private static final Map<String, String> UNITS =
      Map.ofEntries(
          Map.entry("db", "dB"),
          Map.entry("dbs", "dB"),
          Map.entry("decibel", "dB"),
          Map.entry("decibels", "dB"),
          Map.entry("%", "%"),
          Map.entry("percent", "%"),
          Map.entry("pct", "%"),
          Map.entry("ms", "ms"),
          Map.entry("msec", "ms"),
          Map.entry("millisecond", "ms"),
          Map.entry("milliseconds", "ms"),
          Map.entry("s", "s"),
          Map.entry("sec", "s"),
          Map.entry("secs", "s"),
          Map.entry("seconds", "s"),
          Map.entry("second", "s"),
          Map.entry("bar", "bars"),
          Map.entry("bars", "bars"),
          Map.entry("measure", "bars"),
          Map.entry("measures", "bars"),
          Map.entry("beat", "beats"),
          Map.entry("beats", "beats"),
          Map.entry("hz", "Hz"),
          Map.entry("khz", "kHz"),
          Map.entry("k", "kHz"));
  private static final Map<String, Double> WORDS =
      Map.ofEntries(
          Map.entry("one", 1.0),
          Map.entry("two", 2.0),
          Map.entry("couple", 2.0),
          Map.entry("three", 3.0),
          Map.entry("four", 4.0),
          Map.entry("five", 5.0),
          Map.entry("six", 6.0),
          Map.entry("seven", 7.0),
          Map.entry("eight", 8.0),
          Map.entry("nine", 9.0),
          Map.entry("ten", 10.0),
          Map.entry("twelve", 12.0),
          Map.entry("sixteen", 16.0));

  private static final Set<String> MOVED = Set.of("up", "down", "by");

  private static final Set<String> SHIFTED =
      Set.of(
          "late", "later", "early", "earlier", "sooner", "longer", "shorter", "ahead", "behind",
          "too");

  private Amounts() {}

  /** A number with its unit at this token, if there is one. */
  static Optional<Found> at(List<Token> tokens, int i) {
    Optional<Found> half = half(tokens, i);
    if (half.isPresent()) {
      return half;
    }
    int from = i;
    if (is(tokens, i, "a") || is(tokens, i, "another")) {
      boolean couple = is(tokens, i + 1, "couple");
      String unit = unit(tokens, i + 1);
      if (!couple
          && unit != null
          && (unit.equals("dB")
              || is(tokens, i, "another") && !unit.equals("beats")
              || shifted(tokens, i + 2)
              || i > 0 && (tokens.get(i - 1).is("back") || tokens.get(i - 1).is("by"))
              || orTwo(tokens, i + 2))) {
        boolean oneAndHalf =
            is(tokens, i + 2, "and") && is(tokens, i + 3, "a") && is(tokens, i + 4, "half");
        if (oneAndHalf) {
          return Optional.of(new Found(amount(1.5, -1, unit), 5));
        }
        boolean range = orTwo(tokens, i + 2);
        return Optional.of(
            new Found(range ? amount(1, 2, unit) : amount(1, -1, unit), range ? 4 : 2));
      }
      if (!couple && !(is(tokens, i, "another") && number(tokens, i + 1) >= 0)) {
        return Optional.empty();
      }
      from = i + 1;
    }
    double value = number(tokens, from);
    if (value < 0) {
      return Optional.empty();
    }
    int next = from + 1;
    boolean more = is(tokens, next, "more") || is(tokens, next, "extra");
    if (more && unit(tokens, next + 1) != null) {
      next++;
    }
    if (is(tokens, next, "of") && is(tokens, from, "couple")) {
      next++;
    }
    String unit = unit(tokens, next);
    boolean decade =
        "s".equals(unit)
            && value >= 50
            && value % 10 == 0
            && tokens.get(from).end() == tokens.get(next).start();
    if (decade) {
      // "a big 80s thing"
      return Optional.empty();
    }
    if (unit != null) {
      if (orTwo(tokens, next + 1) && value == 1) {
        return Optional.of(new Found(amount(1, 2, unit), next + 3 - i));
      }
      int hyphen = next + 1;
      if (hyphen < tokens.size() && tokens.get(hyphen).is(Kind.DASH)
          || is(tokens, hyphen, "to")
          || is(tokens, hyphen, "or")) {
        double to = number(tokens, hyphen + 1);
        if (to > value && unit.equals(unit(tokens, hyphen + 2))) {
          return Optional.of(new Found(amount(value, to, unit), hyphen + 3 - i));
        }
      }
      boolean andHalf =
          is(tokens, next + 1, "and") && is(tokens, next + 2, "a") && is(tokens, next + 3, "half");
      if (andHalf) {
        // "a dB and a half"
        return Optional.of(new Found(amount(value + 0.5, -1, unit), next + 4 - i));
      }
      return Optional.of(new Found(amount(value, -1, unit), next + 1 - i));
    }
    boolean joined =
        next < tokens.size()
            && (tokens.get(next).is(Kind.DASH)
                || is(tokens, next, "to")
                || is(tokens, next, "or")
                || tokens.get(next).is(Kind.MARK) && tokens.get(next).norm().equals("/"));
    if (joined) {
      double to = number(tokens, next + 1);
      String unitOfBoth = unit(tokens, next + 2);
      if (to > value && unitOfBoth != null) {
        return Optional.of(new Found(amount(value, to, unitOfBoth), next + 3 - i));
      }
      boolean signedRange =
          to > value
              && tokens.get(from).signed() != 0
              && to <= 12
              && (!is(tokens, next, "to") || tokens.get(next + 1).signed() != 0);
      boolean moved =
          i > 0
              && to > value
              && to <= 12
              && MOVED.contains(tokens.get(i - 1).norm())
              && is(tokens, next, "to");
      // "down 1 to 1.5"
      if (signedRange || moved || (to > value && is(tokens, next, "or") && to <= 12)) {
        return Optional.of(new Found(amount(value, to, "dB"), next + 2 - i));
      }
    }
    return Optional.empty();
  }

  private static Optional<Found> half(List<Token> tokens, int i) {
    if (!is(tokens, i, "half")) {
      return Optional.empty();
    }
    int next = is(tokens, i + 1, "a") ? i + 2 : i + 1;
    String unit = unit(tokens, next);
    return unit == null
        ? Optional.empty()
        : Optional.of(new Found(amount(0.5, -1, unit), next + 1 - i));
  }

  private static Amount amount(double value, double to, String unit) {
    double factor = unit.equals("kHz") ? 1000 : unit.equals("beats") ? 0.25 : 1;
    String named = unit.equals("kHz") ? "Hz" : unit.equals("beats") ? "bars" : unit;
    return to < 0
        ? Amount.of(value * factor, named)
        : Amount.range(value * factor, to * factor, named);
  }

  private static boolean orTwo(List<Token> tokens, int i) {
    return is(tokens, i, "or")
        && (is(tokens, i + 1, "two")
            || is(tokens, i + 1, "2")
            || i + 1 < tokens.size()
                && tokens.get(i + 1).is(Kind.NUMBER)
                && tokens.get(i + 1).value() == 2);
  }

  /** "A beat late", "a bar early". */
  private static boolean shifted(List<Token> tokens, int i) {
    return i < tokens.size() && SHIFTED.contains(tokens.get(i).norm());
  }

  private static boolean is(List<Token> tokens, int i, String word) {
    return i < tokens.size() && tokens.get(i).is(word);
  }

  private static String unit(List<Token> tokens, int i) {
    return i < tokens.size() && tokens.get(i).is(Kind.WORD)
        ? UNITS.get(tokens.get(i).norm())
        : null;
  }

  private static double number(List<Token> tokens, int i) {
    if (i >= tokens.size()) {
      return -1;
    }
    Token token = tokens.get(i);
    if (token.is(Kind.NUMBER)) {
      return token.value();
    }
    return token.is(Kind.WORD) ? WORDS.getOrDefault(token.norm(), -1.0) : -1;
  }
}
