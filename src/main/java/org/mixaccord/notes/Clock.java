package org.mixaccord.notes;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;

/** Places said in time: clock times and ranges, bars and beats, "the two minute mark". */
final class Clock {
  /** No phrase of a time has more words. */
  private static final int LONGEST = 16;

  private static final double SAME_SECOND = 1;

  record Found(Place place, int next) {
    Found named(String words) {
      return new Found(place.named(words), next);
    }
  }

  private final NoteContext context;
  private final double end;
  private List<Item> items;

  Clock(NoteContext context) {
    this.context = context;
    this.end = context.endSeconds().orElse(-1);
  }

  Optional<Found> at(List<Item> all, int i) {
    items = all;
    int k = i;
    boolean from = is(k, Type.FROM);
    boolean until = is(k, Type.UNTIL);
    boolean after = is(k, Type.AFTER);
    boolean between = is(k, Type.BETWEEN);
    if (from || until || after || between || is(k, Type.BEFORE)) {
      k = skip(k + 1);
    }
    if (is(k, Type.CLOCK) && is(k + 1, Type.FROMEND) && end > 0) {
      double at = end - items.get(k).value();
      return at < 0 || at > end ? none(k + 2) : found(at, at, k + 2);
    }
    if (is(k, Type.CLOCK)) {
      // "after the fill at 2:03" is a moment
      return clock(i, k, from || after && k == i + 1, until, between);
    }
    if (is(k, Type.BARW) && isNumber(k + 1)) {
      return bars(k, from || after, until);
    }
    if (is(k, Type.BEATW) && isNumber(k + 1)) {
      return beatOfBar(k);
    }
    Optional<Found> edge = edge(k);
    if (edge.isPresent()) {
      return edge;
    }
    return minutes(k);
  }

  private Optional<Found> clock(int i, int k, boolean from, boolean until, boolean between) {
    int next = k + 1;
    if (items.get(k).value() < 0) {
      return none(next);
    }
    double first = meant(k);
    int joint = skip(next);
    if (isPastEnd(first)) {
      boolean stretch = joins(joint) && is(skip(joint + 1), Type.CLOCK);
      return pastEnd(first, stretch ? skip(joint + 1) + 1 : next);
    }
    boolean range = joins(joint) || (between && is(joint, Type.CONJ));
    if (range) {
      int second = skip(joint + 1);
      if (is(second, Type.CLOCK)) {
        // "1:10-0:58" is no stretch
        boolean stretch = meant(second) >= first;
        double to = end > 0 ? Math.min(end, meant(second)) : meant(second);
        return stretch ? found(first, to, second + 1) : none(second + 1);
      }
      boolean seconds =
          is(joint, Type.DASH)
              && is(second, Type.NUMBER)
              && items.get(second).value() < 60
              && items.get(second).value() > first % 60;
      if (seconds) {
        return found(first, first - first % 60 + items.get(second).value(), second + 1);
      }
      if (from
          && is(second, Type.SECTION)
          && items.get(second).a().equals("outro")
          && end > first) {
        return found(first, end, second + 1);
      }
    }
    boolean on = is(next, Type.ON) && (from || closes(next + 1));
    if (is(next, Type.ONWARD) || on) {
      // "from 2:20 on", "2:20 on: lower"
      return found(first, Math.max(first, end), next + 1);
    }
    if (from) {
      return found(first, Math.max(first, end), next);
    }
    if (until) {
      return Optional.of(new Found(Place.time(0, first, words(i)).until(), next));
    }
    return found(first, first, next);
  }

  private boolean joins(int i) {
    return is(i, Type.DASH) || is(i, Type.TO) || is(i, Type.UNTIL);
  }

  private Optional<Found> bars(int k, boolean from, boolean until) {
    OptionalDouble begin = bar(value(k + 1));
    int next = k + 2;
    if (begin.isEmpty()) {
      return Optional.of(new Found(Place.plain(Place.Kind.UNKNOWN, "bar"), next));
    }
    boolean range = joins(next);
    int second = is(next + 1, Type.BARW) ? next + 2 : next + 1;
    if (isPastEnd(begin.getAsDouble())) {
      return pastEnd(begin.getAsDouble(), range && isNumber(second) ? second + 1 : next);
    }
    if (range && isNumber(second)) {
      // "bars 12 to 9" is no stretch
      return value(second) >= value(k + 1)
          ? found(begin.getAsDouble(), bar(value(second) + 1).orElse(0), second + 1)
          : none(second + 1);
    }
    int beat = is(next, Type.MARK) ? next + 1 : next;
    if (is(beat, Type.BEATW) && isNumber(beat + 1)) {
      double at =
          beat(items.get(k + 1).value(), items.get(beat + 1).value()).orElse(begin.getAsDouble());
      return found(at, at, beat + 2);
    }
    if (from || is(next, Type.ONWARD)) {
      return found(
          begin.getAsDouble(),
          Math.max(begin.getAsDouble(), end),
          is(next, Type.ONWARD) || is(next, Type.ON) ? next + 1 : next);
    }
    if (until) {
      return Optional.of(new Found(Place.time(0, begin.getAsDouble(), "bar").until(), next));
    }
    return found(begin.getAsDouble(), begin.getAsDouble(), next);
  }

  /** "Beat 3 of bar 12", "beat 3 of 12". */
  private Optional<Found> beatOfBar(int k) {
    int next = skip(k + 2);
    if (is(next, Type.BARW)) {
      next++;
    } else if (next == k + 2) {
      return Optional.empty();
    }
    if (!isNumber(next)) {
      return Optional.empty();
    }
    OptionalDouble at = beat(items.get(next).value(), items.get(k + 1).value());
    if (at.isEmpty()) {
      return Optional.of(new Found(Place.plain(Place.Kind.UNKNOWN, "bar"), next + 1));
    }
    return found(at.getAsDouble(), at.getAsDouble(), next + 1);
  }

  /** "Last 8 bars", "first 10 seconds", "10 seconds from the end". */
  private Optional<Found> edge(int k) {
    boolean last = is(k, Type.LASTW) && items.get(k).a().equals("1");
    boolean first = is(k, Type.ORD) && items.get(k).a().equals("1");
    if ((last || first) && is(k + 1, Type.AMOUNT)) {
      OptionalDouble edge = edge(items.get(k + 1).amount(), last);
      int of = skip(k + 2);
      // "the last 4 bars of the chorus" is that chorus
      boolean ofSection =
          of > k + 2 && (is(of, Type.SECTION) || is(of, Type.ORD) || is(of, Type.LASTW));
      if (edge.isPresent() && !ofSection && (first || end > 0)) {
        return last
            ? found(edge.getAsDouble(), end, k + 2)
            : found(beginning(items.get(k + 1).amount()), edge.getAsDouble(), k + 2);
      }
      return Optional.empty();
    }
    boolean bar = is(k + 1, Type.BARW) && !isNumber(k + 2) && ofTheSong(k);
    if ((last || first) && bar && (first || end > 0)) {
      // "the last bar"; "the last bar of the chorus" is a slice of that chorus
      Amount one = Amount.of(1, "bars");
      OptionalDouble edge = edge(one, last);
      if (edge.isPresent()) {
        return last
            ? found(edge.getAsDouble(), end, k + 2)
            : found(beginning(one), edge.getAsDouble(), k + 2);
      }
    }
    boolean counted = isNumber(k + 1) && is(k + 2, Type.MINUTE);
    if ((last || first) && (counted || is(k + 1, Type.MINUTE)) && (first || end > 0)) {
      // "the first minute", "the last two minutes"
      double seconds = 60 * (counted ? value(k + 1) : 1);
      int next = counted ? k + 3 : k + 2;
      return last ? found(end - seconds, end, next) : found(0, seconds, next);
    }
    if (is(k, Type.AMOUNT) && is(k + 1, Type.FROMEND) && end > 0) {
      OptionalDouble edge = edge(items.get(k).amount(), true);
      if (edge.isPresent()) {
        double at = Math.max(0, edge.getAsDouble());
        return found(at, at, k + 2);
      }
    }
    return Optional.empty();
  }

  /** "The last bar", but not "in the bridge, the last bar" and not "the last bar of it". */
  private boolean ofTheSong(int k) {
    boolean bound = is(k + 2, Type.OF) || is(k + 2, Type.BEFORE) || is(k + 2, Type.AFTER);
    for (int i = k - 1; i >= 0 && i > k - LONGEST && !is(i, Type.STOP); i--) {
      bound |= is(i, Type.SECTION);
    }
    return !bound;
  }

  /** "The two minute mark", "a minute in", "2 minutes into it". */
  private Optional<Found> minutes(int k) {
    double count = -1;
    int next = k;
    if (isNumber(k)) {
      count = value(k);
      next = k + 1;
    } else if (is(k, Type.FILL) && items.get(k).a().equals("a")) {
      count = 1;
      next = k + 1;
    }
    if (count < 0 || count > 60 || !is(next, Type.MINUTE)) {
      return Optional.empty();
    }
    double at = count * 60;
    next++;
    if (is(next, Type.AMOUNT) && items.get(next).amount().unit().orElse("").equals("s")) {
      at += items.get(next).amount().value().orElse(0);
      return found(at, at, is(next + 1, Type.MARKW) ? next + 2 : next + 1);
    }
    return is(next, Type.MARKW) ? found(at, at, next + 1) : Optional.empty();
  }

  /** Where an amount of music ends, from the song's beginning on, or begins, before its end. */
  private OptionalDouble edge(Amount amount, boolean fromEnd) {
    double value = amount.value().orElse(0);
    switch (amount.unit().orElse("")) {
      case "s":
        return OptionalDouble.of(fromEnd ? end - value : value);
      case "bars":
        if (!fromEnd) {
          return context.bars().seconds(1 + value);
        }
        OptionalDouble bars = context.bars().bars(end);
        return bars.isEmpty() ? bars : context.bars().seconds(bars.getAsDouble() - value);
      default:
        return OptionalDouble.empty();
    }
  }

  private double beginning(Amount amount) {
    return amount.unit().orElse("").equals("bars") ? context.bars().seconds(1).orElse(0) : 0;
  }

  private Optional<Found> none(int next) {
    return Optional.of(new Found(Place.noTime(""), next));
  }

  private Optional<Found> pastEnd(double at, int next) {
    return Optional.of(new Found(Place.time(at, at, "").partly(), next));
  }

  private boolean isPastEnd(double seconds) {
    return end > 0 && seconds > end + SAME_SECOND;
  }

  /**
   * A time as it was meant. Players leave the fraction of a second out: a section that begins
   * within the second is what the time names.
   */
  private double meant(int k) {
    double time = items.get(k).value();
    if (time == Math.rint(time)) {
      for (NamedSpan section : context.sections()) {
        boolean within = section.fromSeconds() > time && section.fromSeconds() < time + SAME_SECOND;
        if (within) {
          return section.fromSeconds();
        }
      }
    }
    return time;
  }

  private OptionalDouble bar(double number) {
    return context.bars().seconds(number);
  }

  private OptionalDouble beat(double bar, double beat) {
    return context.bars().seconds((int) bar, beat);
  }

  private Optional<Found> found(double from, double to, int next) {
    return Optional.of(new Found(Place.time(from, to, ""), next));
  }

  private boolean closes(int i) {
    return i >= items.size()
        || SectionPhrases.JOINTS.contains(items.get(i).type())
        || is(i, Type.COLON);
  }

  private String words(int i) {
    return items.get(i).a().toLowerCase(Locale.ROOT);
  }

  private double value(int i) {
    return is(i, Type.NUMWORD) ? Integer.parseInt(items.get(i).a()) : items.get(i).value();
  }

  private boolean isNumber(int i) {
    return is(i, Type.NUMWORD)
        || (is(i, Type.NUMBER) && items.get(i).signed() == 0 && items.get(i).value() < 10000);
  }

  private int skip(int i) {
    int next = i;
    while (next - i < LONGEST && (is(next, Type.FILL) || is(next, Type.OF))) {
      next++;
    }
    return next;
  }

  private boolean is(int i, Type type) {
    return i >= 0 && i < items.size() && items.get(i).type() == type;
  }
}
