package org.mixaccord.measure;

import java.util.OptionalDouble;

/**
 * Something measured that nobody asked about.
 *
 * @param code kebab case, from the list in docs/measurement.md
 * @param severity how much it matters
 * @param detail one or two sentences in a musician's words, figures with units
 * @param fromSeconds start of the place on the bounce's own time line
 * @param toSeconds end of the place
 * @param value the figure that stands out, in the unit the detail names
 * @param limit what it is held against, same unit
 * @param basis what stands behind the limit
 */
public record Finding(
    String code,
    Severity severity,
    String detail,
    double fromSeconds,
    double toSeconds,
    OptionalDouble value,
    OptionalDouble limit,
    Basis basis) {
  /**
   * A finding that stands on what all of its kind stand on.
   *
   * @throws IllegalArgumentException for a code that is not in the list
   */
  public Finding(
      String code,
      Severity severity,
      String detail,
      double fromSeconds,
      double toSeconds,
      OptionalDouble value,
      OptionalDouble limit) {
    this(
        code, severity, detail, fromSeconds, toSeconds, value, limit, FindingCode.of(code).basis());
  }

  Finding on(Basis other) {
    return new Finding(code, severity, detail, fromSeconds, toSeconds, value, limit, other);
  }

  Finding with(Severity other, String sentence) {
    return new Finding(
        code, other, detail + " " + sentence, fromSeconds, toSeconds, value, limit, basis);
  }
}
