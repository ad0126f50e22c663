package org.mixaccord.changes;

import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Pattern;
import org.mixaccord.notes.Amount;

/** What goes beyond mixing: it has to be sung, played, written or edited first. */
public enum NewWork {
  /** Somebody has to sing or play again. */
  TAKE("take"),
  /** Something has to be played that is not there yet. */
  PART("part"),
  /** The form of the song is edited. */
  FORM("form");

  private static final Pattern TAKES =
      words(
          "re-?(record|sing|sung|play|cut|track|take|do)(s|ed|ing|en)?( the| my| her| his)?"
              + " .*(vocal|vox|take|part|solo|line|lead|guitars?|bass|drums?)",
          "(new|other|another|different|better|second) takes?",
          "(sing|play|record|track)( it| that| this| them)? (again|anew|over)",
          "re-?(record|sing|sang|sung|track)(s|ed|ing)?");

  private static final Pattern PARTS =
      words(
          "(write|record|play|sing|track|overdub)(s|ed|ing)? (a|an|another|some|more|new|extra)",
          "(new|extra|additional|third|another) (part|line|harmony|riff|layer|verse|counter-?melody)",
          "overdubs?",
          "add (a|an|some|another) .*(harmony|part|line|layer|riff|double|counter-?melody|solo)");

  private static final Pattern FORMS =
      words(
          "bars?",
          "(verse|chorus|bridge|intro|outro|solo|pre-?chorus|drop|build|breakdown|hook|section)"
              + "( \\d)?( is)? (too long|twice|shorter|longer)",
          "(cut|drop|skip|lose|remove|repeat|double|extend|halve|shorten|swap|move|add) .*"
              + "(verse|chorus|bridge|intro|outro|solo|pre-?chorus|drop|build|breakdown|hook|section)");

  private final String wire;

  NewWork(String wire) {
    this.wire = wire;
  }

  /** As programs say it. */
  public String wire() {
    return wire;
  }

  /** The kind programs call so. */
  public static Optional<NewWork> of(String wire) {
    return Arrays.stream(values()).filter(kind -> kind.wire.equals(wire)).findFirst();
  }

  /**
   * What a change seems to be, from its fields and its own words; empty for what mixing can do. A
   * guess, for the engineer to correct.
   */
  public static Optional<NewWork> guess(
      String aspect, String direction, Optional<Amount> amount, String text) {
    String said = text.toLowerCase(Locale.ROOT);
    if (aspect.equals("length")) {
      boolean bars = amount.flatMap(Amount::unit).filter("bars"::equals).isPresent();
      return bars || FORMS.matcher(said).find() ? Optional.of(FORM) : Optional.empty();
    }
    if (TAKES.matcher(said).find()) {
      return Optional.of(TAKE);
    }
    boolean mayAdd = aspect.equals("mute") && direction.equals("in") || aspect.equals("other");
    return mayAdd && PARTS.matcher(said).find() ? Optional.of(PART) : Optional.empty();
  }

  private static Pattern words(String... phrases) {
    return Pattern.compile("\\b(" + String.join("|", phrases) + ")\\b");
  }
}
