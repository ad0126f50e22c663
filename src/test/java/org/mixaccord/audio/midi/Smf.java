package org.mixaccord.audio.midi;

import static java.nio.charset.StandardCharsets.ISO_8859_1;
import static org.mixaccord.intake.Fixtures.join;
import static org.mixaccord.intake.Fixtures.number;

/** Standard MIDI Files written byte by byte. */
public final class Smf {
  public static final byte[] END = {0, (byte) 0xFF, 0x2F, 0};

  private Smf() {}

  public static byte[] file(int format, int division, byte[]... tracks) {
    return join(head(format, tracks.length, division), join(tracks));
  }

  public static byte[] head(int format, int tracks, int division) {
    return join(
        "MThd".getBytes(ISO_8859_1),
        number(6, 4, true),
        number(format, 2, true),
        number(tracks, 2, true),
        number(division, 2, true));
  }

  public static byte[] track(byte[]... events) {
    byte[] body = join(join(events), END);
    return join("MTrk".getBytes(ISO_8859_1), number(body.length, 4, true), body);
  }

  public static byte[] tempo(int delta, int micros) {
    return meta(delta, 0x51, number(micros, 3, true));
  }

  public static byte[] meter(int delta, int beats, int power) {
    return meta(delta, 0x58, new byte[] {(byte) beats, (byte) power, 24, 8});
  }

  public static byte[] marker(int delta, String text) {
    return meta(delta, 0x06, text.getBytes(java.nio.charset.StandardCharsets.UTF_8));
  }

  public static byte[] cue(int delta, String text) {
    return meta(delta, 0x07, text.getBytes(ISO_8859_1));
  }

  public static byte[] meta(int delta, int type, byte[] data) {
    return join(
        quantity(delta), new byte[] {(byte) 0xFF, (byte) type}, quantity(data.length), data);
  }

  /** An event of bare bytes. */
  public static byte[] bytes(int delta, int... data) {
    byte[] out = new byte[data.length];
    for (int i = 0; i < data.length; i++) {
      out[i] = (byte) data[i];
    }
    return join(quantity(delta), out);
  }

  public static byte[] quantity(int value) {
    byte[] out = {(byte) (value & 0x7F)};
    for (int rest = value >> 7; rest > 0; rest >>= 7) {
      out = join(new byte[] {(byte) (0x80 | rest & 0x7F)}, out);
    }
    return out;
  }

  /**
   * 480 ticks a quarter: 4 bars of 3/4 at 120 bpm, then 4/4; at the 13th beat of it (bar 8) the
   * tempo falls to 90 bpm. By hand: bar 5 lies at 6 s, bar 8 at 12 s, bar 9 at 14.667 s. Markers at
   * bar 1, 5 and 8.
   */
  public static byte[] turning() {
    int bar3 = 3 * 480;
    int bar4 = 4 * 480;
    return file(
        1,
        480,
        track(tempo(0, 500_000), meter(0, 3, 2), meter(4 * bar3, 4, 2), tempo(3 * bar4, 666_667)),
        track(marker(0, "Verse"), marker(4 * bar3, "Chorus"), cue(3 * bar4, "Outro")));
  }
}
