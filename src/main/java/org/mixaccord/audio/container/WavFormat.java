package org.mixaccord.audio.container;

import java.io.IOException;
import java.util.List;
import java.util.Optional;

/** The {@code fmt } chunk of a WAV file, put right where its fields contradict each other. */
record WavFormat(
    int tag,
    int channels,
    long channelMask,
    int sampleRate,
    int bits,
    int validBits,
    int sampleBytes) {
  private static final int PCM = 1;
  private static final int FLOAT = 3;
  private static final int EXTENSIBLE = 0xFFFE;
  private static final List<Long> USUAL_RATES =
      List.of(
          8000L, 11025L, 16000L, 22050L, 32000L, 44100L, 48000L, 88200L, 96000L, 176400L, 192000L);

  static WavFormat read(Bytes in, long at, long size, List<FileDefect> defects) throws IOException {
    int tag = in.u16(at);
    int channels = in.u16(at + 2);
    long sampleRate = in.u32(at + 4);
    long byteRate = in.u32(at + 8);
    int frameBytes = in.u16(at + 12);
    int bits = in.u16(at + 14);
    int validBits = bits;
    long mask = 0;
    if (tag == EXTENSIBLE && size >= 40) {
      int declared = in.u16(at + 18);
      mask = in.u32(at + 20);
      tag = in.u16(at + 24);
      if (declared > 0 && declared <= bits) {
        validBits = declared;
      }
      if (mask != 0 && Long.bitCount(mask) != channels) {
        defects.add(
            FileDefect.whole(
                "channel-mask",
                "The file names "
                    + Long.bitCount(mask)
                    + " loudspeaker positions for "
                    + channels
                    + " channels. The channels are taken in their order.",
                false));
      }
    } else if (tag == EXTENSIBLE) {
      // A short extensible chunk names no inner format: by far the most are integers.
      tag = PCM;
    }
    int rate = (int) Math.min(sampleRate, Integer.MAX_VALUE);
    int sampleBytes = (bits + 7) / 8;
    if ((tag == PCM || tag == FLOAT) && channels > 0 && frameBytes != sampleBytes * channels) {
      sampleBytes = settle(frameBytes, byteRate, sampleRate, channels, sampleBytes);
      defects.add(
          FileDefect.whole(
              "frame-size-mismatch",
              "The file's header contradicts itself about the size of a sample; it was read as "
                  + sampleBytes * 8
                  + " bits each. Listen whether pitch and level are right.",
              true));
    } else if ((tag == PCM || tag == FLOAT) && channels > 0) {
      speed(byteRate, sampleRate, frameBytes, defects);
    }
    return new WavFormat(tag, channels, mask, rate, bits, validBits, sampleBytes);
  }

  /** A second rate in the header that is a usual one may be the right one: a matter of pitch. */
  private static void speed(
      long byteRate, long sampleRate, int frameBytes, List<FileDefect> defects) {
    if (frameBytes == 0 || byteRate == sampleRate * frameBytes) {
      return;
    }
    boolean other = byteRate % frameBytes == 0 && USUAL_RATES.contains(byteRate / frameBytes);
    defects.add(
        FileDefect.whole(
            "speed-mismatch",
            other
                ? "The file's header names two sample rates, "
                    + sampleRate
                    + " Hz and "
                    + byteRate / frameBytes
                    + " Hz; the first was taken. Listen whether pitch and speed are right."
                : "The file's header is wrong about the bytes of a second; the sound itself is"
                    + " whole.",
            other));
  }

  /** Two fields that agree are believed against the third. */
  private static int settle(
      int frameBytes, long byteRate, long sampleRate, int channels, int computed) {
    boolean possible = frameBytes % channels == 0 && frameBytes / channels <= 8;
    boolean wideEnough = possible && frameBytes / channels >= computed && frameBytes > 0;
    return wideEnough && byteRate == sampleRate * frameBytes ? frameBytes / channels : computed;
  }

  SampleCoding coding() {
    return switch (tag) {
      case PCM -> sampleBytes == 1 ? SampleCoding.UNSIGNED : SampleCoding.SIGNED;
      case FLOAT -> SampleCoding.FLOAT;
      default -> SampleCoding.CODED;
    };
  }

  String codec() {
    return switch (tag) {
      case PCM -> "pcm";
      case FLOAT -> "float";
      case 2 -> "ADPCM (Microsoft)";
      case 6 -> "A-law";
      case 7 -> "µ-law";
      case 0x11 -> "ADPCM (IMA)";
      case 0x50 -> "MPEG layer 2";
      case 0x55 -> "MP3";
      default -> String.format("format 0x%04X", tag);
    };
  }

  /** Why nothing can be done with it, if so. */
  Optional<Walk.Unusable> unusable() {
    if (channels == 0 || sampleRate == 0) {
      return Optional.of(
          Walk.Unusable.noAudio(
              "The file says it has "
                  + (channels == 0 ? "no channels" : "a sample rate of zero")
                  + ": there is no audio in it. Export it again."));
    }
    if (tag == PCM && (bits == 0 || sampleBytes > 4)) {
      return Optional.of(
          Walk.Unusable.unsupported(
              bits + "-bit integer samples are not read. Export it as 24-bit WAV."));
    }
    if (tag == FLOAT && sampleBytes != 4 && sampleBytes != 8) {
      return Optional.of(
          Walk.Unusable.unsupported(
              bits + "-bit float samples are not read. Export it as 32-bit float or 24-bit WAV."));
    }
    if (coding() == SampleCoding.CODED && codec().startsWith("format")) {
      return Optional.of(
          Walk.Unusable.unsupported(
              "The WAV file holds sound in a coding that is not read here ("
                  + codec()
                  + "). Export it as 24-bit WAV."));
    }
    return Optional.empty();
  }
}
