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
    "third, 0.867, 0.908, 0.978, 0.862",
    "fourth, 0.849, 0.889, 0.911, 0.809",
    "fifth, 0.767, 0.824, 0.754, 0.785",
    "sixth, 0.935, 0.956, 0.906, 0.888",
    "seventh, 0.709, 0.789, 0.823, 0.810",
    "eighth, 0.732, 0.784, 0.893, 0.531",
    "ninth, 0.793, 0.839, 0.751, 0.785",
    "tenth, 0.749, 0.820, 0.794, 0.621",
    "eleventh, 0.725, 0.775, 0.685, 0.689",
    "twelfth, 0.778, 0.823, 0.726, 0.836"
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
