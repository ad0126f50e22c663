package org.mixaccord.notes;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collection;
import java.util.Collections;
import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;

/** One phrase a line with what is to be read out of it: nothing may be missing, nothing extra. */
class PhraseTableTest {
  @TestFactory
  Collection<DynamicTest> everyPhraseIsReadAsWritten() throws IOException {
    List<DynamicTest> tests = new ArrayList<>();
    for (String line : Marked.lines("phrases.tsv")) {
      String[] fields = line.split("\t", -1);
      tests.add(DynamicTest.dynamicTest(fields[1], () -> check(fields)));
    }
    return tests;
  }

  private static void check(String[] fields) {
    String text = fields[1].replace("\\n", "\n");
    Reading reading = NoteReader.read(text, Marked.context(fields[0]));
    List<String> changes = new ArrayList<>();
    for (RequestedChange c : reading.changes()) {
      changes.add(
          String.join("/", c.element(), c.aspect(), c.direction(), amount(c), where(c.where()))
              + (c.question().isPresent() ? "?" : ""));
    }
    List<String> keeps = new ArrayList<>();
    reading.keeps().forEach(k -> keeps.add(k.element() + "/" + where(k.where())));
    assertEquals(items(fields[2]), sorted(changes), "changes of: " + text);
    assertEquals(items(fields.length > 3 ? fields[3] : ""), sorted(keeps), "keeps of: " + text);
  }

  private static List<String> items(String field) {
    return sorted(
        Arrays.stream(field.split(";"))
            .map(String::strip)
            .filter(s -> !s.isEmpty() && !s.equals("/"))
            .toList());
  }

  private static List<String> sorted(List<String> items) {
    List<String> copy = new ArrayList<>(items);
    Collections.sort(copy);
    return copy;
  }

  private static String amount(RequestedChange change) {
    if (change.amount().isEmpty()) {
      return "";
    }
    Amount amount = change.amount().get();
    if (amount.word().isPresent()) {
      return "~" + amount.word().get();
    }
    String to = amount.to().isPresent() ? ".." + number(amount.to().getAsDouble()) : "";
    return number(amount.value().getAsDouble()) + to + " " + amount.unit().get();
  }

  private static String where(Where where) {
    return where.fromSeconds().isPresent()
        ? tenth(where.fromSeconds().getAsDouble()) + "-" + tenth(where.toSeconds().getAsDouble())
        : String.join("+", where.sections());
  }

  private static String tenth(double seconds) {
    return number(Math.round(seconds * 10) / 10.0);
  }

  private static String number(double value) {
    return value == Math.rint(value)
        ? String.valueOf((long) value)
        : String.format(Locale.ROOT, "%s", value);
  }
}
