package org.mixaccord.audio;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.mixaccord.audio.MarkedSections.Mark;
import org.mixaccord.audio.MarkedSections.Stretch;

class MarkedSectionsTest {
  private static Mark at(double seconds, String label) {
    return new Mark(seconds, OptionalDouble.empty(), label);
  }

  private static Mark region(double from, double to, String label) {
    return new Mark(from, OptionalDouble.of(to), label);
  }

  @Test
  void aSectionRunsFromEachMarkToTheNext() {
    assertEquals(
        List.of(
            new Stretch("Verse", 2, 10), new Stretch("Chorus", 10, 18), new Stretch("End", 18, 24)),
        MarkedSections.of(List.of(at(18, "End"), at(2, "Verse"), at(10, "Chorus")), 24, 60));
  }

  @Test
  void aRegionKeepsItsEndAndGivesWayToTheNextMark() {
    assertEquals(
        List.of(new Stretch("A", 1, 3), new Stretch("B", 5, 8), new Stretch("C", 8, 12)),
        MarkedSections.of(
            List.of(region(1, 3, "A"), region(5, 9, "B"), region(8, 12, "C")), 20, 60));
  }

  @Test
  void sameNamesAreNumberedAndMissingOnesAreNeutral() {
    List<Mark> marks =
        List.of(
            at(0, "Verse"),
            at(2, ""),
            at(4, "verse"),
            at(6, ""),
            at(8, "Section 1"),
            at(9, "Verse 2"));
    assertEquals(
        List.of("Verse 1", "Section 2", "verse 3", "Section 3", "Section 1", "Verse 2"),
        MarkedSections.of(marks, 20, 60).stream().map(Stretch::name).toList());
  }

  @Test
  void marksAtOnePlaceAreOneAndThoseBehindTheEndFallAway() {
    assertEquals(
        List.of(new Stretch("Named", 1, 4), new Stretch("Last", 4, 10)),
        MarkedSections.of(
            List.of(
                at(1, ""), at(1.01, "Named"), at(4, "Last"), at(9.99, "No room"), at(12, "Behind")),
            10,
            60));
  }

  @Test
  void longNamesAreCutAndStayUnlike() {
    String name = "x".repeat(80);
    List<Stretch> made = MarkedSections.of(List.of(at(0, name), at(1, name)), 5, 60);
    assertEquals("x".repeat(58) + " 1", made.get(0).name());
    assertEquals("x".repeat(58) + " 2", made.get(1).name());
  }

  @Test
  void noMarksMakeNoSections() {
    assertTrue(MarkedSections.of(List.of(), 10, 60).isEmpty());
  }
}
