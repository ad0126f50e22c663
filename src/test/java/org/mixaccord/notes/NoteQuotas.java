package org.mixaccord.notes;

import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/** What a set of notes must hold, so that a score on it says something. */
final class NoteQuotas {
  private NoteQuotas() {}

  /** 200 notes, 40 to ask back, 40 with a keep, and every wish three times. */
  static void assertEnough(List<Marked.Note> notes) {
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
}
