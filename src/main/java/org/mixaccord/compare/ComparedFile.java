package org.mixaccord.compare;

import org.mixaccord.audio.PcmSource;

/**
 * One of two bounces to compare.
 *
 * @param pcm its samples
 * @param pcmSha256 hash of its decoded samples; equal hashes mean equal samples, rate and format
 * @param floatingPoint whether samples are stored as floating point
 * @param bits significant bits of integer samples (8 to 32), ignored for floating point
 * @param lossy whether it was stored by a lossy codec
 */
public record ComparedFile(
    PcmSource pcm, String pcmSha256, boolean floatingPoint, int bits, boolean lossy) {
  public ComparedFile {
    if (pcm == null || pcmSha256 == null || pcmSha256.isEmpty()) {
      throw new IllegalArgumentException("a file to compare needs samples and their hash");
    }
    if (!floatingPoint && (bits < 1 || bits > 64)) {
      throw new IllegalArgumentException("not a number of bits: " + bits);
    }
  }

  /**
   * Mean square that rounding with dither adds to each sample, full scale 1.0: {@code q²/4}; 0 for
   * floating point and lossy files, whose own noise is not of this kind.
   */
  double ditherPower() {
    if (floatingPoint || lossy) {
      return 0;
    }
    double step = Math.pow(2, 1 - bits);
    return step * step / 4;
  }
}
