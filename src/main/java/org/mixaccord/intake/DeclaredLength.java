package org.mixaccord.intake;

import java.io.IOException;
import java.util.List;
import java.util.OptionalLong;
import org.mixaccord.audio.container.FileDefect;

/**
 * The length a coded file claims, where its format writes one down reliably: a decoder tells only
 * how far it got.
 */
record DeclaredLength(OptionalLong frames, boolean fromProbe) {
  static final DeclaredLength UNKNOWN = new DeclaredLength(OptionalLong.empty(), false);

  static DeclaredLength of(FileBytes bytes, Sniffer.Sniffed sniffed) throws IOException {
    return switch (sniffed.format()) {
      case FLAC -> flac(bytes, sniffed.start());
      case MP4, CAF, WAVPACK -> new DeclaredLength(OptionalLong.empty(), true);
      default -> UNKNOWN;
    };
  }

  /** STREAMINFO is always the first block: 36 bits of total samples from byte 21 on (RFC 9639). */
  private static DeclaredLength flac(FileBytes bytes, long start) throws IOException {
    byte[] head = new byte[26];
    if (bytes.read(start, head, 0, 26) < 26) {
      return UNKNOWN;
    }
    long total = head[21] & 15;
    for (int i = 22; i < 26; i++) {
      total = total << 8 | (head[i] & 0xff);
    }
    return total == 0 ? UNKNOWN : new DeclaredLength(OptionalLong.of(total), false);
  }

  void compare(long decoded, CodedStream stream, List<FileDefect> defects) {
    OptionalLong claimed = fromProbe ? stream.length() : frames;
    // Codec delay and the padding of the last block are trimmed in steps of a block.
    long slack = fromProbe ? 8192 : 0;
    if (claimed.isPresent() && decoded + slack < claimed.getAsLong()) {
      defects.add(FileDefect.truncated(decoded, claimed.getAsLong()));
    }
  }
}
