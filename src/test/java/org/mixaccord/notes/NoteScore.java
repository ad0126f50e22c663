package org.mixaccord.notes;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.TreeSet;

/** How well the reader reads marked notes. */
final class NoteScore {
  final Tally full = new Tally();
  final Tally withoutWhere = new Tally();
  final Tally core = new Tally();
  final Tally keeps = new Tally();
  final Tally questions = new Tally();
  final List<String> misses = new ArrayList<>();
  private int agreed;
  private int notes;

  private NoteScore() {}

  /** Reads and scores them all. */
  static NoteScore of(List<Marked.Note> all) {
    NoteScore score = new NoteScore();
    all.forEach(score::add);
    return score;
  }

  /** The share of notes on which people and reader agree whether to ask. */
  double agreement() {
    return (double) agreed / notes;
  }

  private void add(Marked.Note note) {
    Reading reading = NoteReader.read(note.text(), Marked.context(note.context()));
    full.count(gold(note.changes(), 3), read(reading, 3));
    withoutWhere.count(gold(note.changes(), 2), read(reading, 2));
    core.count(gold(note.changes(), 1), read(reading, 1));
    keeps.count(goldKeeps(note.keeps()), readKeeps(reading));
    boolean asked = reading.changes().stream().anyMatch(c -> c.question().isPresent());
    boolean unclear = false;
    for (JsonNode change : note.changes()) {
      unclear |= change.get("question").asBoolean();
    }
    questions.count(unclear ? List.of("?") : List.of(), asked ? List.of("?") : List.of());
    notes++;
    agreed += asked == unclear ? 1 : 0;
    boolean right =
        same(gold(note.changes(), 3), read(reading, 3))
            && same(goldKeeps(note.keeps()), readKeeps(reading))
            && asked == unclear;
    if (!right) {
      misses.add(
          note.text()
              + "\n  wanted "
              + gold(note.changes(), 3)
              + goldKeeps(note.keeps())
              + (unclear ? "?" : "")
              + "\n  read   "
              + read(reading, 3)
              + readKeeps(reading)
              + (asked ? "?" : ""));
    }
  }

  private static boolean same(List<String> one, List<String> other) {
    return one.stream().sorted().toList().equals(other.stream().sorted().toList());
  }

  /** True positives, found and wanted, over multisets of keys. */
  static final class Tally {
    private int right;
    private int found;
    private int wanted;

    void count(List<String> gold, List<String> read) {
      List<String> left = new ArrayList<>(gold);
      for (String key : read) {
        right += left.remove(key) ? 1 : 0;
      }
      found += read.size();
      wanted += gold.size();
    }

    double f1() {
      return found + wanted == 0 ? 1 : 2.0 * right / (found + wanted);
    }

    double recall() {
      return wanted == 0 ? 1 : (double) right / wanted;
    }

    double precision() {
      return found == 0 ? 1 : (double) right / found;
    }
  }

  private static List<String> gold(JsonNode changes, int fields) {
    List<String> keys = new ArrayList<>();
    for (JsonNode c : changes) {
      String key =
          c.get("element").asText()
              + "|"
              + c.get("aspect").asText()
              + "|"
              + c.get("direction").asText();
      key += fields > 1 ? "|" + amount(c.get("amount")) : "";
      keys.add(key + (fields > 2 ? "|" + where(c.get("where")) : ""));
    }
    return keys;
  }

  private static String amount(JsonNode amount) {
    if (amount == null || amount.isNull()) {
      return "";
    }
    if (amount.has("word")) {
      return amount.get("word").asText().toLowerCase(Locale.ROOT);
    }
    String to = amount.has("to") ? number(amount.get("to").asDouble()) : "";
    return number(amount.get("value").asDouble()) + ".." + to + amount.get("unit").asText();
  }

  private static String where(JsonNode where) {
    if (where.isObject()) {
      return place(where.get("from").asDouble(), where.get("to").asDouble());
    }
    TreeSet<String> names = new TreeSet<>();
    where.forEach(n -> names.add(n.asText()));
    return names.toString();
  }

  private static List<String> read(Reading reading, int fields) {
    List<String> keys = new ArrayList<>();
    for (RequestedChange c : reading.changes()) {
      String key = c.element() + "|" + c.aspect() + "|" + c.direction();
      key += fields > 1 ? "|" + c.amount().map(NoteScore::amount).orElse("") : "";
      keys.add(key + (fields > 2 ? "|" + where(c.where()) : ""));
    }
    return keys;
  }

  private static String amount(Amount amount) {
    if (amount.word().isPresent()) {
      return amount.word().get();
    }
    String to = amount.to().isPresent() ? number(amount.to().getAsDouble()) : "";
    return number(amount.value().getAsDouble()) + ".." + to + amount.unit().get();
  }

  private static String where(Where where) {
    return where.fromSeconds().isPresent()
        ? place(where.fromSeconds().getAsDouble(), where.toSeconds().getAsDouble())
        : new TreeSet<>(where.sections()).toString();
  }

  private static String place(double from, double to) {
    return String.format(Locale.ROOT, "%.1f-%.1f", from, to);
  }

  private static String number(double value) {
    return String.format(Locale.ROOT, "%.3f", value);
  }

  private static List<String> goldKeeps(JsonNode keeps) {
    List<String> keys = new ArrayList<>();
    keeps.forEach(k -> keys.add(k.get("element").asText() + "|" + where(k.get("where"))));
    return keys;
  }

  private static List<String> readKeeps(Reading reading) {
    List<String> keys = new ArrayList<>();
    reading.keeps().forEach(k -> keys.add(k.element() + "|" + where(k.where())));
    return keys;
  }
}
