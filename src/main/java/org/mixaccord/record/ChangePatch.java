package org.mixaccord.record;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.Optional;
import org.mixaccord.accounts.Texts;
import org.mixaccord.changes.ChangeAnswer;
import org.mixaccord.changes.ChangeState;
import org.mixaccord.changes.NewWork;
import org.mixaccord.notes.Amount;
import org.mixaccord.notes.Where;

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

  /**
   * What the change says with the fields sent in place of its own. What is sent as it was, as a
   * form does with all its fields, is not judged anew.
   */
  Change.Asked over(Change.Asked now, SongPlaces there) {
    if (fields == null) {
      return now;
    }
    return Readings.checked(
        new Change.Asked(
            said("element").map(t -> Texts.line("element", t, NAME_CHARS)).orElse(now.element()),
            said("aspect").orElse(now.aspect()),
            said("direction").orElse(now.direction()),
            amount(now.amount()),
            where(now.where(), there),
            now.text(),
            now.start(),
            now.end()));
  }

  /** A field that may be left away, but not emptied. */
  private Optional<String> said(String field) {
    Optional<String> said = text(fields, field);
    if (said.isEmpty() && fields.hasNonNull(field)) {
      throw WireJson.invalid(field, "“" + field + "” is empty. Leave it away to keep it.");
    }
    return said;
  }

  private Optional<Amount> amount(Optional<Amount> now) {
    if (!fields.has("amount") || WireJson.amount(fields.get("amount")).equals(now)) {
      return now;
    }
    return Readings.amount(fields.get("amount"));
  }

  private Where where(Where now, SongPlaces there) {
    Where where = fields.has("where") ? there.named(WireJson.where(fields.get("where"))) : now;
    if (SongPlaces.same(where, now)) {
      return now;
    }
    there
        .complaint(where)
        .ifPresent(
            complaint -> {
              throw complaint;
            });
    return where;
  }
}
