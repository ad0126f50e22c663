package org.mixaccord.api.v1;

import java.math.BigDecimal;
import java.util.List;
import java.util.OptionalDouble;
import java.util.stream.Collectors;

/**
 * A table as comma-separated values (RFC 4180): one header line, CRLF, decimals with a point,
 * nothing in the cell where a value does not exist.
 */
public final class Csv {
  private static final String FORMULA = "=+-@\t\r\n\uFF1D\uFF0B\uFF0D\uFF20";

  private final StringBuilder text = new StringBuilder();

  /** One line of cells as {@link #words} and {@link #number} have made them. */
  public Csv line(List<String> cells) {
    text.append(String.join(",", cells)).append("\r\n");
    return this;
  }

  /** The header. */
  public Csv header(List<String> names) {
    return line(names.stream().map(Csv::words).collect(Collectors.toList()));
  }

  /**
   * Words that people wrote. What a spreadsheet would take for a formula gets an apostrophe before
   * it, which makes it words again.
   */
  public static String words(String words) {
    String start = words.stripLeading();
    boolean formula =
        !words.isEmpty()
            && (FORMULA.indexOf(words.charAt(0)) >= 0
                || (!start.isEmpty() && FORMULA.indexOf(start.charAt(0)) >= 0));
    String safe = formula ? "'" + words : words;
    return safe.matches("(?s).*[\",\r\n].*|\\s.*|.*\\s|'.*")
        ? "\"" + safe.replace("\"", "\"\"") + "\""
        : safe;
  }

  /** A number in full, without an exponent. */
  public static String number(double value) {
    return BigDecimal.valueOf(value).toPlainString();
  }

  /** A number, or nothing. */
  public static String number(OptionalDouble value) {
    return value.isPresent() ? number(value.getAsDouble()) : "";
  }

  @Override
  public String toString() {
    return text.toString();
  }
}
