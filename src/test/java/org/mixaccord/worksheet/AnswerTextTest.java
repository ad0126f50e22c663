package org.mixaccord.worksheet;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

class AnswerTextTest {
  private static WorkSheet.Line line(
      int number, String part, WorkSheet.State state, String how, String reason, String moved) {
    return new WorkSheet.Line(
        Integer.toString(number),
        part,
        "up",
        List.of(new WorkSheet.Said("Lio", "x"), new WorkSheet.Said("Bas", "y")),
        "Chorus 1",
        List.of(),
        state,
        Optional.ofNullable(how),
        Optional.ofNullable(reason),
        Optional.ofNullable(moved),
        Optional.empty());
  }

  @Test
  void theAnswerSaysWhatBecameOfEachLine() {
    WorkSheet sheet =
        SheetForTests.sheet(
            line(1, "Lead vocal", WorkSheet.State.DONE, "as asked", null, "+1.0 dB"),
            line(2, "Drums", WorkSheet.State.DONE, "solved differently", "room mics instead", null),
            line(3, "Strings", WorkSheet.State.LEFT, "needs files", "part 2 is missing", null),
            line(4, "Bass", WorkSheet.State.LEFT, "tried and left", null, null),
            line(5, "Keys", WorkSheet.State.OPEN, null, null, null),
            line(6, "Pad", WorkSheet.State.ANSWERED, "as asked", null, null));
    assertEquals(
        """
        Marigold Overcoat, Mix 3

        Done
        – Lead vocal: up (Chorus 1), Lio and Bas: +1.0 dB

        Done differently
        – Drums: up (Chorus 1), Lio and Bas. room mics instead

        Not done
        – Strings: up (Chorus 1), Lio and Bas. Needs files: part 2 is missing
        – Bass: up (Chorus 1), Lio and Bas. Tried and left

        Still open
        – Keys: up (Chorus 1), Lio and Bas

        Left alone, as you asked
        – Whole mix (Bridge)
        """,
        AnswerText.of(sheet));
  }

  @Test
  void wishesWorkedAsOneShareALineOnlyWhenTheySayTheSame() {
    WorkSheet.Line bass = line(0, "Bass", WorkSheet.State.OPEN, null, null, null);
    WorkSheet.Line keys = line(0, "Keys", WorkSheet.State.OPEN, null, null, null);
    List<WorkSheet.Line> apart = OnePiece.lines(3, List.of(bass, keys, bass));
    assertEquals(List.of("3a", "3b"), apart.stream().map(WorkSheet.Line::number).toList());
    assertEquals(List.of("Bass", "Keys"), apart.stream().map(WorkSheet.Line::part).toList());
    assertEquals(4, apart.get(0).said().size());
    List<WorkSheet.Line> alike = OnePiece.lines(4, List.of(keys, keys));
    assertEquals(List.of("4"), alike.stream().map(WorkSheet.Line::number).toList());
    assertEquals(4, alike.get(0).said().size());
    List<WorkSheet.Line> many =
        OnePiece.lines(
            1,
            IntStream.range(0, 28)
                .mapToObj(i -> line(0, "Part " + i, WorkSheet.State.OPEN, null, null, null))
                .toList());
    assertEquals("1z", many.get(25).number());
    assertEquals("1ab", many.get(27).number());
  }

  @Test
  void wordsOfThePage() {
    assertEquals(
        "Chorus 1, 2 and 3", AskWords.sections(List.of("Chorus 1", "Chorus 2", "Chorus 3")));
    assertEquals("Verse 1 and Bridge", AskWords.sections(List.of("Verse 1", "Bridge")));
    assertEquals("\u22121.5 dB", AskWords.decibels(-1.5));
    assertEquals("0.0 dB", AskWords.decibels(-0.04));
    assertEquals("+0.1 dB", AskWords.decibels(0.06));
    assertEquals("1:01.235", AskWords.clockMillis(61.2345));
    assertEquals("60:00.000", AskWords.clockMillis(3599.9996));
    assertEquals("Whole mix", AskWords.part("mix"));
    assertEquals("up, a touch", AskWords.ask("level", "up", Optional.of("a touch")));
  }
}
