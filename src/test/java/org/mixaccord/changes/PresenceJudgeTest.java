package org.mixaccord.changes;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import org.junit.jupiter.api.Test;

class PresenceJudgeTest {
  @Test
  void aPartBroughtBackIsAsAsked() {
    Verdict verdict = judge(true, place("Bridge", false, true));
    assertEquals(Seen.AS_ASKED, verdict.seen());
    assertEquals("Sounds now in Bridge.", verdict.detail());
  }

  @Test
  void aPartThatStaysIsNotSeenToGo() {
    assertEquals(Seen.NOT_SEEN, judge(false, place("Verse", true, true)).seen());
    assertEquals("Still sounds in Verse.", judge(false, place("Verse", true, true)).detail());
  }

  @Test
  void someOfTheSectionsArePartly() {
    assertEquals(
        Seen.PARTLY, judge(false, place("V1", true, false), place("V2", true, true)).seen());
  }

  @Test
  void whatWasSoBeforeCannotBeTold() {
    assertEquals(Seen.CANNOT_TELL, judge(true, place("Bridge", true, true)).seen());
    assertEquals(Seen.CANNOT_TELL, judge(true).seen());
  }

  private static Verdict judge(boolean in, PresenceJudge.Presence... places) {
    return PresenceJudge.judge(in, List.of(places));
  }

  private static PresenceJudge.Presence place(String section, boolean before, boolean now) {
    return new PresenceJudge.Presence(section, before, now);
  }
}
