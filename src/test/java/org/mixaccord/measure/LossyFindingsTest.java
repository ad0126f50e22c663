package org.mixaccord.measure;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Random;
import org.jtransforms.fft.DoubleFFT_1D;
import org.junit.jupiter.api.Test;

class LossyFindingsTest {
  private static final int SIZE = 1 << 19; // 10.9 s at 48 kHz

  /** Noise whose gain at each frequency is given, with a tone so that the middle is full. */
  private static double[] shaped(int rate, long seed, java.util.function.DoubleUnaryOperator db) {
    double[] x = Signals.noise(new Random(seed), SIZE, 0.1);
    DoubleFFT_1D fft = new DoubleFFT_1D(SIZE);
    fft.realForward(x);
    for (int k = 1; k < SIZE / 2; k++) {
      double gain = Math.pow(10, db.applyAsDouble(k * (double) rate / SIZE) / 20);
      x[2 * k] *= gain;
      x[2 * k + 1] *= gain;
    }
    fft.realInverse(x, true);
    Random dither = new Random(seed + 1);
    for (int i = 0; i < SIZE; i++) {
      double beat = 0.7 + 0.5 * Math.sin(2 * Math.PI * i / 24_000.0);
      double ramp = Math.min(1, Math.min(i, SIZE - 1 - i) / 4800.0);
      double less = dither.nextDouble();
      x[i] = ramp * beat * x[i] + (dither.nextDouble() - less) * 0x1p-23;
    }
    return x;
  }

  /** Falls 6 dB an octave from 1 kHz on, as music does. */
  private static double music(double hz) {
    return -6 * Math.max(0, Math.log(hz / 1000) / Math.log(2));
  }

  private static double wall(double hz, double edge) {
    return hz < edge ? 0 : -100 * Math.min(1, (hz - edge) / 300);
  }

  private static List<Finding> of(int rate, double[] x, boolean lossy) {
    FileFacts file = new FileFacts(rate, OptionalInt.empty(), OptionalInt.empty(), true, lossy);
    return new LossyFindings(Signals.stereo(rate, x), Optional.of(file)).work();
  }

  @Test
  void aCliffWhereCodersPutItLooksLossy() {
    for (int rate : new int[] {44100, 48000, 96000}) {
      for (double edge : new double[] {16_000, 17_000, 19_000}) {
        List<Finding> found = of(rate, shaped(rate, 1, hz -> music(hz) + wall(hz, edge)), false);
        assertEquals(1, found.size(), edge + " at " + rate);
        Finding f = found.get(0);
        assertEquals("looks-lossy", f.code());
        assertEquals(edge, f.value().getAsDouble(), 300);
        assertTrue(f.detail().contains("It looks as if"), f.detail());
      }
    }
  }

  @Test
  void bandsThatComeAndGoAboveTheEdgeDoNotHideIt() {
    double[] low = shaped(48000, 2, hz -> music(hz) + wall(hz, 16_000));
    double[] high = shaped(48000, 2, hz -> music(hz) + wall(hz, 18_500));
    for (int i = 0; i < SIZE; i++) {
      double open = Math.max(0, Math.sin(2 * Math.PI * i / 16_000.0));
      low[i] += open * open * (high[i] - low[i]);
    }
    assertEquals(1, of(48000, low, false).size());
  }

  @Test
  void levelAndPolarityDoNotMatter() {
    double[] x = shaped(48000, 3, hz -> music(hz) + wall(hz, 16_000));
    double edge = of(48000, x, false).get(0).value().getAsDouble();
    for (double gain : new double[] {-1, 0.1, 3}) {
      Finding f = of(48000, Signals.scaled(x, gain), false).get(0);
      assertEquals(edge, f.value().getAsDouble(), 1e-9);
    }
  }

  @Test
  void highsThatFallOfThemselvesDoNotLookLossy() {
    assertEquals(List.of(), of(48000, shaped(48000, 4, LossyFindingsTest::music), false));
    assertEquals(
        List.of(),
        of(
            48000,
            shaped(48000, 5, hz -> music(hz) - 48 * Math.max(0, Math.log(hz / 12_000) / 0.69)),
            false),
        "an equaliser of 48 dB an octave");
    assertEquals(
        List.of(),
        of(48000, shaped(48000, 6, hz -> -12 * Math.max(0, Math.log(hz / 300) / 0.69)), false));
  }

  @Test
  void theEdgeOfASampleRateDoesNotLookLossy() {
    for (int rate : new int[] {48000, 96000}) {
      for (double edge : new double[] {20_700, 21_500}) {
        double[] x = shaped(rate, 7, hz -> music(hz) + wall(hz, edge));
        assertEquals(List.of(), of(rate, x, false), edge + " at " + rate);
      }
    }
  }

  @Test
  void partialsThatEndAndLossyFilesThemselvesAreLeftAlone() {
    double[] synth = new double[SIZE];
    for (double note : new double[] {220.3, 329.6}) {
      for (int k = 1; k * note < 16_000; k++) {
        for (int i = 0; i < SIZE; i++) {
          synth[i] += 0.05 / k * Math.sin(2 * Math.PI * k * note * i / 48000 + k * k);
        }
      }
    }
    assertEquals(List.of(), of(48000, synth, false));
    double[] x = shaped(48000, 1, hz -> music(hz) + wall(hz, 16_000));
    assertEquals(List.of(), of(48000, x, true));
    assertEquals(List.of(), of(8000, Signals.sine(8000, 440, -12, 5), false));
  }
}
