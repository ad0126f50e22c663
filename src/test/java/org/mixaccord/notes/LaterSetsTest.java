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
    "third, 0.868, 0.908, 0.978, 0.862",
    "fourth, 0.858, 0.903, 0.911, 0.809",
    "fifth, 0.776, 0.825, 0.784, 0.785",
    "sixth, 0.943, 0.965, 0.942, 0.901",
    "seventh, 0.733, 0.803, 0.846, 0.826",
    "eighth, 0.732, 0.784, 0.893, 0.531",
    "ninth, 0.806, 0.851, 0.861, 0.813",
    "tenth, 0.763, 0.832, 0.817, 0.674",
    "eleventh, 0.752, 0.798, 0.749, 0.698",
    "twelfth, 0.790, 0.831, 0.791, 0.859",
    "thirteenth, 0.870, 0.916, 0.897, 0.870",
    "fourteenth, 0.883, 0.912, 0.899, 0.823",
    "fifteenth, 0.791, 0.818, 0.934, 0.804",
    "sixteenth, 0.739, 0.809, 0.666, 0.790",
    "seventeenth, 0.810, 0.868, 0.873, 0.711",
    "eighteenth, 0.794, 0.834, 0.754, 0.775",
    "nineteenth, 0.813, 0.842, 0.921, 0.717",
    "twentieth, 0.655, 0.745, 0.659, 0.666",
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
