package org.mixaccord.notes;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Optional;
import org.junit.jupiter.api.Test;

class WordingTest {
  @Test
  void anAmountIsWrittenAsPeopleWriteIt() {
    assertEquals("1.5 dB", Wording.amount(Amount.of(1.5, "dB")));
    assertEquals("4 to 5 seconds", Wording.amount(Amount.range(4, 5, "s")));
    assertEquals("1 bar", Wording.amount(Amount.of(1, "bars")));
    assertEquals("a touch", Wording.amount(Amount.vague("a touch")));
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
        assertNotNull(Wording.wish(change), aspect + " " + direction);
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
