package org.mixaccord.intake;

import static java.nio.charset.StandardCharsets.ISO_8859_1;
import static org.mixaccord.intake.Fixtures.number;

import java.util.Arrays;

/** Ogg files changed page by page, with right checksums. */
final class OggBytes {
  private static final int POLYNOMIAL = 0x04C11DB7;

  private OggBytes() {}

  /** The same file, its last page ending so many samples earlier. */
  static byte[] endingEarlier(byte[] file, int samples) {
    byte[] changed = file.clone();
    int page = lastPage(changed);
    long granule = 0;
    for (int i = 7; i >= 0; i--) {
      granule = granule << 8 | (changed[page + 6 + i] & 0xff);
    }
    System.arraycopy(number(granule - samples, 8, false), 0, changed, page + 6, 8);
    seal(changed, page, changed.length);
    return changed;
  }

  /** The same Opus file with another pre-skip in its head, the first page. */
  static byte[] withPreSkip(byte[] file, int preSkip) {
    byte[] changed = file.clone();
    int head = 27 + changed[26];
    System.arraycopy(number(preSkip, 2, false), 0, changed, head + 10, 2);
    int end = new String(changed, ISO_8859_1).indexOf("OggS", 4);
    seal(changed, 0, end);
    return changed;
  }

  private static int lastPage(byte[] file) {
    return new String(file, ISO_8859_1).lastIndexOf("OggS");
  }

  private static void seal(byte[] file, int from, int to) {
    Arrays.fill(file, from + 22, from + 26, (byte) 0);
    int sum = 0;
    for (int i = from; i < to; i++) {
      sum ^= file[i] << 24;
      for (int bit = 0; bit < 8; bit++) {
        sum = sum << 1 ^ (sum < 0 ? POLYNOMIAL : 0);
      }
    }
    System.arraycopy(number(sum, 4, false), 0, file, from + 22, 4);
  }
}
