package org.mixaccord.measure;

import java.util.Optional;

/**
 * What stands behind the limit of a finding.
 *
 * @param standing empty for plain facts, which have no limit that could be another
 * @param source short name of the text, for standards
 */
public record Basis(Optional<Standing> standing, Optional<String> source) {
  static final Basis FACT = new Basis(Optional.empty(), Optional.empty());
  static final Basis AGREED = new Basis(Optional.of(Standing.AGREEMENT), Optional.empty());
  static final Basis CUSTOM = new Basis(Optional.of(Standing.HABIT), Optional.empty());

  static Basis standard(String source) {
    return new Basis(Optional.of(Standing.STANDARD), Optional.of(source));
  }
}
