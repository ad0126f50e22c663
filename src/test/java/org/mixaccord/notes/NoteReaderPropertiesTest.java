package org.mixaccord.notes;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTimeoutPreemptively;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import java.util.Set;
import java.util.TreeSet;
import java.util.concurrent.atomic.AtomicReference;
import java.util.function.UnaryOperator;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;

/** What holds for every text, not only for the ones somebody marked. */
class NoteReaderPropertiesTest {
  private static final long SEED = 20260117;
  private static final Pattern WORD = Pattern.compile("\\p{L}{2,}");

  /** "Guitar?" and "more" are notes of their own, and no more behind a heading. */
  private static final int FEWEST_WORDS = 3;

  private static final NoteContext BAND = Marked.context("band");

  @Test
  void neverThrowsOnMutatedNotesAndSpansLieInside() throws IOException {
    Random random = new Random(SEED);
    List<Marked.Note> notes = Marked.corpus();
    String odd = "\u0000\ud83d\n\t\"'’“”()[]{}:;,.!?-–—+/\\%&@#0123456789:00🔥é\u0301";
    for (int round = 0; round < 4000; round++) {
      StringBuilder text = new StringBuilder(notes.get(random.nextInt(notes.size())).text());
      int edits = random.nextInt(12);
      for (int e = 0; e < edits && text.length() > 0; e++) {
        int at = random.nextInt(text.length());
        switch (random.nextInt(4)) {
          case 0 -> text.deleteCharAt(at);
          case 1 -> text.insert(at, odd.charAt(random.nextInt(odd.length())));
          case 2 -> text.setCharAt(at, (char) random.nextInt(0x10000));
          default -> text.insert(at, text.substring(at, Math.min(text.length(), at + 9)));
        }
      }
      check(text.toString(), round % 3 == 0 ? NoteContext.empty() : BAND);
    }
  }

  @Test
  void neverThrowsOnNoiseOrOnWordsInAnyOrder() throws IOException {
    Random random = new Random(SEED + 1);
    List<String> words = new ArrayList<>();
    for (Marked.Note note : Marked.corpus()) {
      words.addAll(List.of(note.text().split(" ")));
    }
    for (int round = 0; round < 3000; round++) {
      StringBuilder text = new StringBuilder();
      int length = random.nextInt(25);
      for (int w = 0; w < length; w++) {
        text.append(words.get(random.nextInt(words.size()))).append(' ');
      }
      check(text.toString(), BAND);
      char[] noise = new char[random.nextInt(60)];
      for (int c = 0; c < noise.length; c++) {
        noise[c] = (char) random.nextInt(0x3000);
      }
      check(new String(noise), BAND);
    }
  }

  /** Words that build places, amounts and requests stand next to each other in every way. */
  @Test
  void anyPhrasesOfTheTablesAreReadToTheirEnd() {
    List<List<String>> kinds = new ArrayList<>();
    for (String word : List.of("and", "the", "of", "in", "2", "3 dB", "1:12", ",", "-")) {
      kinds.add(List.of(word));
    }
    for (String table : List.of("places.tsv", "sections.tsv", "operators.tsv", "elements.tsv")) {
      Lexicon.lines(
          table, (fields, line) -> kinds.add(List.of(fields[fields.length - 1].split(", "))));
    }
    int ofPlaces = 9 + lines("places.tsv") + lines("sections.tsv");
    AtomicReference<String> reading = new AtomicReference<>();
    Random random = new Random(SEED + 3);
    assertTimeoutPreemptively(
        Duration.ofMinutes(5),
        () -> {
          for (int round = 0; round < 30_000; round++) {
            int most = round % 2 == 0 ? ofPlaces : kinds.size();
            StringBuilder text = new StringBuilder();
            for (int w = random.nextInt(9); w >= 0; w--) {
              List<String> kind = kinds.get(random.nextInt(most));
              text.append(kind.get(random.nextInt(kind.size()))).append(' ');
            }
            reading.set(text.toString());
            check(text.toString(), round % 3 == 0 ? NoteContext.empty() : BAND);
          }
        },
        () -> "never ends: " + reading.get());
  }

  /** No phrase goes deeper the more often it is said. */
  @Test
  void phrasesSaidOverAndOverAreReadToTheirEnd() {
    List<String> said = new ArrayList<>(List.of("C1-V1-", "the end of the start of ", "V2 to "));
    for (String table : List.of("places.tsv", "sections.tsv")) {
      Lexicon.lines(
          table, (fields, line) -> said.add(fields[fields.length - 1].split(", ")[0] + " "));
    }
    for (String phrase : said) {
      check(phrase.repeat(4000), BAND);
      check(("the " + phrase).repeat(4000), BAND);
      check(("at the end " + phrase).repeat(2000), BAND);
    }
  }

  private static int lines(String table) {
    List<String> all = new ArrayList<>();
    Lexicon.lines(table, (fields, line) -> all.add(line));
    return all.size();
  }

  private static void check(String text, NoteContext context) {
    Reading reading;
    try {
      reading = NoteReader.read(text, context);
    } catch (RuntimeException | StackOverflowError e) {
      throw new AssertionError("seed " + SEED + ", text: " + shown(text), e);
    }
    for (RequestedChange c : reading.changes()) {
      assertEquals(text.substring(c.start(), c.end()), c.text(), shown(text));
      assertTrue(c.end() > c.start(), shown(text));
      assertTrue(Vocabulary.knows(c.aspect(), c.direction()), shown(text));
    }
    for (RequestedKeep k : reading.keeps()) {
      assertEquals(text.substring(k.start(), k.end()), k.text(), shown(text));
    }
    for (Remark r : reading.remarks()) {
      assertEquals(text.substring(r.start(), r.end()), r.text(), shown(text));
    }
  }

  private static String shown(String text) {
    return text.length() > 300 ? text.substring(0, 300) + "…" : text;
  }

  @Test
  void everyWordIsInSomeSpan() throws IOException {
    for (Marked.Note note : Marked.corpus()) {
      Reading reading = NoteReader.read(note.text(), Marked.context(note.context()));
      boolean[] covered = new boolean[note.text().length()];
      reading.changes().forEach(c -> cover(covered, c.start(), c.end()));
      reading.keeps().forEach(k -> cover(covered, k.start(), k.end()));
      reading.remarks().forEach(r -> cover(covered, r.start(), r.end()));
      // single letters may be the sign before a point of a list
      Matcher words = WORD.matcher(note.text());
      while (words.find()) {
        for (int i = words.start(); i < words.end(); i++) {
          assertTrue(covered[i], "“" + words.group() + "” in: " + note.text());
        }
      }
    }
  }

  private static void cover(boolean[] covered, int from, int to) {
    for (int i = from; i < to; i++) {
      covered[i] = true;
    }
  }

  @Test
  void theSameTextReadsTheSame() throws IOException {
    for (Marked.Note note : Marked.corpus()) {
      NoteContext context = Marked.context(note.context());
      assertEquals(NoteReader.read(note.text(), context), NoteReader.read(note.text(), context));
    }
  }

  @Test
  void caseAndQuotationMarksMakeNoDifference() throws IOException {
    for (Marked.Note note : Marked.corpus()) {
      NoteContext context = Marked.context(note.context());
      List<String> plain = wishes(NoteReader.read(note.text(), context));
      String upper = note.text().toUpperCase(Locale.ROOT);
      if (upper.length() == note.text().length()) {
        assertEquals(plain, wishes(NoteReader.read(upper, context)), upper);
      }
      String set =
          note.text().replace('\'', '\u2019').replace(" \"", " \u201c").replace('"', '\u201d');
      assertEquals(plain, wishes(NoteReader.read(set, context)), set);
    }
  }

  @Test
  void orderOfIndependentRequestsDoesNotMatter() {
    List<String> lines =
        List.of(
            "vox +1 in the choruses",
            "snare is boxy in verse 1",
            "lose the tambourine in C3",
            "leave the bridge alone",
            "bass down 2 dB at 1:20",
            "the fade is too short",
            "organ a touch brighter in V2");
    Random random = new Random(SEED + 2);
    Set<String> expected = new TreeSet<>(wishes(NoteReader.read(String.join("\n", lines), BAND)));
    for (int round = 0; round < 50; round++) {
      List<String> shuffled = new ArrayList<>(lines);
      java.util.Collections.shuffle(shuffled, random);
      Reading reading = NoteReader.read(String.join("\n", shuffled), BAND);
      assertEquals(expected, new TreeSet<>(wishes(reading)), shuffled.toString());
    }
  }

  private static List<String> wishes(Reading reading) {
    List<String> all =
        reading.changes().stream()
            .map(
                c ->
                    String.join(
                        " ",
                        c.element(),
                        c.aspect(),
                        c.direction(),
                        c.amount().toString(),
                        c.where().toString(),
                        String.valueOf(c.question().isPresent())))
            .collect(Collectors.toCollection(ArrayList::new));
    reading.keeps().forEach(k -> all.add("keep " + k.element() + " " + k.where()));
    return all;
  }

  /** How long it takes is in the benchmark of notes. */
  @Test
  void aLongNoteIsReadToItsEnd() throws IOException {
    StringBuilder text = new StringBuilder();
    List<Marked.Note> notes = Marked.corpus();
    for (int i = 0; text.length() < 100_000; i++) {
      text.append(notes.get(i % notes.size()).text()).append(i % 2 == 0 ? ". " : "\n");
    }
    check(text + "\nsnare up 1 dB in verse 2", BAND);
    Reading whole = NoteReader.read(text + "\nsnare up 1 dB in verse 2", BAND);
    RequestedChange last = whole.changes().get(whole.changes().size() - 1);
    assertEquals("snare", last.element());
    assertEquals(List.of("Verse 2"), last.where().sections());
    int rambled =
        NoteReader.read("snare up and kick down and ".repeat(4000), BAND).changes().size();
    assertTrue(rambled > 0);
    check("\"((((".repeat(20_000), BAND);
    check("o".repeat(100_000), BAND);
  }

  /** "Thanks!", a greeting or a laugh ask for nothing and take nothing back. */
  @Test
  void politenessChangesNothing() throws IOException {
    List<UnaryOperator<String>> polite =
        List.of(
            text -> "Hi Maren,\n" + text,
            text -> closed(text) + (text.endsWith("?") ? "" : ".") + " Thanks!",
            text -> closed(text) + "\n\nBest, Ilka",
            text -> closed(text) + " \ud83d\ude4f",
            text -> closed(text) + " haha",
            text -> closed(text) + " :)");
    assertUnchanged(List.of("marked", "sixth", "seventh", "ninth"), polite, 1);
  }

  /** Nor does what the note is called, whom it is for, or whose it is. */
  @Test
  void headingsChangeNothing() throws IOException {
    assertUnchanged(
        List.of("marked", "sixth", "ninth", "fourteenth"),
        List.of(
            text -> "Feedback on mix 2:\n" + text,
            text -> "@Maren " + text,
            text -> "From the band: " + text,
            text -> "Quick note: " + text,
            text -> "Last thing: " + text,
            text -> "imho " + text,
            text -> "- " + text),
        FEWEST_WORDS);
  }

  private static void assertUnchanged(
      List<String> sets, List<UnaryOperator<String>> ways, int fewestWords) throws IOException {
    List<String> changed = new ArrayList<>();
    for (String set : sets) {
      for (Marked.Note note : Marked.later(set)) {
        if (note.text().split(" ").length < fewestWords) {
          continue;
        }
        NoteContext context = Marked.context(note.context());
        String plain = asked(NoteReader.read(note.text(), context));
        for (UnaryOperator<String> more : ways) {
          String text = more.apply(note.text());
          if (!asked(NoteReader.read(text, context)).equals(plain)) {
            changed.add(text);
          }
        }
      }
    }
    assertEquals(List.of(), changed);
  }

  private static String closed(String text) {
    return text.replaceAll("[.!\\s]+$", "");
  }

  private static String asked(Reading reading) {
    String changes =
        reading.changes().stream()
            .map(c -> c.element() + c.aspect() + c.direction() + c.amount() + c.where())
            .sorted()
            .collect(Collectors.joining());
    return changes
        + reading.keeps().stream()
            .map(k -> k.element() + k.where())
            .sorted()
            .collect(Collectors.joining());
  }
}
