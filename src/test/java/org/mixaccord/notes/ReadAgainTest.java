package org.mixaccord.notes;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;

class ReadAgainTest {
  private static final NoteContext BAND = Marked.context("band");

  private static Reading answer(String note, String words) {
    RequestedChange asked = NoteReader.read(note, BAND).changes().get(0);
    assertTrue(asked.question().isPresent(), note);
    return NoteReader.readAgain(
        note, BAND, List.of(new NoteAnswer(asked.start(), asked.end(), words)));
  }

  @Test
  void anAnswerNamesThePlace() {
    Reading reading = answer("snare louder in the quiet part", "in Verse 2");
    RequestedChange change = reading.changes().get(0);
    assertEquals(List.of("Verse 2"), change.where().sections());
    assertEquals("up", change.direction());
    assertTrue(change.question().isEmpty());
  }

  @Test
  void anAnswerNamesThePart() {
    String note = "turn that one up a bit in verse 2";
    RequestedChange asked = NoteReader.read(note, BAND).changes().get(0);
    assertEquals("Which part do you mean?", asked.question().orElseThrow().text());
    Reading reading = answer(note, "the guitars and the organ");
    assertEquals(
        List.of("guitars", "organ"),
        reading.changes().stream().map(RequestedChange::element).toList());
    for (RequestedChange change : reading.changes()) {
      assertEquals("up", change.direction());
      assertEquals("a bit", change.amount().orElseThrow().word().orElseThrow());
      assertEquals(List.of("Verse 2"), change.where().sections());
      assertTrue(change.question().isEmpty());
    }
    RequestedChange whole = answer(note, "the whole mix").changes().get(0);
    assertEquals("mix", whole.element());
    assertTrue(whole.question().isEmpty());
    assertTrue(answer(note, "hmm").changes().get(0).question().isPresent());
  }

  @Test
  void anAnswerNamesThePartAndWhereAndHowMuch() {
    RequestedChange change =
        answer("turn that one up", "the organ, by 2 dB in the bridge").changes().get(0);
    assertEquals("organ", change.element());
    assertEquals("up", change.direction());
    assertEquals(2, change.amount().orElseThrow().value().orElseThrow());
    assertEquals(List.of("Bridge"), change.where().sections());
    assertTrue(change.question().isEmpty());
  }

  @Test
  void theWholeSongIsAnAnswer() {
    RequestedChange change =
        answer("snare louder in the quiet part", "the whole song").changes().get(0);
    assertTrue(change.where().isWholeSong());
    assertTrue(change.question().isEmpty());
  }

  @Test
  void anAnswerSaysWhatIsWanted() {
    RequestedChange change =
        answer("something is off with the bass in the bridge", "a bit quieter").changes().get(0);
    assertEquals("bass", change.element());
    assertEquals("level", change.aspect());
    assertEquals("down", change.direction());
    assertEquals(List.of("Bridge"), change.where().sections());
    assertTrue(change.question().isEmpty());
  }

  @Test
  void leaveItTurnsTheChangeIntoAKeep() {
    Reading reading = answer("fix the snare", "leave it as it is");
    assertTrue(reading.changes().isEmpty());
    assertEquals("snare", reading.keeps().get(0).element());
  }

  @Test
  void anAnswerThatSaysNothingLeavesTheQuestionOpen() {
    RequestedChange change = answer("fix the snare", "hmm").changes().get(0);
    assertTrue(change.question().isPresent());
  }

  @Test
  void everyChoiceOfferedIsAnAnswer() {
    for (String note :
        List.of(
            "fix the snare",
            "something is off with the vocal",
            "not sure about the mix",
            "snare louder in the quiet part",
            "kick up 2 in V1 and kick down 2 in V1")) {
      RequestedChange asked = NoteReader.read(note, BAND).changes().get(0);
      for (String choice : asked.question().orElseThrow().choices()) {
        Reading again = answer(note, choice);
        boolean open =
            again.changes().stream()
                .anyMatch(
                    c ->
                        c.start() == asked.start()
                            && c.question().equals(asked.question())
                            && c.equals(asked));
        assertTrue(!open, note + " answered by " + choice);
      }
    }
  }
}
