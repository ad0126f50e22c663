package org.mixaccord.threads;

import java.time.DateTimeException;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Reads dates and times as people and programs write them; what could be two days stays unread. */
final class Stamps {
  private static final Pattern TIME =
      Pattern.compile(
          "(\\d{1,2})[:.h](\\d{2})(?:[:.](\\d{2}))?(?:\\s?([ap])\\.?m\\.?)?",
          Pattern.CASE_INSENSITIVE);
  private static final Pattern FIGURES =
      Pattern.compile("(?<!\\d)(\\d{1,4})([./-])(\\d{1,2})\\2(\\d{2,4})(?!\\d)");
  private static final Pattern DAY_MONTH =
      Pattern.compile("(?<!\\d)(\\d{1,2})\\.?\\s(?:de )?(\\p{L}{3,10})\\.?,?(?: de)? (\\d{4})");
  private static final Pattern MONTH_DAY =
      Pattern.compile("(\\p{L}{3,10})\\.? (\\d{1,2})(?:st|nd|rd|th)?,? (\\d{4})");

  private static final Map<String, Integer> MONTHS =
      Map.ofEntries(
          Map.entry("jan", 1),
          Map.entry("ene", 1),
          Map.entry("gen", 1),
          Map.entry("feb", 2),
          Map.entry("f\u00E9v", 2),
          Map.entry("fev", 2),
          Map.entry("mar", 3),
          Map.entry("m\u00E4r", 3),
          Map.entry("maa", 3),
          Map.entry("apr", 4),
          Map.entry("avr", 4),
          Map.entry("abr", 4),
          Map.entry("may", 5),
          Map.entry("mai", 5),
          Map.entry("mag", 5),
          Map.entry("maj", 5),
          Map.entry("mei", 5),
          Map.entry("jun", 6),
          Map.entry("juin", 6),
          Map.entry("giu", 6),
          Map.entry("jul", 7),
          Map.entry("juil", 7),
          Map.entry("lug", 7),
          Map.entry("aug", 8),
          Map.entry("ao\u00FB", 8),
          Map.entry("ago", 8),
          Map.entry("sep", 9),
          Map.entry("set", 9),
          Map.entry("oct", 10),
          Map.entry("okt", 10),
          Map.entry("ott", 10),
          Map.entry("nov", 11),
          Map.entry("dec", 12),
          Map.entry("dez", 12),
          Map.entry("d\u00E9c", 12),
          Map.entry("dic", 12),
          Map.entry("des", 12));

  /** Which figure of a date is the day, as far as a whole text shows it. */
  enum Order {
    DAY_FIRST,
    MONTH_FIRST,
    UNKNOWN
  }

  private Stamps() {}

  /** What the dates of a text show together: a 13 or more can be no month. */
  static Order order(List<String> stamps) {
    boolean day = false;
    boolean month = false;
    for (String stamp : stamps) {
      Matcher date = FIGURES.matcher(stamp);
      if (date.find() && date.group(1).length() <= 2) {
        if (date.group(2).equals(".")) {
          day = true;
        }
        day |= Integer.parseInt(date.group(1)) > 12;
        month |= Integer.parseInt(date.group(3)) > 12;
      }
    }
    return day == month ? Order.UNKNOWN : day ? Order.DAY_FIRST : Order.MONTH_FIRST;
  }

  /** Whether a date could be two days. */
  static boolean isUnsure(String stamp, Order order) {
    Matcher date = FIGURES.matcher(stamp);
    return order == Order.UNKNOWN
        && date.find()
        && date.group(1).length() <= 2
        && Integer.parseInt(date.group(1)) <= 12
        && Integer.parseInt(date.group(3)) <= 12
        && !date.group(1).equals(date.group(3));
  }

  /** Date and time of a stamp, if both are said and certain. */
  static Optional<LocalDateTime> read(String stamp, Order order) {
    Optional<LocalDate> day = day(stamp, order);
    Optional<LocalTime> time = time(FIGURES.matcher(stamp).replaceAll(" "));
    return day.isPresent() && time.isPresent()
        ? Optional.of(LocalDateTime.of(day.get(), time.get()))
        : Optional.empty();
  }

  private static Optional<LocalTime> time(String words) {
    Matcher found = TIME.matcher(words);
    if (!found.find()) {
      return Optional.empty();
    }
    int hour = Integer.parseInt(found.group(1));
    if (found.group(4) != null) {
      hour = hour % 12 + (found.group(4).toLowerCase(Locale.ROOT).equals("p") ? 12 : 0);
    }
    int second = found.group(3) == null ? 0 : Integer.parseInt(found.group(3));
    try {
      return Optional.of(LocalTime.of(hour, Integer.parseInt(found.group(2)), second));
    } catch (DateTimeException e) {
      return Optional.empty();
    }
  }

  private static Optional<LocalDate> day(String stamp, Order order) {
    Matcher figures = FIGURES.matcher(stamp);
    if (figures.find()) {
      int a = Integer.parseInt(figures.group(1));
      int b = Integer.parseInt(figures.group(3));
      int c = Integer.parseInt(figures.group(4));
      if (figures.group(1).length() == 4) {
        return of(a, b, c);
      }
      if (figures.group(1).length() > 2 || isUnsure(stamp, order)) {
        return Optional.empty();
      }
      int year = c < 100 ? 2000 + c : c;
      boolean dayFirst = order == Order.UNKNOWN ? a > 12 || a == b : order == Order.DAY_FIRST;
      return dayFirst ? of(year, b, a) : of(year, a, b);
    }
    Matcher named = DAY_MONTH.matcher(stamp);
    if (named.find() && month(named.group(2)).isPresent()) {
      return of(number(named.group(3)), month(named.group(2)).get(), number(named.group(1)));
    }
    Matcher month = MONTH_DAY.matcher(stamp);
    while (month.find()) {
      if (month(month.group(1)).isPresent()) {
        return of(number(month.group(3)), month(month.group(1)).get(), number(month.group(2)));
      }
    }
    return Optional.empty();
  }

  private static Optional<Integer> month(String word) {
    String lower = word.toLowerCase(Locale.ROOT);
    Integer four = lower.length() >= 4 ? MONTHS.get(lower.substring(0, 4)) : null;
    return Optional.ofNullable(four != null ? four : MONTHS.get(lower.substring(0, 3)));
  }

  private static int number(String digits) {
    return Integer.parseInt(digits);
  }

  private static Optional<LocalDate> of(int year, int month, int day) {
    try {
      return Optional.of(LocalDate.of(year, month, day));
    } catch (DateTimeException e) {
      return Optional.empty();
    }
  }
}
