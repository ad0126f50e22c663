package org.mixaccord.audio.container;

import java.util.List;
import java.util.OptionalLong;

/** What walking through a container's chunks came to. */
public sealed interface Walk {
  /**
   * The samples were found.
   *
   * @param markers places marked inside the file, in order of time; they may lie behind the end
   * @param sessionFrame frames from the beginning of the session to the file's, where it says
   */
  record Found(PcmLayout layout, List<FileMarker> markers, OptionalLong sessionFrame)
      implements Walk {
    public Found {
      markers = List.copyOf(markers);
    }

    /** Samples of a file that says nothing of its session. */
    public Found(PcmLayout layout, List<FileMarker> markers) {
      this(layout, markers, OptionalLong.empty());
    }
  }

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
