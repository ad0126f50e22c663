package org.mixaccord.measure;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;

class SilenceFindingsTest {
  private static final int RATE = 48000;
  private static final double HUSH = -90; // dBFS, well under −70 LUFS and no zeros

  private static List<Finding> of(double... secondsAndDbfs) {
    double[] x = Signals.steps(RATE, 997, secondsAndDbfs);
    return new SilenceFindings(Signals.stereo(RATE, x)).work();
  }

  private static Finding only(List<Finding> all, String code, double from, double to) {
    assertEquals(List.of(code), all.stream().map(Finding::code).toList(), all.toString());
    Finding f = all.get(0);
    assertEquals(from, f.fromSeconds(), 0.011);
    assertEquals(to, f.toSeconds(), 0.011);
    assertEquals(to - from, f.value().getAsDouble(), 0.022);
    return f;
  }

  @Test
  void deadAirAtTheHeadInTheMiddleAndAtTheTail() {
    Finding head = only(of(3, HUSH, 5, -20), "dead-air", 0, 3);
    assertTrue(head.detail().startsWith("Nothing is heard for the first 3.0\u00A0s"), "" + head);
    Finding hole = only(of(4, -20, 2.5, HUSH, 4, -20), "dead-air", 4, 6.5);
    assertTrue(hole.detail().contains("2.5\u00A0s from 0:04.0"), hole.detail());
    Finding tail = only(of(4, -20, 6, HUSH), "dead-air", 4, 10);
    assertTrue(tail.detail().contains("any more in the last 6.0\u00A0s"), tail.detail());
    assertEquals(5, tail.limit().getAsDouble());
    Finding all = only(of(4, HUSH), "dead-air", 0, 4);
    assertEquals(Severity.WARNING, all.severity());
  }

  @Test
  void pausesFadesAndQuietMusicAreNoDeadAir() {
    assertEquals(List.of(), of(4, -20, 1.5, HUSH, 4, -20));
    assertEquals(List.of(), of(1.5, HUSH, 4, -20, 4, HUSH));
    assertEquals(List.of(), of(4, -20, 20, -66, 4, -20));
  }

  @Test
  void digitalSilenceWinsWhereMostIsZero() {
    double none = Double.NaN;
    only(of(4, -20, 0.5, HUSH, 3, none, 0.5, HUSH, 4, -20), "digital-silence", 4.5, 7.5);
    only(of(4, -20, 10, HUSH, 0.2, none, 4, -20), "dead-air", 4, 14.2);
    List<Finding> two = of(4, -20, 3, HUSH, 4, -20, 1, none, 4, -20);
    assertEquals(List.of("digital-silence", "dead-air"), two.stream().map(Finding::code).toList());
  }
}
