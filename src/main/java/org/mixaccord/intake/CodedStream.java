package org.mixaccord.intake;

import java.util.Map;
import java.util.OptionalInt;
import java.util.OptionalLong;
import java.util.Set;

/** What the prober says of the first sound stream of a coded file. */
record CodedStream(
    String codec, String sampleKind, int sampleRate, int channels, int bits, OptionalLong length) {
  private static final Set<String> LOSSLESS = Set.of("flac", "alac", "wavpack");

  static CodedStream of(Map<String, String> facts) {
    int rate = number(facts.get("sample_rate"));
    return new CodedStream(
        facts.getOrDefault("codec_name", ""),
        facts.getOrDefault("sample_fmt", ""),
        rate,
        number(facts.get("channels")),
        Math.max(number(facts.get("bits_per_raw_sample")), number(facts.get("bits_per_sample"))),
        length(facts, rate));
  }

  boolean isUsable() {
    return sampleRate > 0 && channels > 0 && !sampleKind.isEmpty() && !sampleKind.equals("unknown");
  }

  boolean isLossy() {
    return !LOSSLESS.contains(codec) && !isLinear();
  }

  SampleFormat sampleFormat() {
    if (sampleKind.startsWith("dbl")) {
      return SampleFormat.F64;
    }
    return sampleKind.startsWith("flt") ? SampleFormat.F32 : SampleFormat.S32;
  }

  OptionalInt bitDepth() {
    if (isLossy()) {
      return OptionalInt.empty();
    }
    int fromKind =
        switch (sampleFormat()) {
          case F64 -> 64;
          case F32 -> 32;
          case S32 -> sampleKind.startsWith("u8") ? 8 : sampleKind.startsWith("s16") ? 16 : 32;
        };
    return OptionalInt.of(bits > 0 ? bits : fromKind);
  }

  private boolean isLinear() {
    return codec.startsWith("pcm_") && !codec.endsWith("law");
  }

  private static OptionalLong length(Map<String, String> facts, int rate) {
    String[] base = facts.getOrDefault("time_base", "").split("/");
    try {
      long ticks = Long.parseLong(facts.getOrDefault("duration_ts", ""));
      double seconds = ticks * Double.parseDouble(base[0]) / Double.parseDouble(base[1]);
      return OptionalLong.of(Math.round(seconds * rate));
    } catch (NumberFormatException | ArrayIndexOutOfBoundsException none) {
      return OptionalLong.empty();
    }
  }

  private static int number(String text) {
    try {
      return text == null ? 0 : Integer.parseInt(text);
    } catch (NumberFormatException none) {
      return 0;
    }
  }
}
