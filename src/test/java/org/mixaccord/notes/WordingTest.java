package org.mixaccord.notes;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Optional;
import org.junit.jupiter.api.Test;

class WordingTest {
  private static final NoteContext BAND = Marked.context("band");

  private static String said(String note) {
    return Wording.describe(NoteReader.read(note, BAND).changes().get(0));
  }

  @Test
  void saysAChangeInPlainWords() {
    assertEquals(
        "Lead vocal louder, a touch — Chorus 1, 2, 3",
        said("lead vocal up a touch in the choruses"));
    assertEquals("Snare less boxy — Verse 1", said("snare is boxy in verse 1"));
    assertEquals("Bass quieter, 2 dB — 1:15", said("bass down 2dB at 1:15"));
    assertEquals(
        "The whole mix longer fade, 4 to 5 seconds — Outro", said("fade 4 or 5 seconds longer"));
  }

  @Test
  void saysAKeepInPlainWords() {
    assertEquals(
        "Leave alone: everything — Bridge",
        Wording.describe(NoteReader.read("leave the bridge alone", BAND).keeps().get(0)));
  }

  @Test
  void everyChangeOfTheVocabularyHasWords() {
    for (String aspect : Vocabulary.aspects()) {
      for (String direction : Vocabulary.directions(aspect)) {
        RequestedChange change =
            new RequestedChange(
                "snare",
                aspect,
                direction,
                Optional.empty(),
                Where.WHOLE_SONG,
                Optional.empty(),
                "",
                0,
                0);
        assertFalse(Wording.describe(change).contains("null"), aspect + " " + direction);
      }
    }
  }

  @Test
  void aVagueAmountHasAUsualRangeAndANumberHasNone() {
    Wording.UsualRange range = Wording.usualRange(Amount.vague("a touch")).orElseThrow();
    assertEquals(0.5, range.lowDb());
    assertEquals(1.0, range.highDb());
    assertTrue(Wording.usualRange(Amount.of(1, "dB")).isEmpty());
    assertTrue(Wording.usualRange(Amount.vague("like the sun")).isEmpty());
  }
}
