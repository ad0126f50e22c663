package org.mixaccord.acceptance;

import static java.nio.charset.StandardCharsets.US_ASCII;

import java.util.List;
import java.util.Map;
import org.mixaccord.compare.Synth;
import org.mixaccord.intake.Fixtures;

/** A short invented song in its mixes: stereo, 24 bits, every sample known to the test. */
record Takes(int[] samples) {
  static final int RATE = Synth.RATE;

  /** What the later mixes are louder by. */
  static final double LOUDER_DB = 2.6;

  /** Frames of the music that the later mixes begin later. */
  static final int LATE_FRAMES = 1234;

  /** The same in seconds. */
  static final double LATE_SECONDS = LATE_FRAMES / (double) RATE;

  /** Where the chorus lies in the first mix, seconds. */
  static final double CHORUS_FROM = 10;

  static final double CHORUS_TO = 18;

  /** Full scale of a sample. */
  static final double FULL = 1 << 23;

  private static final double SECONDS = 24;
  private static final int TUNE = 3;

  /** Where the sections lie in the first mix. */
  static final List<Map<String, Object>> SECTIONS =
      List.of(
          section("Intro", 0, 4),
          section("Verse 1", 4, CHORUS_FROM),
          section("Chorus 1", CHORUS_FROM, CHORUS_TO),
          section("Outro", CHORUS_TO, SECONDS));

  static Takes first() {
    return of(Synth.parts(41, SECONDS), 0, 0);
  }

  /** The same, louder, with less before the music begins. */
  static Takes second() {
    return of(Synth.parts(41, SECONDS), LATE_FRAMES, LOUDER_DB);
  }

  /** As the second, with the tune up in the chorus. */
  static Takes third() {
    double[][][] parts = Synth.parts(41, SECONDS);
    return of(Synth.moved(parts, TUNE, CHORUS_FROM, CHORUS_TO, 2), LATE_FRAMES, LOUDER_DB);
  }

  /** One sample in the middle, moved by the smallest step there is. */
  Takes oneStepOff() {
    int[] other = samples.clone();
    other[other.length / 2] ^= 1;
    return new Takes(other);
  }

  /** The sample of a side at a frame, full scale 1. */
  double at(int side, int frame) {
    return samples[2 * frame + side] / FULL;
  }

  byte[] wav() {
    return Fixtures.wav(1, 2, RATE, 24, Fixtures.bytes(samples, 3, false));
  }

  /** The same samples in another container, with words in it that nobody hears. */
  byte[] aiff() {
    byte[] words = "Bounced again".getBytes(US_ASCII);
    byte[] plain =
        Fixtures.aiff("", 2, RATE, 24, samples.length / 2, Fixtures.bytes(samples, 3, true));
    byte[] whole = Fixtures.join(plain, Fixtures.chunk("ANNO", words, true));
    System.arraycopy(Fixtures.number(whole.length - 8L, 4, true), 0, whole, 4, 4);
    return whole;
  }

  private static Takes of(double[][][] parts, int fromFrame, double gainDb) {
    double[][] mix = Synth.mix(parts);
    double gain = 0.3 * Math.pow(10, gainDb / 20) * FULL;
    int[] out = new int[2 * (mix[0].length - fromFrame)];
    for (int i = 0; i < out.length; i++) {
      out[i] = (int) Math.round(mix[i % 2][fromFrame + i / 2] * gain);
    }
    return new Takes(out);
  }

  private static Map<String, Object> section(String name, double from, double to) {
    return Map.of("name", name, "from", from, "to", to);
  }
}
