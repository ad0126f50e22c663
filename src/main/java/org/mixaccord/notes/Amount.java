package org.mixaccord.notes;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;

/**
 * How much was asked for: a number with its unit, a range, or a vague word as it was said.
 *
 * @param value the number, never signed (the direction carries the sign); empty for a vague word
 * @param to the upper end where a range was asked for, otherwise empty
 * @param unit {@code dB % ms s bars Hz}; empty for a vague word
 * @param word the words of degree, lower case ({@code a touch}); empty when a number was given
 */
public record Amount(
    OptionalDouble value, OptionalDouble to, Optional<String> unit, Optional<String> word) {
  /** The units an amount can have. */
  public static final Set<String> UNITS = Set.of("dB", "%", "ms", "s", "bars", "Hz");

  /**
   * Checks that it is either a number with a unit or a word.
   *
   * @throws IllegalArgumentException if it is neither or both, signed, not finite, or of another
   *     unit
   */
  public Amount {
    if (value.isPresent() == word.isPresent() || value.isPresent() != unit.isPresent()) {
      throw new IllegalArgumentException("an amount is a number with a unit, or a word");
    }
    if (unit.isPresent() && !UNITS.contains(unit.get())) {
      throw new IllegalArgumentException("no such unit: " + unit.get());
    }
    if (to.isPresent() && value.isEmpty()) {
      throw new IllegalArgumentException("a range begins with a value");
    }
    checkNumber(value);
    checkNumber(to);
    if (word.isPresent() && word.get().isBlank()) {
      throw new IllegalArgumentException("an amount word is blank");
    }
  }

  private static void checkNumber(OptionalDouble number) {
    if (number.isPresent()
        && (!Double.isFinite(number.getAsDouble()) || number.getAsDouble() < 0)) {
      throw new IllegalArgumentException("not an amount: " + number.getAsDouble());
    }
  }

  /** One number. */
  public static Amount of(double value, String unit) {
    return new Amount(
        OptionalDouble.of(value), OptionalDouble.empty(), Optional.of(unit), Optional.empty());
  }

  /** A range from {@code value} to {@code to}. */
  public static Amount range(double value, double to, String unit) {
    return new Amount(
        OptionalDouble.of(value), OptionalDouble.of(to), Optional.of(unit), Optional.empty());
  }

  /** A vague amount, as said. */
  public static Amount vague(String word) {
    return new Amount(
        OptionalDouble.empty(), OptionalDouble.empty(), Optional.empty(), Optional.of(word));
  }

  /**
   * The amount as it travels in JSON.
   *
   * @return {@code {value, to?, unit}} or {@code {word}}, in this order
   */
  public Map<String, Object> wire() {
    Map<String, Object> map = new LinkedHashMap<>();
    value.ifPresent(v -> map.put("value", v));
    to.ifPresent(v -> map.put("to", v));
    unit.ifPresent(u -> map.put("unit", u));
    word.ifPresent(w -> map.put("word", w));
    return map;
  }
}
