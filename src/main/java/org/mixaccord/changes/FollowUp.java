package org.mixaccord.changes;

import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import org.mixaccord.notes.Amount;

/**
 * The next change that follows from what somebody said after hearing one that was done. Part and
 * place stay those of the first.
 *
 * @param aspect what about the part
 * @param direction which way now
 * @param amount how much; empty when unsaid
 * @param text what was said, with the first change's own words behind it
 */
public record FollowUp(String aspect, String direction, Optional<Amount> amount, String text) {
  /** What can be said after hearing. */
  public enum Says {
    GOOD,
    MORE,
    TOO_MUCH,
    HALFWAY,
    PUT_BACK;

    /** Name on the wire. */
    public String wire() {
      return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    /** In words. */
    String words() {
      return switch (this) {
        case GOOD -> "Good";
        case MORE -> "More";
        case TOO_MUCH -> "Too much";
        case HALFWAY -> "Halfway";
        case PUT_BACK -> "Put it back";
      };
    }

    /** What is called so, if anything. */
    public static Optional<Says> of(String wire) {
      for (Says says : values()) {
        if (says.wire().equals(wire)) {
          return Optional.of(says);
        }
      }
      return Optional.empty();
    }
  }

  /**
   * What is asked next.
   *
   * <p>More goes on in the same direction. Too much, halfway and put it back go the other way: by
   * an unsaid amount, by half of what was asked, by all of it. Where there is no other way (a
   * repair, a match), the next change is {@code other} / {@code any}, and the words say it.
   *
   * @param says anything but good
   * @param aspect of the change heard
   * @param direction of the change heard
   * @param amount of the change heard
   * @param text words of the change heard
   * @throws IllegalArgumentException for good, which asks for nothing
   */
  public static FollowUp of(
      Says says, String aspect, String direction, Optional<Amount> amount, String text) {
    String words = says.words() + ": “" + text + "”";
    if (says == Says.GOOD) {
      throw new IllegalArgumentException("good asks for nothing");
    }
    if (says == Says.MORE) {
      return new FollowUp(aspect, direction, Optional.empty(), words);
    }
    Optional<String> back = Directions.opposite(direction);
    if (back.isEmpty()) {
      return new FollowUp("other", "any", Optional.empty(), words);
    }
    Optional<Amount> by =
        switch (says) {
          case HALFWAY ->
              Optional.of(amount.map(FollowUp::half).orElse(Amount.vague("half of it")));
          case PUT_BACK -> Optional.of(amount.orElse(Amount.vague("all of it")));
          default -> Optional.empty();
        };
    return new FollowUp(aspect, back.get(), by, words);
  }

  private static Amount half(Amount amount) {
    if (amount.value().isEmpty()) {
      return Amount.vague("half of it");
    }
    OptionalDouble to =
        amount.to().isPresent()
            ? OptionalDouble.of(amount.to().getAsDouble() / 2)
            : OptionalDouble.empty();
    return new Amount(
        OptionalDouble.of(amount.value().getAsDouble() / 2), to, amount.unit(), Optional.empty());
  }
}
