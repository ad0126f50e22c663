package org.mixaccord.intake;

import java.util.List;
import java.util.Optional;
import org.mixaccord.audio.container.FileDefect;

/**
 * Notices stereo files whose two channels are the same, or of which one is empty. Costs nothing
 * once it has seen a difference and both channels.
 */
final class ChannelWatch {
  private static final List<String> NAMES = List.of("left", "right");

  private final int sampleBytes;
  private final boolean isStereo;
  private boolean isSame = true;
  private final boolean[] isHeard = new boolean[2];

  ChannelWatch(int sampleBytes, int channels) {
    this.sampleBytes = sampleBytes;
    this.isStereo = channels == 2;
  }

  /** Looks at whole frames. */
  void take(byte[] samples, int from, int count) {
    int end = from + count;
    for (int at = from; isStereo && isUndecided() && at < end; at += 2 * sampleBytes) {
      for (int b = at; b < at + sampleBytes; b++) {
        isHeard[0] |= samples[b] != 0;
        isHeard[1] |= samples[b + sampleBytes] != 0;
        isSame &= samples[b] == samples[b + sampleBytes];
      }
    }
  }

  private boolean isUndecided() {
    return isSame || !isHeard[0] || !isHeard[1];
  }

  /** What is to be said; nothing of plain stereo, and nothing of silence. */
  Optional<FileDefect> found() {
    if (!isStereo || (!isHeard[0] && !isHeard[1])) {
      return Optional.empty();
    }
    if (isSame) {
      return Optional.of(
          FileDefect.whole(
              "dual-mono",
              "Left and right are the same, sample for sample: this is mono in a stereo file. If"
                  + " stereo was meant, check the settings of the bounce.",
              false));
    }
    int silent = isHeard[0] ? 1 : 0;
    return isHeard[silent]
        ? Optional.empty()
        : Optional.of(
            FileDefect.whole(
                "silent-channel",
                "There is nothing at all on the "
                    + NAMES.get(silent)
                    + " channel. If that was not meant, check the settings of the bounce.",
                false));
  }
}
