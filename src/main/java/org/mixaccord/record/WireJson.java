package org.mixaccord.record;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.type.TypeReference;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.mixaccord.accounts.Texts;
import org.mixaccord.notes.Amount;
import org.mixaccord.notes.Where;
import org.mixaccord.problem.Problem;
import org.mixaccord.problem.ProblemException;

/** Places and amounts in the JSON of the API, which is also how they are kept. */
final class WireJson {
  static final ObjectMapper JSON = new ObjectMapper();
  private static final int MOST_SECTIONS = 200;
  private static final int SECTION_CHARS = 60;
  static final int WORD_CHARS = 60;

  private WireJson() {}

  static String write(Object value) {
    try {
      return JSON.writeValueAsString(value);
    } catch (JsonProcessingException e) {
      throw new IllegalStateException("cannot be written as JSON", e);
    }
  }

  static List<String> strings(String json) {
    try {
      return JSON.readValue(json, new TypeReference<List<String>>() {});
    } catch (JsonProcessingException e) {
      throw new IllegalStateException("no list of strings: " + json, e);
    }
  }

  static JsonNode tree(String json) {
    try {
      return JSON.readTree(json);
    } catch (JsonProcessingException e) {
      throw new IllegalStateException("no JSON: " + json, e);
    }
  }

  /** A place that somebody sent, or the problem {@code invalid}; nothing is the whole song. */
  static Where where(JsonNode node) {
    if (node == null || node.isNull() || node.isMissingNode()) {
      return Where.WHOLE_SONG;
    }
    if (node.isArray()) {
      if (node.size() > MOST_SECTIONS) {
        throw invalid("where", "A place names at most " + MOST_SECTIONS + " sections.");
      }
      List<String> names = new ArrayList<>();
      for (JsonNode name : node) {
        if (!name.isTextual()) {
          throw invalid("where", "A place is a list of section names, or {from, to} in seconds.");
        }
        names.add(Texts.line("where", name.textValue(), SECTION_CHARS));
      }
      return Where.in(names);
    }
    JsonNode from = node.get("from");
    JsonNode to = node.get("to");
    if (from == null || to == null || !from.isNumber() || !to.isNumber()) {
      throw invalid("where", "A place is a list of section names, or {from, to} in seconds.");
    }
    try {
      return Where.between(from.doubleValue(), to.doubleValue());
    } catch (IllegalArgumentException e) {
      throw invalid(
          "where", "A stretch begins at 0:00 or later and does not end before it begins.");
    }
  }

  /** An amount that somebody sent, or the problem {@code invalid}; empty when there is none. */
  static Optional<Amount> amount(JsonNode node) {
    if (node == null || node.isNull() || node.isMissingNode()) {
      return Optional.empty();
    }
    JsonNode word = node.get("word");
    JsonNode value = node.get("value");
    JsonNode unit = node.get("unit");
    try {
      if (word != null && word.isTextual() && value == null) {
        return Optional.of(Amount.vague(Texts.line("amount", word.textValue(), WORD_CHARS)));
      }
      if (value != null && value.isNumber() && unit != null && unit.isTextual()) {
        JsonNode to = node.get("to");
        if (to != null && !to.isNull() && !to.isNumber()) {
          throw invalid("amount", AMOUNT);
        }
        return Optional.of(
            new Amount(
                OptionalDouble.of(value.doubleValue()),
                to != null && to.isNumber()
                    ? OptionalDouble.of(to.doubleValue())
                    : OptionalDouble.empty(),
                Optional.of(unit.textValue()),
                Optional.empty()));
      }
    } catch (IllegalArgumentException e) {
      throw invalid("amount", AMOUNT);
    }
    throw invalid("amount", AMOUNT);
  }

  private static final String AMOUNT =
      "An amount is {value, unit} with a number of 0 or more in dB, %, ms, s, bars or Hz,"
          + " or {word}.";

  static ProblemException invalid(String field, String detail) {
    return new ProblemException(Problem.INVALID, detail).with("field", field);
  }
}
