package org.mixaccord.notes;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import org.junit.jupiter.api.Test;

/** Times as people write them for a song whose sections begin between two seconds. */
class TimesInNotesTest {
  private static final NoteContext SONG =
      new NoteContext(
          List.of(
              new NamedSpan("Verse 1", 0, 38.4),
              new NamedSpan("Chorus 1", 38.4, 86.6),
              new NamedSpan("Verse 2", 86.6, 106.6),
              new NamedSpan("Bridge", 106.6, 158.2)),
          OptionalDouble.of(100),
          OptionalInt.of(4),
          OptionalDouble.of(0),
          List.of());

  private static Where whereOf(String text) {
    return only(text).where();
  }

  private static RequestedChange only(String text) {
    Reading reading = NoteReader.read(text, SONG);
    assertEquals(1, reading.changes().size(), text);
    return reading.changes().get(0);
  }

  @Test
  void aTimeWithoutItsFractionNamesTheSectionThatBeginsWithinTheSecond() {
    assertEquals(Where.between(106.6, 106.6), whereOf("1:46 strings louder"));
    assertEquals(Where.between(38.4, 86.6), whereOf("0:38 to 1:26 guitars down"));
    assertEquals(Where.between(105, 105), whereOf("1:45 strings louder"));
    assertEquals(Where.between(106.2, 106.2), whereOf("1:46.2 strings louder"));
  }

  @Test
  void aStretchEndsWithTheSong() {
    assertEquals(Where.between(150, 158.2), whereOf("guitars down from 2:30 to 3:30"));
  }

  @Test
  void aPlaceThatIsNotInTheSongIsAskedFor() {
    for (String text :
        List.of("keys louder at 5:00", "vocal up in bar 200", "keys louder at 0:75")) {
      NoteQuestion question = only(text).question().orElseThrow();
      assertEquals(NoteQuestion.About.PLACE, question.about(), text);
    }
    assertEquals(
        "Where in the song is “5:00”?",
        only("keys louder at 5:00").question().orElseThrow().text());
  }

  @Test
  void theLikelySectionsComeFirst() {
    assertEquals(
        List.of("in Verse 2", "in Verse 1", "in Chorus 1", "the whole song"),
        only("bass down in verse 3").question().orElseThrow().choices());
    assertEquals(
        List.of("in Bridge", "in Verse 1", "in Chorus 1", "the whole song"),
        only("second bridge needs more bass").question().orElseThrow().choices());
  }
}
