package org.mixaccord.intake;

import java.util.Optional;

/** Heads of files claim what they like; beyond these numbers no claim is believed. */
final class Plausible {
  /** What is measured lies between telephone sound and sixteen times 48 kHz. */
  private static final int LOWEST_RATE = 4_000;

  private static final int HIGHEST_RATE = 768_000;
  private static final int MOST_CHANNELS = 64;

  private Plausible() {}

  /**
   * Why a file with these claims is not taken, as a sentence; empty if it may be.
   *
   * @param sampleRate in Hz
   */
  static Optional<String> refusal(int sampleRate, int channels) {
    if (sampleRate < LOWEST_RATE || sampleRate > HIGHEST_RATE) {
      return Optional.of(
          "The file says that it has "
              + sampleRate
              + " samples a second; from "
              + LOWEST_RATE
              + " to "
              + HIGHEST_RATE
              + " are taken. If that is no slip of the export, its head is damaged: export it"
              + " again.");
    }
    if (channels > MOST_CHANNELS) {
      return Optional.of(
          "The file says that it has "
              + channels
              + " channels; up to "
              + MOST_CHANNELS
              + " are taken. If that is no slip of the export, its head is damaged: export it"
              + " again.");
    }
    return Optional.empty();
  }
}
