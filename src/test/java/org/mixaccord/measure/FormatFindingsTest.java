package org.mixaccord.measure;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.Random;
import org.junit.jupiter.api.Test;

class FormatFindingsTest {
  private static final int RATE = 48000;

  private static MeasureTrack noise(int bits) {
    double steps = bits == 0 ? 0 : 1L << (bits - 1);
    double[] x = Signals.noise(new Random(bits), 2 * RATE, 0.05);
    for (int i = 0; i < x.length; i++) {
      double ramp = Math.min(1, Math.min(i, x.length - 1 - i) / 9600.0);
      x[i] = bits == 0 ? ramp * x[i] : Math.rint(ramp * x[i] * steps) / steps;
    }
    return Signals.stereo(RATE, x);
  }

  private static DeliveryLimits agreed(int bits) {
    OptionalDouble none = OptionalDouble.empty();
    OptionalInt depth = bits == 0 ? OptionalInt.empty() : OptionalInt.of(bits);
    return new DeliveryLimits(none, none, none, none, OptionalInt.empty(), depth);
  }

  private static FileFacts integers(int stored, int used) {
    return new FileFacts(RATE, OptionalInt.of(stored), OptionalInt.of(used), false, false);
  }

  private static List<Finding> of(MeasureTrack track, int agreed, FileFacts file) {
    return Findings.of(track, agreed(agreed), file);
  }

  @Test
  void sixteenBitsInATwentyFourBitFile() {
    List<Finding> found = of(noise(16), 0, integers(24, 16));
    assertEquals(1, found.size(), found.toString());
    Finding f = found.get(0);
    assertEquals("fewer-bits", f.code());
    assertEquals(Severity.HINT, f.severity());
    assertEquals(16, f.value().getAsDouble());
    assertEquals(24, f.limit().getAsDouble());
    assertEquals(
        "The file has 24 bits a sample, but only 16 of them are used. It looks as if it was made"
            + " from a 16-bit file or export.",
        f.detail());
    Finding asked = of(noise(16), 24, integers(24, 16)).get(0);
    assertEquals(Severity.WARNING, asked.severity());
    assertEquals(Standing.AGREEMENT, asked.basis().standing().orElseThrow());
  }

  @Test
  void floatThatHoldsWholeNumbers() {
    FileFacts floating = new FileFacts(RATE, OptionalInt.of(32), OptionalInt.empty(), true, false);
    for (int bits : new int[] {16, 24}) {
      Finding f = of(noise(bits), 0, floating).get(0);
      assertEquals("fewer-bits", f.code());
      assertEquals(bits, f.value().getAsDouble());
    }
    assertEquals(List.of(), of(noise(0), 0, floating));
    assertEquals(List.of(), of(noise(25), 0, floating));
  }

  @Test
  void whatUsesItsBitsOrHasNoneIsLeftAlone() {
    assertEquals(List.of(), of(noise(16), 0, integers(16, 16)));
    assertEquals(List.of(), of(noise(24), 0, integers(24, 24)));
    assertEquals(List.of(), of(noise(23), 0, integers(24, 23)), "turned up by 6 dB");
    assertEquals(1, of(noise(24), 0, integers(32, 24)).size());
    FileFacts lossy = new FileFacts(RATE, OptionalInt.empty(), OptionalInt.empty(), true, true);
    assertEquals(List.of(), of(noise(16), 0, lossy));
  }
}
