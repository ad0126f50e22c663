package org.mixaccord.record;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import io.quarkus.test.common.QuarkusTestResource;
import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.mixaccord.PostgresForTests;
import org.mixaccord.accounts.Role;
import org.mixaccord.songs.Bounce;

/** Mixes of 100 s that were compared with their neighbours only. */
@QuarkusTest
@QuarkusTestResource(PostgresForTests.class)
class TimeMapsTest {
  @Inject ProjectForTests project;
  @Inject PlaceMover mover;
  private ProjectForTests.Cast cast;

  @BeforeEach
  void begin() {
    cast = project.begin(Map.of("art", Role.ARTIST));
  }

  private String mix(int sound) {
    return project.bounce(cast, ProjectForTests.hash(sound));
  }

  private Optional<PlaceMover.Moved> move(String from, String onto, double at, double to) {
    return io.quarkus.narayana.jta.QuarkusTransaction.requiringNew()
        .call(() -> mover.move(Bounce.findById(from), Bounce.findById(onto), at, to));
  }

  private static String maps(double... fromToThere) {
    StringBuilder rows = new StringBuilder();
    for (int i = 0; i < fromToThere.length; i += 3) {
      double from = fromToThere[i];
      double to = fromToThere[i + 1];
      double there = fromToThere[i + 2];
      rows.append(i == 0 ? "" : ",")
          .append("{\"from\":" + from + ",\"to\":" + to + ",\"otherFrom\":" + there)
          .append(",\"otherTo\":" + (there + to - from) + ",\"sure\":0.9}");
    }
    return "{\"timeMap\":[" + rows + "],\"onlyHere\":[],\"onlyThere\":[]}";
  }

  private void assertMoved(double from, double to, double sure, Optional<PlaceMover.Moved> moved) {
    assertTrue(moved.isPresent());
    assertEquals(from, moved.get().fromSeconds(), 1e-9);
    assertEquals(to, moved.get().toSeconds(), 1e-9);
    assertEquals(sure, moved.get().sure(), 1e-9);
  }

  @Test
  void aPlaceGoesThroughTheMixesBetween() {
    String first = mix(1);
    String second = mix(2);
    String third = mix(3);
    String fourth = mix(4);
    // The second begins a second later than the first, the third two more, the fourth one less.
    project.compared(second, first, maps(1, 100, 0));
    project.compared(third, second, maps(2, 100, 0));
    project.compared(fourth, third, maps(0, 99, 1));
    assertMoved(12, 15, 0.729, move(first, fourth, 10, 13));
    assertMoved(10, 13, 0.729, move(fourth, first, 12, 15));
    assertMoved(13, 13, 0.81, move(first, third, 10, 10));
  }

  @Test
  void whatWasCutOnTheWayIsNotBridged() {
    String first = mix(1);
    String second = mix(2);
    String third = mix(3);
    project.compared(second, first, maps(0, 40, 0, 40, 80, 60));
    project.compared(third, second, maps(5, 100, 0));
    assertMoved(35, 40, 0.81, move(first, third, 30, 35));
    assertMoved(50, 55, 0.81, move(first, third, 65, 70));
    assertEquals(Optional.empty(), move(first, third, 45, 50));
    assertEquals(Optional.empty(), move(first, third, 35, 65));
  }

  @Test
  void theSameSoundUnderAnotherNameIsAWayToo() {
    String first = mix(1);
    String again = mix(1);
    String later = mix(2);
    assertMoved(3, 4, 1, move(first, again, 3, 4));
    project.compared(later, again, maps(1, 100, 0));
    assertMoved(4, 5, 0.9, move(first, later, 3, 4));
  }

  @Test
  void theirOwnComparisonGoesBeforeAnyWay() {
    String first = mix(1);
    String second = mix(2);
    String third = mix(3);
    project.compared(second, first, maps(0, 40, 0));
    project.compared(third, second, maps(0, 40, 0));
    assertEquals(Optional.empty(), move(first, third, 60, 61));
    project.compared(third, first, maps(0, 100, 0));
    assertMoved(60, 61, 0.9, move(first, third, 60, 61));
  }

  @Test
  void withoutAnyWayNothingIsClaimed() {
    assertEquals(Optional.empty(), move(mix(1), mix(2), 3, 4));
  }

  @Test
  void piecesThatJoinAreOneStretch() {
    String first = mix(1);
    String second = mix(2);
    project.compared(second, first, maps(0, 50, 1, 50, 99, 51));
    assertMoved(40, 60, 0.9, move(second, first, 39, 59));
  }
}
