package org.mixaccord.notes;

import java.util.List;

/**
 * What should happen, without to what and where.
 *
 * @param aspect as in {@link Vocabulary}
 * @param direction as in {@link Vocabulary}
 * @param amount how much, or null
 * @param unclear whether an engineer could not act on it
 * @param generic whether it is a mere up or down ("bring it down") that may belong to what was
 *     complained about before
 * @param complaint whether it names a fault rather than a remedy
 * @param targets the parts it is about where its own words tell; empty when the segment decides
 */
record Pred(
    String aspect,
    String direction,
    Amount amount,
    boolean unclear,
    boolean generic,
    boolean complaint,
    List<String> targets) {
  static Pred of(String aspect, String direction) {
    return new Pred(aspect, direction, null, false, false, false, List.of());
  }

  Pred with(Amount other) {
    return new Pred(aspect, direction, other, unclear, generic, complaint, targets);
  }

  Pred about(List<String> others) {
    return new Pred(aspect, direction, amount, unclear, generic, complaint, others);
  }

  Pred asGeneric() {
    return new Pred(aspect, direction, amount, unclear, true, complaint, targets);
  }

  Pred asComplaint() {
    return new Pred(aspect, direction, amount, unclear, generic, true, targets);
  }

  Pred asUnclear() {
    return new Pred(aspect, direction, amount, true, generic, complaint, targets);
  }

  Pred turned(String otherAspect, String otherDirection) {
    return new Pred(otherAspect, otherDirection, amount, unclear, generic, complaint, targets);
  }
}
