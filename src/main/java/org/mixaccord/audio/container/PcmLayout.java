package org.mixaccord.audio.container;

import java.util.List;

/**
 * Where the samples of a WAV, AIFF or CAF file really lie and how they are written.
 *
 * @param container name of the container: WAV, RF64, BW64, RIFX, AIFF, AIFF-C, CAF
 * @param coding how a sample is written
 * @param codec short name, such as {@code pcm}, {@code float} or the coded stream's name
 * @param sampleRate frames per second
 * @param channels 1 or more
 * @param channelMask the loudspeakers the file names, one bit each, see {@link Speakers}; 0 if it
 *     names none
 * @param validBits bits of a sample that carry sound as declared; the rest of the container is
 *     padding at the low end
 * @param sampleBytes bytes of one sample of one channel, 1 to 8; for coded streams 0
 * @param bigEndian most significant byte first
 * @param dataOffset first byte of the first frame
 * @param frames whole frames that are there, counted from the bytes; for coded streams what the
 *     file says, 0 if nothing
 * @param defects what is wrong, in the order found
 */
public record PcmLayout(
    String container,
    SampleCoding coding,
    String codec,
    int sampleRate,
    int channels,
    long channelMask,
    int validBits,
    int sampleBytes,
    boolean bigEndian,
    long dataOffset,
    long frames,
    List<FileDefect> defects) {

  public PcmLayout {
    if (sampleRate < 1 || channels < 1 || frames < 0 || dataOffset < 0 || sampleBytes > 8) {
      throw new IllegalArgumentException(
          sampleRate + " Hz, " + channels + " channels, " + frames + " frames at " + dataOffset);
    }
    defects = List.copyOf(defects);
  }

  /** Bytes of one frame over all channels. */
  public int frameBytes() {
    return sampleBytes * channels;
  }
}
