package org.mixaccord.measure;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.mixaccord.audio.ArrayPcm;

class FindingsTest {
  private static final int RATE = 48000;

  /** Ten seconds of tone at −12 dBFS that begins and ends in silence. */
  private static double[] tone() {
    double[] x = Signals.sine(RATE, 220, -12, 10);
    for (int i = 0; i < RATE / 2; i++) {
      double ramp = i / (RATE / 2.0);
      x[i] *= ramp;
      x[x.length - 1 - i] *= ramp;
    }
    return x;
  }

  private static List<Finding> of(double[]... channels) {
    return Findings.of(Signals.measure(new ArrayPcm(RATE, channels)), DeliveryLimits.none());
  }

  private static Finding only(List<Finding> findings, String code) {
    List<Finding> found = findings.stream().filter(f -> f.code().equals(code)).toList();
    assertEquals(1, found.size(), code + " in " + findings);
    return found.get(0);
  }

  private static DeliveryLimits ceiling(double dbtp) {
    return new DeliveryLimits(
        OptionalDouble.of(dbtp),
        OptionalDouble.empty(),
        OptionalDouble.empty(),
        OptionalDouble.empty(),
        OptionalInt.empty(),
        OptionalInt.empty());
  }

  @Test
  void cleanToneGivesNoFinding() {
    assertEquals(List.of(), of(tone(), tone()));
  }

  @Test
  void everyPlaceOverTheCeilingWorstFirst() {
    double[] x = tone();
    for (int at : new int[] {2, 5, 8}) {
      for (int i = 0; i < RATE / 10; i++) {
        x[at * RATE + i] *= at == 5 ? 3.9 : 3.7;
      }
    }
    MeasureTrack track = Signals.stereo(RATE, x);
    List<Finding> over =
        Findings.of(track, ceiling(-1)).stream().filter(f -> f.code().equals("over")).toList();
    assertEquals(3, over.size());
    Finding worst = over.get(0);
    assertEquals(Severity.FAULT, worst.severity());
    assertEquals(-12 + 20 * Math.log10(3.9), worst.value().getAsDouble(), 0.05);
    assertEquals(-1, worst.limit().getAsDouble());
    assertTrue(worst.fromSeconds() >= 4.98 && worst.toSeconds() <= 5.13, worst.toString());
    assertTrue(worst.detail().contains("\u22120.2\u00A0dBTP at 0:05."), worst.detail());
    assertTrue(worst.detail().contains("ceiling of \u22121.0\u00A0dBTP"), worst.detail());
    assertTrue(worst.detail().contains("3 places"), worst.detail());
    assertEquals(List.of(), Findings.of(track, ceiling(0)));
  }

  @Test
  void clippedRunsAndInterSampleOvers() {
    double[] clipped = tone();
    for (int i = 4 * RATE; i < 4 * RATE + 4800; i++) {
      clipped[i] = Math.max(-1, Math.min(1, 6 * clipped[i]));
    }
    Finding f = only(of(clipped, clipped), "clipped");
    assertEquals(2 * 44, f.value().getAsDouble(), 4, "44 half waves of 220 Hz, two channels");
    assertEquals(4, f.fromSeconds(), 0.02);
    double[] between = new double[RATE];
    for (int i = 100; i < RATE - 100; i++) {
      between[i] = 0.9 * Math.sqrt(2) * Math.sin(Math.PI / 2 * i + Math.PI / 4);
    }
    MeasureTrack track = Signals.stereo(RATE, between);
    Finding swing = only(Findings.of(track, DeliveryLimits.none()), "intersample-over");
    assertEquals(2.1, swing.value().getAsDouble(), 0.6);
    assertEquals(1, track.whole().interSampleOvers());
  }

  @Test
  void cutEndsAndOffset() {
    double[] x = tone();
    Finding tail = only(of(Arrays.copyOf(x, 5 * RATE)), "cut-tail");
    assertEquals(-15.01, tail.value().getAsDouble(), 0.5);
    assertEquals(5, tail.toSeconds());
    double[] late = Arrays.copyOfRange(x, 3 * RATE + 50, x.length);
    Finding head = only(of(late), "cut-head");
    assertEquals(20 * Math.log10(Math.abs(late[0])), head.value().getAsDouble(), 1e-9);
    double[] off = tone();
    for (int i = 0; i < off.length; i++) {
      off[i] += 0.01;
    }
    Finding dc = of(off).stream().filter(f -> f.code().equals("dc-offset")).findFirst().get();
    assertEquals(-40, dc.value().getAsDouble(), 0.05);
  }

  @Test
  void silenceOfEveryKind() {
    assertEquals(Severity.FAULT, only(of(new double[RATE]), "digital-silence").severity());
    double[] x = tone();
    Arrays.fill(x, 3 * RATE, 3 * RATE + RATE / 2, 0);
    Finding hole = only(of(x, x), "digital-silence");
    assertEquals(3, hole.fromSeconds(), 0.011);
    assertEquals(0.5, hole.value().getAsDouble(), 0.011);
    Finding side = only(of(tone(), new double[10 * RATE]), "one-sided-silence");
    assertEquals(Severity.WARNING, side.severity());
    assertTrue(side.detail().startsWith("The right channel"), side.detail());
  }

  @Test
  void dropoutNeedsSoundCloseOnBothSidesAndMusicAround() {
    double[] x = tone();
    int from = 5 * RATE + 40;
    Arrays.fill(x, from, from + RATE / 50, 0);
    Finding f = only(of(x, tone()), "dropout");
    assertEquals(from / (double) RATE, f.fromSeconds(), 1.0 / RATE);
    assertEquals(0.02, f.value().getAsDouble(), 2.0 / RATE);
    assertTrue(f.detail().contains("left"), f.detail());
    double[] faded = tone();
    for (int i = 0; i < 2000; i++) {
      faded[from - 1 - i] *= i / 2000.0;
      faded[from + 960 + i] *= i / 2000.0;
    }
    Arrays.fill(faded, from, from + 960, 0);
    assertTrue(of(faded, faded).stream().noneMatch(d -> d.code().equals("dropout")));
  }

  @Test
  void monoLossOfThePlaceAndOfTheBand() {
    double[] l = tone();
    double[] r = tone();
    for (int i = 4 * RATE; i < 8 * RATE; i++) {
      r[i] *= -0.9;
    }
    Finding place = only(of(l, r), "mono-loss");
    assertEquals(Severity.WARNING, place.severity());
    assertTrue(place.fromSeconds() > 2 && place.toSeconds() < 10, place.toString());
    double[] noise = Signals.noise(new Random(4), 10 * RATE, 0.05);
    double[] low = Signals.sine(RATE, 80, -20, 10);
    double[] a = noise.clone();
    double[] b = noise.clone();
    for (int i = 0; i < a.length; i++) {
      a[i] += low[i];
      b[i] -= low[i];
    }
    Finding band = only(of(a, b), "mono-loss");
    assertEquals(Severity.HINT, band.severity());
    assertTrue(band.detail().contains("80\u00A0Hz"), band.detail());
  }

  @Test
  void brokenSamplesAreNamed() {
    double[] x = tone();
    x[5 * RATE] = Double.NaN;
    Finding f = only(of(x), "not-a-number");
    assertEquals(1, f.value().getAsDouble());
    assertTrue(f.detail().contains("0:05.000"), f.detail());
  }

  @Test
  void deliverySpecOfLoudnessAndFormat() {
    MeasureTrack track = Signals.stereo(RATE, tone());
    DeliveryLimits limits =
        new DeliveryLimits(
            OptionalDouble.empty(),
            OptionalDouble.empty(),
            OptionalDouble.of(-9),
            OptionalDouble.of(-8),
            OptionalInt.of(96000),
            OptionalInt.of(24));
    List<Finding> all =
        Findings.of(
            track,
            limits,
            new FileFacts(RATE, OptionalInt.of(16), OptionalInt.of(16), false, false));
    assertEquals(3, all.size(), all.toString());
    assertTrue(all.stream().allMatch(f -> f.code().equals("out-of-spec")));
    assertTrue(all.get(0).detail().contains("quieter than agreed"), all.get(0).detail());
    assertTrue(all.get(1).detail().contains("48\u00A0kHz; 96\u00A0kHz"), all.get(1).detail());
    assertTrue(all.get(2).detail().contains("16 bits"), all.get(2).detail());
    FileFacts lossy = new FileFacts(96000, OptionalInt.empty(), OptionalInt.empty(), true, true);
    List<Finding> ofLossy = Findings.of(track, limits, lossy);
    assertTrue(ofLossy.get(1).detail().startsWith("The file is lossy"), ofLossy.toString());
  }

  @Test
  void figuresAsTheyAreSpoken() {
    assertEquals("\u22121.0\u00A0dBTP", Words.level(-1, "dBTP"));
    assertEquals("\u22120.97\u00A0dBTP", Words.level(-0.97, -1, "dBTP"));
    assertEquals("0.0\u00A0dB", Words.level(-0.01, "dB"));
    assertEquals("1:02.340", Words.time(62.34));
    assertEquals("44.1\u00A0kHz", Words.hertz(44100));
  }
}
