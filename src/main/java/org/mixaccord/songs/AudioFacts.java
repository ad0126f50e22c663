package org.mixaccord.songs;

import jakarta.persistence.Column;
import jakarta.persistence.Embeddable;

/** What decoding found out about a file; written once, when it has been decoded whole. */
@Embeddable
public class AudioFacts {
  private String container;
  private String codec;

  @Column(name = "sample_rate")
  private Integer sampleRate;

  @Column(name = "bit_depth")
  private Integer bitDepth;

  @Column(name = "significant_bits")
  private Integer significantBits;

  private Integer channels;
  private Long frames;
  private Boolean lossy;

  @Column(name = "sample_format")
  private String sampleFormat;

  @Column(name = "pcm_sha256")
  private String pcmSha256;

  protected AudioFacts() {}

  /**
   * Facts of a decoded file.
   *
   * @param bitDepth bits of a sample as stored; null for lossy codecs
   * @param significantBits bits really used by integer samples; null where that has no meaning
   * @param sampleFormat s32, f32 or f64: how the decoded samples are kept
   * @param pcmSha256 hash of the decoded samples
   */
  public AudioFacts(
      String container,
      String codec,
      int sampleRate,
      Integer bitDepth,
      Integer significantBits,
      int channels,
      long frames,
      boolean lossy,
      String sampleFormat,
      String pcmSha256) {
    this.container = container;
    this.codec = codec;
    this.sampleRate = sampleRate;
    this.bitDepth = bitDepth;
    this.significantBits = significantBits;
    this.channels = channels;
    this.frames = frames;
    this.lossy = lossy;
    this.sampleFormat = sampleFormat;
    this.pcmSha256 = pcmSha256;
  }

  public String container() {
    return container;
  }

  public String codec() {
    return codec;
  }

  public int sampleRate() {
    return sampleRate;
  }

  public Integer bitDepth() {
    return bitDepth;
  }

  public Integer significantBits() {
    return significantBits;
  }

  public int channels() {
    return channels;
  }

  public long frames() {
    return frames;
  }

  public boolean lossy() {
    return lossy;
  }

  public String sampleFormat() {
    return sampleFormat;
  }

  public String pcmSha256() {
    return pcmSha256;
  }

  /** Length in seconds. */
  public double seconds() {
    return (double) frames / sampleRate;
  }
}
