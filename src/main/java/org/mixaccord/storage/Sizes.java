package org.mixaccord.storage;

import java.util.Locale;

/** Sizes of files as people say them, in decimal units. */
public final class Sizes {
  private static final long KILO = 1000;

  private Sizes() {}

  /** {@code 740 bytes}, {@code 12 kB}, {@code 69.1 MB}, {@code 5.4 GB}. */
  public static String words(long bytes) {
    if (bytes < KILO) {
      return bytes == 1 ? "1 byte" : bytes + " bytes";
    }
    if (bytes < KILO * KILO) {
      return bytes / KILO + " kB";
    }
    if (bytes < KILO * KILO * KILO) {
      return decimal(bytes, KILO * KILO) + " MB";
    }
    return decimal(bytes, KILO * KILO * KILO) + " GB";
  }

  private static String decimal(long bytes, long unit) {
    String text = String.format(Locale.ROOT, "%.1f", Math.floor(10.0 * bytes / unit) / 10);
    return text.endsWith(".0") ? text.substring(0, text.length() - 2) : text;
  }
}
