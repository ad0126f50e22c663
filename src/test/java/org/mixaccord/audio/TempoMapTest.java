package org.mixaccord.audio;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

class TempoMapTest {
  private static final double TINY = 1e-9;

  /** 2 bars of 6/8, then 2 of 7/8, then 4/4; 60 quarters a minute, 120 from quarter 6 on. */
  private static final TempoMap MAP =
      TempoMap.of(
          10,
          List.of(new TempoMap.Tempo(0, 1e6), new TempoMap.Tempo(6, 0.5e6)),
          List.of(
              new TempoMap.Meter(0, 6, 8),
              new TempoMap.Meter(6, 7, 8),
              new TempoMap.Meter(13, 4, 4)));

  @Test
  void barsAndBeatsLieWhereTheyAreCounted() {
    assertEquals(10, MAP.seconds(1, 1), TINY);
    assertEquals(13, MAP.seconds(2, 1), TINY);
    assertEquals(13 + 3 * 0.5, MAP.seconds(2, 4), TINY);
    assertEquals(16, MAP.seconds(3, 1), TINY);
    assertEquals(16 + 1.75, MAP.seconds(4, 1), TINY);
    assertEquals(19.5, MAP.seconds(5, 1), TINY);
    assertEquals(19.5 + 2 + 0.5, MAP.seconds(6, 2), TINY);
  }

  @Test
  void beforeTheBeginningTheFirstTempoGoesOnBackwards() {
    assertEquals(7, MAP.seconds(0, 1), TINY);
    assertEquals(new TempoMap.BarBeat(0, 1), MAP.at(7));
  }

  @Test
  void aTimeIsFoundByBarAndBeat() {
    assertEquals(2, MAP.at(14).bar());
    assertEquals(3, MAP.at(14).beat(), TINY);
    assertEquals(6, MAP.at(22).bar());
    assertEquals(2, MAP.at(22).beat(), TINY);
  }

  /** A metre that changes inside a bar ends that bar: 2 quarters of 4/4, then 3/4. */
  @Test
  void aChangeOfMetreBeginsABar() {
    TempoMap map =
        TempoMap.of(
            0, List.of(), List.of(new TempoMap.Meter(0, 4, 4), new TempoMap.Meter(6, 3, 4)));
    assertEquals(3.0, map.seconds(3, 1), TINY);
    assertEquals(4.5, map.seconds(4, 1), TINY);
    List<TempoMap.Bar> bars = map.bars(0, 4.4, 1000);
    assertEquals(
        List.of(
            new TempoMap.Bar(1, List.of(0.0, 0.5, 1.0, 1.5)),
            new TempoMap.Bar(2, List.of(2.0, 2.5)),
            new TempoMap.Bar(3, List.of(3.0, 3.5, 4.0))),
        bars);
  }

  @Test
  void barsBeginWithTheFirstBarlineOfTheStretch() {
    List<TempoMap.Bar> bars = MAP.bars(10.5, 16, 1000);
    assertEquals(1, bars.size());
    assertEquals(2, bars.get(0).number());
    assertEquals(6, bars.get(0).beats().size());
  }

  @Test
  void beatsWrittenOutAreBounded() {
    List<TempoMap.Bar> bars = TempoMap.steady(300, 4, 0).bars(0, 1e9, 100);
    assertEquals(25, bars.size());
  }

  @Test
  void oneTempoThroughoutIsPlainArithmetic() {
    TempoMap map = TempoMap.steady(96, 3, 1.25);
    assertEquals(1.25 + 32 * 3 * 60 / 96.0, map.seconds(33, 1), TINY);
    assertEquals(1.25 + 32 * 3 * 60 / 96.0 + 2 * 60 / 96.0, map.seconds(33, 3), TINY);
  }

  @Test
  void secondsAndBarsAreEachOthersOpposite() {
    Random random = new Random(3);
    for (int n = 0; n < 1000; n++) {
      double seconds = 5 + 30 * random.nextDouble();
      assertEquals(seconds, MAP.seconds(MAP.quarter(seconds)), 1e-9);
      assertEquals(seconds, MAP.secondsOfBars(MAP.bars(seconds)), 1e-6);
      TempoMap.BarBeat at = MAP.at(seconds);
      assertEquals(seconds, MAP.seconds(at.bar(), at.beat()), 1e-6);
      assertTrue(at.beat() >= 1, at.toString());
    }
  }
}
