package org.mixaccord.notes;

import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.util.List;
import java.util.Locale;

/**
 * Reading notes: the marked ones over and over, and texts of 100 kB that are ordinary, rambling or
 * nothing but brackets or letters. Prints CPU time of the one working thread, warm.
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
