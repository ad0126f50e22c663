package org.mixaccord.audio.container;

import java.util.ArrayList;
import java.util.List;

/**
 * Words for the channels of a file with more than two of them.
 *
 * @see <a href="https://tech.ebu.ch/publications/tech3306">the positions of a channel mask, EBU
 *     Tech 3306, annex on WAVE_FORMAT_EXTENSIBLE</a>
 */
public final class Speakers {
  /** In the order of the bits of a channel mask. */
  private static final List<String> NAMES =
      List.of(
          "left",
          "right",
          "centre",
          "low-frequency effects",
          "back left",
          "back right",
          "left of centre",
          "right of centre",
          "back centre",
          "side left",
          "side right",
          "top centre",
          "top front left",
          "top front centre",
          "top front right",
          "top back left",
          "top back centre",
          "top back right");

  private Speakers() {}

  /** Whether a mask names exactly this many loudspeakers, all of them known. */
  public static boolean fits(long mask, int channels) {
    return Long.bitCount(mask) == channels && mask >>> NAMES.size() == 0;
  }

  /** What a mask usually is for this many channels; 0 where nothing is usual. */
  private static long usual(int channels) {
    return switch (channels) {
      case 1 -> 0x4;
      case 2 -> 0x3;
      case 3 -> 0x7;
      case 4 -> 0x33;
      case 5 -> 0x607;
      case 6 -> 0x60F;
      case 7 -> 0x70F;
      case 8 -> 0x63F;
      default -> 0;
    };
  }

  /**
   * The channels by name and number: "1 left, 2 right, 3 centre …".
   *
   * @param mask the loudspeakers the file names; a mask that does not fit counts as none
   * @param channels how many there are; the number wins over the mask
   */
  public static String sentence(long mask, int channels) {
    boolean named = fits(mask, channels);
    long shown = named ? mask : usual(channels);
    if (shown == 0) {
      return "The file has "
          + channels
          + " channels and does not say which loudspeaker each is for.";
    }
    List<String> words = new ArrayList<>();
    for (int bit = 0; bit < NAMES.size(); bit++) {
      if ((shown >> bit & 1) == 1) {
        words.add(words.size() + 1 + " " + NAMES.get(bit));
      }
    }
    return named
        ? "The file has " + channels + " channels: " + String.join(", ", words) + "."
        : "The file has "
            + channels
            + " channels and does not say which loudspeaker each is for; they are taken in the usual"
            + " order: "
            + String.join(", ", words)
            + ".";
  }
}
