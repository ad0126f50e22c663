package org.mixaccord.measure;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.mixaccord.audio.ArrayPcm;

class BreakFindingsTest {
  private static final int RATE = 48000;

  /** A low note, a brighter one and some hiss, at about −15 dB RMS, from silence to silence. */
  private static double[] music(long seed) {
    Random random = new Random(seed);
    double[] x = new double[8 * RATE];
    for (int i = 0; i < x.length; i++) {
      double t = i / (double) RATE;
      double ramp = Math.min(1, Math.min(i, x.length - 1 - i) / (RATE / 2.0));
      x[i] =
          ramp
              * (0.2 * Math.sin(2 * Math.PI * 110 * t)
                  + 0.1 * Math.sin(2 * Math.PI * 1234 * t + 1)
                  + 0.003 * random.nextGaussian());
    }
    return x;
  }

  private static List<Finding> of(int rate, double[]... channels) {
    return Findings.of(Signals.measure(new ArrayPcm(rate, channels)), DeliveryLimits.none());
  }

  private static List<Finding> of(double[]... channels) {
    return of(RATE, channels);
  }

  private static Finding only(List<Finding> findings, String code) {
    assertEquals(List.of(code), findings.stream().map(Finding::code).toList(), "" + findings);
    return findings.get(0);
  }

  @Test
  void heldValueIsADropoutAtItsSamples() {
    double[] x = music(1);
    int from = 3 * RATE + 1007; // the waveform goes on falling where it is held
    for (int at = from; at < from + 480; at++) {
      x[at] = x[from - 1];
    }
    x[from + 480] = x[from - 1] - 0.1;
    Finding f = only(of(x, music(2)), "dropout");
    assertEquals((from - 1) / (double) RATE, f.fromSeconds(), 1e-9);
    assertEquals(481 / (double) RATE, f.value().getAsDouble(), 1e-9);
    assertEquals(
        "The waveform stands still for 10\u00A0ms at 0:03.021 on the left and goes on with a jump."
            + " Unless it is an effect, the bounce dropped out.",
        f.detail());
    Finding both = only(of(x, x.clone()), "dropout");
    assertTrue(both.detail().contains("on both sides"), both.detail());
  }

  /** A hole cut where the wave of one channel passes zero was told of the other channel alone. */
  @Test
  void aHoleIsFoundWhereverTheWaveStoodWhenItBegan() {
    for (int later = 0; later < 110; later += 5) {
      double[] l = Signals.sine(RATE, 441, -14, 3);
      double[] r = Signals.sine(RATE, 220.5, -14, 3);
      int from = RATE + later;
      for (double[] x : List.of(l, r)) {
        Arrays.fill(x, from, from + 1440, 0);
      }
      List<Finding> found = codes(of(l, r), "dropout", "click");
      assertEquals(1, found.size(), later + ": " + found);
      Finding f = found.get(0);
      assertEquals(from / (double) RATE, f.fromSeconds(), 1.5 / RATE, "" + later);
      assertEquals(0.03, f.value().getAsDouble(), 3.0 / RATE, "" + later);
      assertTrue(f.detail().contains("on both sides"), later + ": " + f.detail());
    }
  }

  @Test
  void aSquareWaveHoldsItsValuesAndIsNoDropout() {
    double[] x = new double[4 * RATE];
    for (int i = RATE; i < 3 * RATE; i++) {
      x[i] = 0.3 * Math.min(1, (i - RATE) / 9600.0) * (i / 400 % 2 == 0 ? 1 : -1);
    }
    assertEquals(List.of(), codes(of(x, x), "dropout", "click"));
    double[] few = music(3);
    for (int i = 0; i < 2; i++) {
      Arrays.fill(few, 4 * RATE + i * 200, 4 * RATE + i * 200 + 100, i == 0 ? 0.45 : -0.45);
    }
    assertEquals(List.of(), codes(of(few, few), "dropout"), "a flat peak stands out on top");
  }

  @Test
  void aLongHoldAndASoftOneAreNoDropouts() {
    double[] longer = music(1);
    Arrays.fill(longer, 3 * RATE, 3 * RATE + 26_000, longer[3 * RATE - 1]);
    assertEquals(List.of(), codes(of(longer, longer), "dropout"));
    double[] fade = music(1);
    for (int i = 0; i < fade.length; i++) {
      fade[i] = Math.rint(fade[i] * 0.02 * 256) / 256;
    }
    assertEquals(List.of(), codes(of(fade, fade), "dropout", "click"), "steps of a quiet fade");
  }

  private static List<Finding> codes(List<Finding> findings, String... codes) {
    return findings.stream().filter(f -> List.of(codes).contains(f.code())).toList();
  }

  @Test
  void aSpikeIsAClickAtItsSample() {
    for (int rate : new int[] {44100, 48000, 96000}) {
      double[] x = music(1);
      int at = 3 * RATE + 31;
      x[at] += 0.1;
      Finding f = only(of(rate, x, music(2)), "click");
      assertEquals(at / (double) rate, f.fromSeconds(), 1e-9);
      assertEquals(20 * Math.log10(0.1), f.value().getAsDouble(), 1.5);
      assertEquals(Severity.HINT, f.severity());
      assertTrue(f.detail().contains("on the left: for less than a millisecond"), f.detail());
    }
  }

  @Test
  void aSpliceIsAClick() {
    double[] x = music(1);
    int at = 4 * RATE + 80;
    double[] cut = new double[x.length - 130];
    System.arraycopy(x, 0, cut, 0, at);
    System.arraycopy(x, at + 130, cut, at, cut.length - at);
    double step = Math.abs(cut[at] - cut[at - 1]);
    assertTrue(step > 0.1, "the pieces do not meet");
    Finding f = only(of(cut, cut.clone()), "click");
    assertEquals(at / (double) RATE, f.fromSeconds(), 1.5 / RATE);
    assertTrue(f.detail().contains("on both sides"), f.detail());
  }

  @Test
  void whatMusicIsMadeOfIsNoClick() {
    Random random = new Random(7);
    double[] hits = music(4);
    double[] saw = new double[8 * RATE];
    double[] driven = music(5);
    double phase = 0;
    for (int i = 0; i < hits.length; i++) {
      double sinceHit = i % 12_000 / (double) RATE;
      // A drum that starts on its crest, and a hat whose noise starts at once.
      hits[i] += 0.4 * Math.exp(-12 * sinceHit) * Math.cos(2 * Math.PI * 60 * sinceHit);
      hits[i] += 0.1 * Math.exp(-60 * sinceHit) * random.nextGaussian();
      phase += (35 + 5 * Math.sin(i * 1e-5)) / RATE;
      saw[i] = 0.3 * (phase % 1 - 0.5) * Math.min(1, Math.min(i, saw.length - i) / 9600.0);
      driven[i] = 0.3 * Math.max(-1, Math.min(1, 8 * driven[i]));
    }
    assertEquals(List.of(), codes(of(hits, hits), "click"));
    assertEquals(List.of(), codes(of(saw, saw), "click"));
    assertEquals(List.of(), codes(of(driven, driven), "click"));
    double[] gated = music(6);
    Arrays.fill(gated, 2 * RATE, 4 * RATE, 0);
    assertEquals(List.of(), codes(of(gated, gated), "click"), "a hard stop is no click");
  }

  @Test
  void findingsStayWhereTheyAreWhateverTheLevelPolarityAndSide() {
    double[] x = music(1);
    x[2 * RATE + 500] += 0.1;
    x[5 * RATE + 9] -= 0.2;
    Arrays.fill(x, 6 * RATE + 40, 6 * RATE + 400, x[6 * RATE + 39]);
    x[6 * RATE + 400] += 0.15;
    double[] y = music(2);
    List<Double> times = times(of(x, y));
    assertEquals(3, times.size(), times.toString());
    assertEquals(times, times(of(y, x)));
    assertEquals(times, times(of(Signals.scaled(x, -1), Signals.scaled(y, -1))));
    assertEquals(times, times(of(Signals.scaled(x, 0.5), Signals.scaled(y, 0.5))));
    assertEquals(times, times(of(Signals.scaled(x, 2), Signals.scaled(y, 2))));
    // Silence in front moves every chunk and block under the events.
    for (int shift : new int[] {1, 7, 15, 16, 4801, 30_719}) {
      double[] later = new double[x.length + shift];
      System.arraycopy(x, 0, later, shift, x.length);
      List<Double> moved = times(of(later, new double[later.length]));
      for (int i = 0; i < 3; i++) {
        assertEquals(times.get(i) + shift / (double) RATE, moved.get(i), 1e-9, "by " + shift);
      }
    }
  }

  private static List<Double> times(List<Finding> findings) {
    return codes(findings, "click", "dropout").stream().map(Finding::fromSeconds).sorted().toList();
  }

  @Test
  void manyOfAKindAreCountedAndTheWorstListed() {
    double[] x = music(1);
    for (int k = 0; k < 30; k++) {
      x[RATE + k * 9600] += 0.1 + 0.003 * k;
    }
    List<Finding> all = codes(of(x, music(2)), "click");
    assertEquals(Findings.MOST_OF_A_KIND, all.size());
    assertEquals(1 + 29 * 0.2, all.get(0).fromSeconds(), 1e-9);
    assertTrue(all.get(0).detail().contains("There are 30 places like it"), all.get(0).detail());
  }
}
