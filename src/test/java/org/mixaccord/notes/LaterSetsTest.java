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
    "third, 0.865, 0.906, 0.978, 0.862",
    "fourth, 0.849, 0.889, 0.911, 0.809",
    "fifth, 0.761, 0.817, 0.754, 0.770",
    "sixth, 0.933, 0.954, 0.906, 0.888",
    "seventh, 0.703, 0.782, 0.823, 0.760",
    "eighth, 0.730, 0.782, 0.893, 0.531",
    "ninth, 0.779, 0.829, 0.751, 0.785",
    "tenth, 0.747, 0.819, 0.794, 0.582"
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
