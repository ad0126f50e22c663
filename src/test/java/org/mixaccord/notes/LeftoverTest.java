package org.mixaccord.notes;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Test;

/** No word of a note is lost between what was read out of it and what is left. */
class LeftoverTest {
  @Test
  void whatWentIntoNothingIsLeft() {
    assertEquals(
        List.of(
            "the delay is nice but a bit too much at 0:41. Strings: perfect.",
            "The rest is great :)"),
        Leftover.of(
            "vocal up in C2 and the delay is nice but a bit too much at 0:41. Strings: perfect. "
                + "Snare isn't right. The rest is great :)",
            List.of("vocal up in C2", "Snare isn't right")));
  }

  @Test
  void greetingsAndThanksAloneAreNothing() {
    assertEquals(List.of(), Leftover.of("Hi all, bass up 1. Thanks!", List.of("bass up 1")));
  }

  @Test
  void theSameWordsSaidTwiceAreTakenOnce() {
    assertEquals(
        List.of("bass up"), Leftover.of("bass up, bass up", List.of("bass up", "bass up")));
  }

  @Test
  void aNoteOfWhichNothingWasReadIsLeftWhole() {
    assertEquals(List.of("what a song!"), Leftover.of("what a song!", List.of()));
  }

  @Test
  void everyWordOfTheMarkedNotesIsReadOrLeft() throws IOException {
    for (Marked.Note note : Marked.corpus()) {
      Reading reading = NoteReader.read(note.text(), Marked.context(note.context()));
      List<String> read = new ArrayList<>();
      reading.changes().forEach(c -> read.add(c.text()));
      reading.keeps().forEach(k -> read.add(k.text()));
      String both =
          (String.join(" ", read) + " " + String.join(" ", Leftover.of(note.text(), read)))
              .toLowerCase(Locale.ROOT);
      for (Remark remark : reading.remarks()) {
        for (String word : remark.text().toLowerCase(Locale.ROOT).split("\\W+")) {
          boolean small = word.length() < 4 || Courtesies.is(word);
          assertTrue(small || both.contains(word) || isGreeting(word), word + " of " + note.text());
        }
      }
    }
  }

  private static boolean isGreeting(String word) {
    return List.of("hello", "dear", "everyone", "everybody", "best", "then", "plus").contains(word);
  }
}
