package org.mixaccord.align;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

class TimeMapTest {
  private static final TimeMap CUT =
      TimeMap.of(
          List.of(new MapPiece(0, 10, 0.5, 10.5, 1), new MapPiece(10, 20, 14.5, 24.5, 0.9)),
          20,
          25);

  @Test
  void whatPiecesLeaveUncoveredIsOnlyOnOneSide() {
    assertEquals(List.of(), CUT.onlyHere());
    assertEquals(
        List.of(new TimeSpan(0, 0.5), new TimeSpan(10.5, 14.5), new TimeSpan(24.5, 25)),
        CUT.onlyThere());
    assertTrue(CUT.fromOther(12).isEmpty());
    assertEquals(15.0, CUT.fromOther(19.5).orElseThrow(), 1e-12);
  }

  @Test
  void stretchWithACutInsideSpansTheCut() {
    assertEquals(new TimeSpan(8.5, 16.5), CUT.toOther(new TimeSpan(8, 12)).orElseThrow());
    assertEquals(4.0, CUT.sharedSeconds(new TimeSpan(8, 12)), 1e-12);
  }

  @Test
  void inverseOfTheInverseIsTheMap() {
    assertEquals(CUT, CUT.inverse().inverse());
    Random random = new Random(31);
    for (int run = 0; run < 200; run++) {
      List<MapPiece> pieces = new ArrayList<>();
      double here = 0;
      double there = 0;
      for (int i = 0; i < 4; i++) {
        here += random.nextDouble();
        there += random.nextDouble();
        double seconds = 1 + random.nextDouble();
        pieces.add(new MapPiece(here, here + seconds, there, there + seconds, 0.8));
        here += seconds;
        there += seconds;
      }
      TimeMap map = TimeMap.of(pieces, here + 1, there + 1);
      assertEquals(pieces, map.inverse().inverse().pieces(), "seed 31, run " + run);
      double t = random.nextDouble() * here;
      map.toOther(t).ifPresent(o -> assertEquals(t, map.inverse().toOther(o).orElseThrow(), 1e-9));
    }
  }

  @Test
  void mapsFollowEachOther() {
    TimeMap shift = TimeMap.of(List.of(new MapPiece(1, 25, 0, 24, 1)), 25, 24);
    TimeMap both = CUT.then(shift, 20, 24);
    assertEquals(
        List.of(new MapPiece(0.5, 10, 0, 9.5, 1), new MapPiece(10, 20, 13.5, 23.5, 0.9)),
        both.pieces());
  }

  @Test
  void repeatedPassageKeepsOnePlaceWhenTurnedRound() {
    TimeMap twice =
        TimeMap.of(List.of(new MapPiece(0, 8, 0, 8, 1), new MapPiece(8, 20, 5, 17, 1)), 20, 17);
    TimeMap back = twice.inverse();
    assertEquals(6.0, twice.toOther(9).orElseThrow(), 1e-12);
    assertEquals(9.0, back.toOther(6).orElseThrow(), 1e-12);
    assertEquals(List.of(new TimeSpan(5, 8)), back.onlyThere());
  }
}
