package org.mixaccord.notes;

import static org.mixaccord.notes.CorpusTest.atLeast;

import java.io.IOException;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Holds the reader to what it reached on the sets that came after the second one. docs/notes.md
 * says what each was at first sight.
 */
class LaterSetsTest {
  @ParameterizedTest
  @CsvSource({
    "third, 0.868, 0.915, 0.978, 0.881",
    "fourth, 0.858, 0.903, 0.912, 0.809",
    "fifth, 0.776, 0.825, 0.784, 0.785",
    "sixth, 0.944, 0.965, 0.942, 0.902",
    "seventh, 0.741, 0.806, 0.847, 0.826",
    "eighth, 0.739, 0.787, 0.894, 0.568",
    "ninth, 0.809, 0.854, 0.862, 0.827",
    "tenth, 0.772, 0.838, 0.818, 0.675",
    "eleventh, 0.757, 0.799, 0.749, 0.698",
    "twelfth, 0.799, 0.840, 0.791, 0.860",
    "thirteenth, 0.870, 0.917, 0.897, 0.870",
    "fourteenth, 0.884, 0.912, 0.899, 0.823",
    "fifteenth, 0.794, 0.821, 0.934, 0.805",
    "sixteenth, 0.746, 0.812, 0.666, 0.804",
    "seventeenth, 0.810, 0.868, 0.873, 0.712",
    "eighteenth, 0.797, 0.837, 0.754, 0.776",
    "nineteenth, 0.813, 0.842, 0.921, 0.727",
    "twentieth, 0.660, 0.746, 0.659, 0.666",
    "twentyfirst, 0.779, 0.825, 0.863, 0.746"
  })
  void itDoesNotFallBack(String set, double full, double core, double keeps, double questions)
      throws IOException {
    NoteScore score = NoteScore.of(Marked.later(set));
    atLeast("all fields", full, score.full.f1());
    atLeast("part, aspect, direction", core, score.core.f1());
    atLeast("keeps", keeps, score.keeps.f1());
    atLeast("questions", questions, score.questions.f1());
  }

  /** Sets by somebody who never saw the reader. */
  @ParameterizedTest
  @ValueSource(
      strings = {
        "thirteenth",
        "fourteenth",
        "fifteenth",
        "sixteenth",
        "seventeenth",
        "eighteenth",
        "nineteenth",
        "twentieth",
        "twentyfirst"
      })
  void itHoldsEnoughOfEverything(String set) throws IOException {
    NoteQuotas.assertEnough(Marked.later(set));
  }
}
