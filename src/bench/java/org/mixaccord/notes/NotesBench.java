package org.mixaccord.notes;

import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Random;

/**
 * Reading notes: the marked ones over and over, and texts of 100 kB that are ordinary, rambling or
 * nothing but brackets, letters or one phrase over and over. Prints CPU time of the one working thread, warm.
 */
final class NotesBench {
  private static final int ROUNDS = 60;
  private static final int WARM = 20;

  private NotesBench() {}

  public static void main(String[] args) throws IOException {
    List<Marked.Note> notes = Marked.corpus();
    for (int round = 0; round < WARM; round++) {
      readAll(notes);
    }
    long before = cpu();
    for (int round = 0; round < ROUNDS; round++) {
      readAll(notes);
    }
    double seconds = (cpu() - before) / 1e9;
    System.out.printf(
        Locale.ROOT, "ordinary notes a second: %.0f%n", ROUNDS * notes.size() / seconds);

    StringBuilder ordinary = new StringBuilder();
    for (int i = 0; ordinary.length() < 100_000; i++) {
      ordinary.append(notes.get(i % notes.size()).text()).append(i % 2 == 0 ? ". " : "\n");
    }
    long100("ordinary", ordinary.toString());
    long100("rambling", "snare up and kick down and ".repeat(4000));
    long100("brackets", "\"((((".repeat(20_000));
    long100("letters", "o".repeat(100_000));
    worstOfRepeats();
  }

  /** Every kind of phrase of the tables, and pairs of them, over and over without a full stop. */
  private static void worstOfRepeats() {
    List<String> units = new ArrayList<>();
    for (String table : List.of("places.tsv", "sections.tsv", "operators.tsv", "elements.tsv")) {
      Lexicon.lines(
          table, (fields, line) -> units.add(fields[fields.length - 1].split(", ")[0] + " "));
    }
    Random random = new Random(20260117);
    int single = units.size();
    for (int i = 0; i < 300; i++) {
      units.add(units.get(random.nextInt(single)) + units.get(random.nextInt(single)));
    }
    double worst = 0;
    String what = "";
    for (String unit : units) {
      String text = unit.repeat(100_000 / unit.length());
      long before = cpu();
      NoteReader.read(text, Marked.context("band"));
      double seconds = (cpu() - before) / 1e9;
      if (seconds > worst) {
        worst = seconds;
        what = unit;
      }
    }
    System.out.printf(
        Locale.ROOT, "slowest of %d phrases over and over: %.2f s (%s)%n", units.size(), worst, what);
  }

  private static void readAll(List<Marked.Note> notes) {
    for (Marked.Note note : notes) {
      NoteReader.read(note.text(), Marked.context(note.context()));
    }
  }

  private static void long100(String what, String text) {
    NoteReader.read(text, Marked.context("band"));
    long before = cpu();
    NoteReader.read(text, Marked.context("band"));
    System.out.printf(
        Locale.ROOT, "%s, %d kB: %.2f s%n", what, text.length() / 1000, (cpu() - before) / 1e9);
  }

  private static long cpu() {
    return ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime();
  }
}
