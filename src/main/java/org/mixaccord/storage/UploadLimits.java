package org.mixaccord.storage;

import java.util.OptionalLong;

/**
 * Limits of one upload.
 *
 * @param maxBytes the most that is taken
 * @param expectedBytes the length announced, if any: answered before reading, and checked after
 */
public record UploadLimits(long maxBytes, OptionalLong expectedBytes) {
  public UploadLimits {
    if (maxBytes < 1 || (expectedBytes.isPresent() && expectedBytes.getAsLong() < 0)) {
      throw new IllegalArgumentException("limits " + maxBytes + ", " + expectedBytes);
    }
  }

  /** A limit without an announced length. */
  public static UploadLimits upTo(long maxBytes) {
    return new UploadLimits(maxBytes, OptionalLong.empty());
  }
}
