package org.mixaccord.notes;

import java.util.OptionalDouble;

/** Stretches of one section: its first half, its last four bars. */
final class Slices {
  private final SectionNames names;
  private final BarGrid bars;

  Slices(SectionNames names, BarGrid bars) {
    this.names = names;
    this.bars = bars;
  }

  /** One bar or beat as an amount, for "the last bar of"; null for any other word. */
  static Amount single(String word) {
    switch (word) {
      case "bar":
        return Amount.of(1, "bars");
      case "beat":
        return Amount.of(0.25, "bars");
      default:
        return null;
    }
  }

  /** Whether the form has just one such section, so that a part of it is one stretch. */
  boolean single(Place place) {
    return place != null && place.is(Place.Kind.SECTIONS) && place.sections().size() == 1;
  }

  /**
   * A stretch at one side of a section; the section itself where it cannot be told. A side of
   * several sections is all of them.
   *
   * @param side 1 for the beginning, 2 for the end, 0 for all of it
   * @param edge how much, in bars or seconds; null for half of the section
   */
  Place of(Place place, int side, Amount edge) {
    if (side == 0 || !single(place)) {
      return place;
    }
    NamedSpan section = names.get(place.sections().get(0));
    double from = section.fromSeconds();
    double to = section.toSeconds();
    OptionalDouble inner =
        edge == null ? OptionalDouble.of((from + to) / 2) : inner(from, to, side, edge);
    if (inner.isEmpty() || inner.getAsDouble() <= from || inner.getAsDouble() >= to) {
      return place;
    }
    return side == 1
        ? Place.time(from, inner.getAsDouble(), place.words())
        : Place.time(inner.getAsDouble(), to, place.words());
  }

  private OptionalDouble inner(double from, double to, int side, Amount edge) {
    double value = edge.value().orElse(0);
    switch (edge.unit().orElse("")) {
      case "s":
        return OptionalDouble.of(side == 1 ? from + value : to - value);
      case "bars":
        OptionalDouble begin = bars.bars(side == 1 ? from : to);
        return begin.isEmpty()
            ? begin
            : bars.seconds(begin.getAsDouble() + (side == 1 ? value : -value));
      default:
        return OptionalDouble.empty();
    }
  }
}
