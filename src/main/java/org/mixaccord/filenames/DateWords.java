package org.mixaccord.filenames;

import java.time.DateTimeException;
import java.time.LocalDate;
import java.util.LinkedHashSet;
import java.util.Optional;
import java.util.Set;
import org.mixaccord.filenames.Board.Claim;
import org.mixaccord.filenames.Markers.About;

/** Finds a day: 2031-04-30, 20310430, 310430, 30.4.2031, 30 Apr 2031. */
final class DateWords {
  private static final int FIRST_YEAR = 1990;
  private static final int LAST_YEAR = 2099;

  /** From 44 on two figures are a sample rate in this trade: "Mix 5_24_48" has no day in it. */
  private static final int LAST_SHORT_YEAR = 43;

  private static final int NO_YEAR = -1;

  private DateWords() {}

  /** Takes the day from the board; one that can be read two ways is taken, doubted, and empty. */
  static Optional<LocalDate> take(Board board) {
    for (int i = 0; i < board.size(); i++) {
      for (int length : new int[] {3, 2, 1}) {
        if (!board.free(i, i + length) || numbersTheMix(board, i)) {
          continue;
        }
        Set<LocalDate> days = days(board, i, length);
        if (!days.isEmpty()) {
          board.claim(i, i + length, Claim.DATE);
          if (days.size() == 1) {
            return days.stream().findFirst();
          }
          board.doubt("“" + board.text(i, i + length) + "” can be read as more than one day.");
          return Optional.empty();
        }
      }
    }
    return Optional.empty();
  }

  /** The 5 of "Mix 5_24_11_26", where the day begins behind it. */
  private static boolean numbersTheMix(Board board, int i) {
    return i > 0
        && Markers.find(board.at(i - 1).norm(), About.NUMBER).isPresent()
        && board.free(i, i + 4)
        && !days(board, i + 1, 3).isEmpty();
  }

  private static Set<LocalDate> days(Board board, int from, int length) {
    Set<LocalDate> days = new LinkedHashSet<>();
    if (length == 1) {
      NameToken token = board.at(from);
      if (token.decimal()) {
        String[] parts = token.text().split("\\.");
        if (parts.length == 3) {
          parts(days, parts[0], parts[1], parts[2]);
        }
      } else if (token.digits() && (from == 0 || !token.glued())) {
        joined(days, token.text());
      }
    } else if (length == 3) {
      NameToken a = board.at(from);
      NameToken b = board.at(from + 1);
      NameToken c = board.at(from + 2);
      if (a.digits() && b.digits() && c.digits() && same(b.before(), c.before())) {
        parts(days, a.text(), b.text(), c.text());
      } else if (a.digits() && c.digits()) {
        month(b).ifPresent(m -> add(days, year(c.text()), m, number(a.text())));
      } else if (b.digits() && c.digits()) {
        month(a).ifPresent(m -> add(days, year(c.text()), m, number(b.text())));
      }
    }
    return days;
  }

  private static boolean same(String a, String b) {
    return a.equals(b) && a.length() == 1 && "-._".contains(a);
  }

  private static Optional<Integer> month(NameToken token) {
    return Markers.find(token.norm(), About.MONTH).map(m -> Integer.valueOf(m.value()));
  }

  private static void joined(Set<LocalDate> days, String digits) {
    if (digits.length() == 8) {
      add(days, year(digits.substring(0, 4)), cut(digits, 4), cut(digits, 6));
      if (days.isEmpty()) {
        add(days, year(digits.substring(4)), cut(digits, 2), cut(digits, 0));
        add(days, year(digits.substring(4)), cut(digits, 0), cut(digits, 2));
      }
    } else if (digits.length() == 6) {
      parts(days, digits.substring(0, 2), digits.substring(2, 4), digits.substring(4));
    }
  }

  private static int cut(String digits, int at) {
    return number(digits.substring(at, at + 2));
  }

  /** Every order in use: year first, day first, month first. */
  private static void parts(Set<LocalDate> days, String a, String b, String c) {
    if (a.length() == 4) {
      add(days, year(a), number(b), number(c));
    } else if (a.length() <= 2 && b.length() <= 2 && (c.length() == 4 || c.length() == 2)) {
      add(days, year(c), number(b), number(a));
      add(days, year(c), number(a), number(b));
      if (a.length() == 2 && b.length() == 2 && c.length() == 2) {
        add(days, year(a), number(b), number(c));
      }
    }
  }

  private static int year(String digits) {
    int year = number(digits);
    if (digits.length() == 2) {
      return year > LAST_SHORT_YEAR ? NO_YEAR : 2000 + year;
    }
    return year;
  }

  private static int number(String digits) {
    return digits.length() > 4 ? -1 : Integer.parseInt(digits);
  }

  private static void add(Set<LocalDate> days, int year, int month, int day) {
    if (year < FIRST_YEAR || year > LAST_YEAR) {
      return;
    }
    try {
      days.add(LocalDate.of(year, month, day));
    } catch (DateTimeException e) {
      // no such day: these digits are not to be read in this order
    }
  }
}
