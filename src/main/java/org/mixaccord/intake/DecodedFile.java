package org.mixaccord.intake;

import java.util.List;
import java.util.OptionalInt;
import org.mixaccord.audio.container.FileDefect;
import org.mixaccord.storage.Sha256;

/**
 * What is known of a file once its sound has been decoded; the samples themselves are kept under
 * {@code pcmSha256}.
 *
 * @param container WAV, RF64, AIFF, FLAC, MP4 …
 * @param codec pcm, float, flac, alac, aac, mp3 …
 * @param bitDepth bits of a sample as declared; empty for lossy coding
 * @param significantBits bits of a sample that are really used, measured; empty for float and lossy
 *     material and for silence
 * @param frames exact, counted from the decoded samples
 * @param lossy true if the coding threw something away
 * @param pcmSha256 SHA-256 over {@code "<format> <rate> <channels>\n"} and the samples
 * @param decoder which program decoded it
 */
public record DecodedFile(
    String container,
    String codec,
    int sampleRate,
    OptionalInt bitDepth,
    OptionalInt significantBits,
    int channels,
    long frames,
    boolean lossy,
    Sha256 pcmSha256,
    SampleFormat sampleFormat,
    String decoder,
    List<FileDefect> defects) {

  public DecodedFile {
    defects = List.copyOf(defects);
  }

  /** Whether every sample is zero. */
  public boolean silent() {
    return defects.stream().anyMatch(defect -> defect.code().equals("silent"));
  }

  /** Length in seconds. */
  public double seconds() {
    return (double) frames / sampleRate;
  }
}
