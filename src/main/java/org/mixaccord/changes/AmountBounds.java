package org.mixaccord.changes;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.regex.Pattern;
import org.mixaccord.notes.Amount;

/**
 * How much can be asked for: above nothing, up to a bound for each unit that no mix reaches, with
 * two decimals. Words of degree are free, but carry no sign, for the direction says which way.
 */
public final class AmountBounds {
  private static final int DECIMALS = 2;

  /** The most of each unit: 60 dB, four times as much, ten seconds, an hour, 999 bars, 96 kHz. */
  private static final Map<String, Double> MOST =
      Map.of("dB", 60.0, "%", 400.0, "ms", 10_000.0, "s", 3600.0, "bars", 999.0, "Hz", 96_000.0);

  private static final Pattern SIGNED = Pattern.compile("[-+\u2212\u2013]\\s*\\d.*");

  private AmountBounds() {}

  /**
   * What is wrong with an amount, in words for whoever entered it.
   *
   * @return empty when it can be asked for
   */
  public static Optional<String> complaint(Amount amount) {
    if (amount.word().isPresent()) {
      return SIGNED.matcher(amount.word().get()).matches()
          ? Optional.of(
              "Say how much without plus or minus, as in “3 dB”: what is asked says which way.")
          : Optional.empty();
    }
    String unit = amount.unit().orElseThrow();
    double value = amount.value().orElseThrow();
    double last = amount.to().orElse(value);
    double most = MOST.get(unit);
    if (rounded(value) <= 0) {
      return Optional.of("How much has to be more than nothing, at least 0.01 " + unit + ".");
    }
    if (value > most || last > most) {
      return Optional.of("How much can be at most " + plain(most) + " " + unit + ".");
    }
    return amount.to().isPresent() && rounded(last) <= rounded(value)
        ? Optional.of("A range goes from the smaller amount to the larger one.")
        : Optional.empty();
  }

  /** The amount with two decimals; one that can be asked for still can. */
  public static Amount kept(Amount amount) {
    return new Amount(round(amount.value()), round(amount.to()), amount.unit(), amount.word());
  }

  /**
   * An amount as it was read from somebody's words: a figure that cannot be asked for stays as
   * words.
   *
   * @param longest characters of words that can be kept; what is longer stays in the note alone
   */
  public static Optional<Amount> read(Amount amount, int longest) {
    if (complaint(amount).isEmpty()) {
      return Optional.of(kept(amount));
    }
    String words = words(amount).toLowerCase(Locale.ROOT);
    return words.length() > longest || amount.word().isPresent()
        ? Optional.empty()
        : Optional.of(Amount.vague(words));
  }

  /** "1.5 dB", "1 to 2 seconds", "a touch": never an exponent, at most two decimals. */
  public static String words(Amount amount) {
    if (amount.word().isPresent()) {
      return amount.word().get();
    }
    String unit = amount.unit().orElseThrow();
    double last = amount.to().orElse(amount.value().orElseThrow());
    String named =
        switch (unit) {
          case "s" -> last == 1 ? "second" : "seconds";
          case "bars" -> last == 1 ? "bar" : "bars";
          default -> unit;
        };
    String range = amount.to().isPresent() ? " to " + plain(last) : "";
    return plain(amount.value().orElseThrow()) + range + " " + named;
  }

  private static OptionalDouble round(OptionalDouble value) {
    return value.isPresent() ? OptionalDouble.of(rounded(value.getAsDouble())) : value;
  }

  private static double rounded(double value) {
    return exact(value).doubleValue();
  }

  private static String plain(double value) {
    return exact(value).stripTrailingZeros().toPlainString();
  }

  private static BigDecimal exact(double value) {
    return BigDecimal.valueOf(value).setScale(DECIMALS, RoundingMode.HALF_UP);
  }
}
