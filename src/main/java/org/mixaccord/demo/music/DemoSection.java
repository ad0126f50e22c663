package org.mixaccord.demo.music;

/**
 * A named stretch of a demo song.
 *
 * @param name as people say it, such as "Chorus 2"
 * @param fromFrame first frame, at 48 kHz
 * @param toFrame the frame after the last one
 */
public record DemoSection(String name, long fromFrame, long toFrame) {
  public DemoSection {
    if (name.isBlank() || fromFrame < 0 || toFrame <= fromFrame) {
      throw new IllegalArgumentException(
          "not a section: " + name + " " + fromFrame + " to " + toFrame);
    }
  }

  /** Start in seconds. */
  public double fromSeconds() {
    return fromFrame / Waves.RATE;
  }

  /** End in seconds. */
  public double toSeconds() {
    return toFrame / Waves.RATE;
  }
}
