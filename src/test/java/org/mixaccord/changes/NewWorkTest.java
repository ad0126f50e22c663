package org.mixaccord.changes;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Optional;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.mixaccord.notes.Amount;

/** What mixing can do, and what has to be sung, played or edited first. */
class NewWorkTest {
  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "other|any|can we re-record the second verse vocal|take",
        "other|any|I'd like to sing the bridge again|",
        "other|any|let me sing it again on Friday|take",
        "level|up|use another take of the lead in V2|take",
        "mute|in|add a harmony part in the last chorus|part",
        "mute|in|record a tambourine for C3|part",
        "mute|in|bring the tambourine back in C3|",
        "mute|in|where did the strings go|",
        "other|any|overdub some claps|part",
        "length|shorter|cut 4 bars of the intro|form",
        "length|shorter|drop the second verse|form",
        "length|longer|repeat the last chorus|form",
        "length|shorter|trim the tail|",
        "fade|longer|fade over 8 bars|",
        "level|up|vocal up a touch|",
        "level|down|the added strings down|",
        "noise|fix|take the breath out|",
      })
  void itIsToldFromWords(String aspect, String direction, String text, String kind) {
    assertEquals(
        Optional.ofNullable(kind),
        NewWork.guess(aspect, direction, Optional.empty(), text).map(NewWork::wire),
        text);
  }

  @ParameterizedTest
  @CsvSource({"bars,form", "s,"})
  void barsAreTheForm(String unit, String kind) {
    assertEquals(
        Optional.ofNullable(kind),
        NewWork.guess("length", "shorter", Optional.of(Amount.of(2, unit)), "two off the front")
            .map(NewWork::wire));
  }
}
