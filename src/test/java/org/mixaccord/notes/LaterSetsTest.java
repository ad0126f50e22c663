package org.mixaccord.notes;

import static org.mixaccord.notes.CorpusTest.atLeast;

import java.io.IOException;
import org.junit.jupiter.api.Test;

/**
 * Holds the reader to what it reached on the sets that came after the second one. docs/notes.md
 * says what each was at first sight.
 */
class LaterSetsTest {
  @Test
  void theThirdSetDoesNotFallBack() throws IOException {
    NoteScore score = NoteScore.of(Marked.third());
    atLeast("all fields", 0.852, score.full.f1());
    atLeast("part, aspect, direction", 0.901, score.core.f1());
    atLeast("keeps", 0.957, score.keeps.f1());
    atLeast("questions", 0.812, score.questions.f1());
  }

  @Test
  void theFourthSetDoesNotFallBack() throws IOException {
    NoteScore score = NoteScore.of(Marked.fourth());
    atLeast("all fields", 0.798, score.full.f1());
    atLeast("part, aspect, direction", 0.852, score.core.f1());
    atLeast("keeps", 0.876, score.keeps.f1());
    atLeast("questions", 0.790, score.questions.f1());
  }

  @Test
  void theFifthSetDoesNotFallBack() throws IOException {
    NoteScore score = NoteScore.of(Marked.fifth());
    atLeast("all fields", 0.544, score.full.f1());
    atLeast("part, aspect, direction", 0.664, score.core.f1());
    atLeast("keeps", 0.628, score.keeps.f1());
    atLeast("questions", 0.534, score.questions.f1());
  }

  @Test
  void theSixthSetDoesNotFallBack() throws IOException {
    NoteScore score = NoteScore.of(Marked.sixth());
    atLeast("all fields", 0.766, score.full.f1());
    atLeast("part, aspect, direction", 0.810, score.core.f1());
    atLeast("keeps", 0.823, score.keeps.f1());
    atLeast("questions", 0.700, score.questions.f1());
  }
}
