package org.mixaccord.align;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.mixaccord.audio.ArrayPcm;

/** Bounces laid onto another time line, beside the same music sampled there in the first place. */
class RetimedTest {
  private static final double[] TONES = {61, 997, 4001, 9973, 14983, 18011};
  private static final double SECONDS = 3;
  private static final double LEAST_DB = -95;

  /** The tones as they sound at {@code first + speed · t}. */
  private static double[][] sampled(double rate, double first, double speed) {
    double[][] out = new double[2][(int) (SECONDS * rate)];
    for (int i = 0; i < out[0].length; i++) {
      double t = first + speed * i / rate;
      for (double hz : TONES) {
        out[0][i] += 0.1 * Math.sin(2 * Math.PI * hz * t + hz);
        out[1][i] += 0.1 * Math.cos(2 * Math.PI * hz * t - hz);
      }
    }
    return out;
  }

  /** What is left of the difference against the music itself, away from the ends. */
  private static double errorDb(int rate, int otherRate, double offset, double speed)
      throws IOException {
    double from = 0.25;
    double to = 2.5;
    ArrayPcm there = new ArrayPcm(otherRate, sampled(otherRate, 0, 1));
    MapPiece piece = new MapPiece(from, to, from * speed + offset, to * speed + offset, 1);
    TimeMap map = TimeMap.of(List.of(piece), SECONDS, SECONDS);
    int frames = (int) (SECONDS * rate);
    Retimed retimed = new Retimed(there, map, rate, frames);
    double[][] truth = sampled(rate, offset, speed);
    double error = 0;
    double power = 0;
    // Odd blocks, so that each begins at another place between two frames.
    double[][] block = new double[2][1021];
    for (int at = (int) (0.3 * rate); at + 1021 < 2.4 * rate; at += 1021) {
      retimed.read(at, block, 1021);
      for (int c = 0; c < 2; c++) {
        for (int i = 0; i < 1021; i++) {
          error += Math.pow(block[c][i] - truth[c][at + i], 2);
          power += Math.pow(truth[c][at + i], 2);
        }
      }
    }
    assertTrue(power > 1);
    return 10 * Math.log10(error / power + 1e-30);
  }

  @Test
  void otherRatesComeOutAsIfTheyHadBeenSampledHere() throws IOException {
    for (double offset : new double[] {0, 0.037, 0.0123456789}) {
      assertError(errorDb(48000, 44100, offset, 1));
      assertError(errorDb(44100, 48000, offset, 1));
      assertError(errorDb(48000, 96000, offset, 1));
      assertError(errorDb(96000, 44100, offset, 1));
    }
  }

  @Test
  void driftingClocksAndShiftsBetweenFramesDoToo() throws IOException {
    assertError(errorDb(48000, 48000, 0.01, 1.00005));
    assertError(errorDb(48000, 44100, 0.01, 0.99995));
    assertError(errorDb(48000, 48000, 0.0100031, 1));
  }

  @Test
  void wholeFramesAreCopied() throws IOException {
    assertTrue(errorDb(48000, 48000, 0.01, 1) < -200);
  }

  private static void assertError(double db) {
    assertTrue(db < LEAST_DB, db + " dB");
  }
}
