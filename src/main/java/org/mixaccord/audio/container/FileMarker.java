package org.mixaccord.audio.container;

import java.util.OptionalLong;

/**
 * A place somebody marked inside an audio file.
 *
 * @param frame where it lies, counted from the first frame of the sound, 0 or more
 * @param endFrame where a marked region ends, after {@code frame}; empty for a single place
 * @param label what it is called, one clean line of at most {@value #MOST_CHARS} characters; empty
 *     where the file gives no name
 */
public record FileMarker(long frame, OptionalLong endFrame, String label) {
  /** The longest label that is kept. */
  public static final int MOST_CHARS = 200;

  /** The most markers taken from one file. */
  public static final int MOST_MARKERS = 1000;

  public FileMarker {
    if (frame < 0 || (endFrame.isPresent() && endFrame.getAsLong() <= frame)) {
      throw new IllegalArgumentException("marker from " + frame + " to " + endFrame);
    }
  }
}
