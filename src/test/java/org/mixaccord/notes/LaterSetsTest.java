package org.mixaccord.notes;

import static org.mixaccord.notes.CorpusTest.atLeast;

import java.io.IOException;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Holds the reader to what it reached on the sets that came after the second one. docs/notes.md
 * says what each was at first sight.
 */
class LaterSetsTest {
  @ParameterizedTest
  @CsvSource({
    "third, 0.852, 0.901, 0.957, 0.812",
    "fourth, 0.798, 0.852, 0.876, 0.790",
    "fifth, 0.544, 0.664, 0.628, 0.534",
    "sixth, 0.766, 0.810, 0.823, 0.700"
  })
  void itDoesNotFallBack(String set, double full, double core, double keeps, double questions)
      throws IOException {
    NoteScore score = NoteScore.of(Marked.later(set));
    atLeast("all fields", full, score.full.f1());
    atLeast("part, aspect, direction", core, score.core.f1());
    atLeast("keeps", keeps, score.keeps.f1());
    atLeast("questions", questions, score.questions.f1());
  }
}
