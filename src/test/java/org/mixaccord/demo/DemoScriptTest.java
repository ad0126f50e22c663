package org.mixaccord.demo;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.mixaccord.demo.DemoScript.Kind;
import org.mixaccord.demo.DemoScript.Person;
import org.mixaccord.demo.DemoScript.ScriptedNote;

class DemoScriptTest {
  @Test
  void everyNoteHasAnAuthorAMixAndAPlaceInsideIt() {
    for (DemoScript script : List.of(DemoScript.first(), DemoScript.second())) {
      Set<String> people = script.people().stream().map(Person::key).collect(Collectors.toSet());
      for (ScriptedNote note : script.notes()) {
        assertTrue(people.contains(note.author()), note.author());
        double length = script.song().mix(note.mix()).frames() / 48_000.0;
        note.atSeconds().ifPresent(at -> assertTrue(at >= 0 && at < length, note.text()));
      }
    }
  }

  @Test
  void firstStoryHoldsEveryKindOfNote() {
    List<ScriptedNote> notes = DemoScript.first().notes();
    assertEquals(2, notes.stream().filter(note -> note.kind() == Kind.CONTRADICTS).count());
    assertEquals(1, notes.stream().filter(note -> note.kind() == Kind.UNCLEAR).count());
    assertTrue(notes.stream().anyMatch(note -> note.kind() == Kind.PRAISE));
    assertEquals(
        Set.of("singer", "drummer", "manager"),
        notes.stream().map(ScriptedNote::author).collect(Collectors.toSet()));
  }

  @Test
  void everyMixIsSentOnceInOrder() {
    for (DemoScript script : List.of(DemoScript.first(), DemoScript.second())) {
      List<Integer> sent = script.sendings().stream().map(DemoScript.Sending::mix).toList();
      for (int n = 1; n <= script.song().mixes(); n++) {
        assertEquals(n, sent.get(n - 1));
      }
      assertEquals(script.song().mixes(), sent.size());
    }
  }
}
