package org.mixaccord.record;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.Optional;
import org.mixaccord.accounts.Texts;
import org.mixaccord.changes.ChangeAnswer;
import org.mixaccord.changes.ChangeState;
import org.mixaccord.changes.NewWork;
import org.mixaccord.notes.NoteContext;

/**
 * What somebody wants to change of a change; what is empty stays as it is.
 *
 * @param fields the fields that say what is asked for, or null when none was sent
 */
public record ChangePatch(
    Optional<ChangeState> state,
    Optional<String> doneIn,
    Optional<ChangeAnswer> answer,
    Optional<String> reason,
    Optional<Integer> round,
    Optional<String> newWork,
    JsonNode fields) {
  private static final int REASON_CHARS = 1000;
  private static final int NAME_CHARS = 60;

  /** The fields of one part of a change, or says what is wrong with them. */
  static ChangePatch fieldsOf(JsonNode part) {
    if (part == null || !part.isObject()) {
      throw WireJson.invalid("parts", "Each part names the fields that are its own.");
    }
    return of(part);
  }

  /** Reads the body of a request, or says what is wrong with it. */
  public static ChangePatch of(JsonNode body) {
    if (body == null || !body.isObject()) {
      throw WireJson.invalid("state", "Say what is to change, for example {\"state\": \"done\"}.");
    }
    JsonNode round = body.path("round");
    if (!round.isMissingNode() && !round.isNull() && !round.isInt()) {
      throw WireJson.invalid("round", "A round is a whole number.");
    }
    boolean fields =
        body.has("element")
            || body.has("aspect")
            || body.has("direction")
            || body.has("amount")
            || body.has("where");
    return new ChangePatch(
        text(body, "state").map(ChangePatch::state),
        text(body, "doneIn"),
        text(body, "answer").map(ChangePatch::answer),
        text(body, "reason").map(t -> Texts.line("reason", t, REASON_CHARS)),
        round.isInt() ? Optional.of(round.intValue()) : Optional.empty(),
        text(body, "newWork").map(ChangePatch::newWork),
        fields ? body : null);
  }

  private static Optional<String> text(JsonNode body, String field) {
    JsonNode node = body.path(field);
    if (node.isMissingNode() || node.isNull()) {
      return Optional.empty();
    }
    if (!node.isTextual()) {
      throw WireJson.invalid(field, "“" + field + "” is a text.");
    }
    return Optional.of(node.textValue()).filter(t -> !t.isBlank());
  }

  static ChangeState state(String wire) {
    return ChangeState.of(wire)
        .orElseThrow(
            () ->
                WireJson.invalid(
                    "state",
                    "A change is unclear, asked, done, good, left, withdrawn or followed."));
  }

  private static String newWork(String wire) {
    if (!wire.equals(Change.NO_NEW_WORK) && NewWork.of(wire).isEmpty()) {
      throw WireJson.invalid("newWork", "New work is a take, a part, the form, or none.");
    }
    return wire;
  }

  static ChangeAnswer answer(String wire) {
    return ChangeAnswer.of(wire)
        .orElseThrow(
            () ->
                WireJson.invalid(
                    "answer",
                    "An answer is as-asked or differently; for what is left it is tried, cannot,"
                        + " need-files or new-work."));
  }

  /** What the change says with the fields sent in place of its own. */
  Change.Asked over(Change.Asked now, NoteContext context) {
    if (fields == null) {
      return now;
    }
    return Readings.checked(
        new Change.Asked(
            text(fields, "element")
                .map(t -> Texts.line("element", t, NAME_CHARS))
                .orElse(now.element()),
            text(fields, "aspect").orElse(now.aspect()),
            text(fields, "direction").orElse(now.direction()),
            fields.has("amount") ? WireJson.amount(fields.get("amount")) : now.amount(),
            fields.has("where")
                ? Readings.named(WireJson.where(fields.get("where")), context)
                : now.where(),
            now.text(),
            now.start(),
            now.end()));
  }
}
