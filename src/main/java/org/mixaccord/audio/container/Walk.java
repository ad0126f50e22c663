package org.mixaccord.audio.container;

/** What walking through a container's chunks came to. */
public sealed interface Walk {
  /** The samples were found. */
  record Found(PcmLayout layout) implements Walk {}

  /**
   * There is nothing to hear in it.
   *
   * @param code {@code no-audio-frames} or {@code unsupported-format}
   * @param detail why, and what to do, in a musician's words
   */
  record Unusable(String code, String detail) implements Walk {
    static Unusable noAudio(String detail) {
      return new Unusable("no-audio-frames", detail);
    }

    static Unusable unsupported(String detail) {
      return new Unusable("unsupported-format", detail);
    }
  }
}
