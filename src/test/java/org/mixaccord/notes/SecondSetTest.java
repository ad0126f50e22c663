package org.mixaccord.notes;

import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.mixaccord.notes.CorpusTest.atLeast;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

/**
 * Scores the reader on a second set of notes, written and marked before it had read any of them.
 * docs/notes.md says what it reached at first sight and which kinds it misses; here it may not fall
 * back.
 */
class SecondSetTest {
  private static List<Marked.Note> notes;
  private static NoteScore score;

  @BeforeAll
  static void readAll() throws IOException {
    notes = Marked.second();
    score = NoteScore.of(notes);
  }

  @Test
  void itHoldsEnoughOfEverything() {
    Map<String, Integer> wishes = new TreeMap<>();
    int unclear = 0;
    int keeps = 0;
    for (Marked.Note note : notes) {
      boolean asked = false;
      for (JsonNode change : note.changes()) {
        String wish = change.get("aspect").asText() + " " + change.get("direction").asText();
        wishes.merge(wish, 1, Integer::sum);
        asked |= change.get("question").asBoolean();
      }
      unclear += asked ? 1 : 0;
      keeps += note.keeps().size();
    }
    assertTrue(notes.size() >= 200, "notes " + notes.size());
    assertTrue(unclear >= 40, "unclear " + unclear);
    assertTrue(keeps >= 40, "keeps " + keeps);
    for (String aspect : Vocabulary.aspects()) {
      for (String direction : Vocabulary.directions(aspect)) {
        String wish = aspect + " " + direction;
        assertTrue(wishes.getOrDefault(wish, 0) >= 3, wish + " " + wishes.get(wish));
      }
    }
  }

  @Test
  void itDoesNotFallBack() {
    atLeast("all fields", 0.900, score.full.f1());
    atLeast("without the place", 0.947, score.withoutWhere.f1());
    atLeast("part, aspect, direction", 0.954, score.core.f1());
    atLeast("keeps", 0.99, score.keeps.f1());
    atLeast("question agreement", 0.975, score.agreement());
    atLeast("question recall", 0.83, score.questions.recall());
    atLeast("question precision", 0.99, score.questions.precision());
  }
}
