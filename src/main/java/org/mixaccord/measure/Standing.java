package org.mixaccord.measure;

import java.util.Locale;
import java.util.Optional;

/** What stands behind a limit. docs/measurement.md lists the same. */
public enum Standing {
  /** What the people of the project agreed on. */
  AGREEMENT,
  /** A standard, which says it itself. */
  STANDARD,
  /** A recommendation or technical document of a body that others follow. */
  RECOMMENDATION,
  /** Many do so; nobody has laid it down. */
  HABIT;

  /** The word on the wire. */
  public String wire() {
    return name().toLowerCase(Locale.ROOT);
  }

  /**
   * What stands behind the limit of a finding.
   *
   * @param code the finding's code
   * @param ceilingAgreed whether a ceiling for peaks was agreed; else {@code over} is held against
   *     full scale
   * @return empty for findings that are facts and have no limit of their own
   */
  public static Optional<Standing> ofFinding(String code, boolean ceilingAgreed) {
    return switch (code) {
      case "over" -> ceilingAgreed ? Optional.of(AGREEMENT) : Optional.empty();
      case "out-of-spec" -> Optional.of(AGREEMENT);
      case "intersample-over" -> Optional.of(STANDARD);
      case "clipped",
          "digital-silence",
          "one-sided-silence",
          "dc-offset",
          "cut-head",
          "cut-tail",
          "dropout",
          "mono-loss" ->
          Optional.of(HABIT);
      default -> Optional.empty();
    };
  }
}
