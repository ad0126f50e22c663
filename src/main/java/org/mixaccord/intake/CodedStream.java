package org.mixaccord.intake;

import java.io.BufferedReader;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.StringReader;
import java.nio.charset.StandardCharsets;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.OptionalInt;
import java.util.Set;

/** What the child says of the first sound stream of a coded file, before its samples. */
record CodedStream(
    String decoder,
    String codec,
    String sampleKind,
    SampleFormat sampleFormat,
    int sampleRate,
    int channels,
    long channelMask,
    int bits) {
  private static final Set<String> LOSSLESS = Set.of("flac", "alac", "wavpack");
  private static final int MOST_BYTES = 1 << 14;

  /** Reads {@code name=value} lines up to the empty one; nothing usable if there are none. */
  static CodedStream read(InputStream out) throws IOException {
    ByteArrayOutputStream head = new ByteArrayOutputStream();
    int before = 0;
    for (int b = out.read(); b >= 0 && head.size() < MOST_BYTES; b = out.read()) {
      if (b == '\n' && before == '\n') {
        break;
      }
      head.write(b);
      before = b;
    }
    Map<String, String> facts = new LinkedHashMap<>();
    new BufferedReader(new StringReader(head.toString(StandardCharsets.UTF_8)))
        .lines()
        .map(line -> line.split("=", 2))
        .filter(words -> words.length == 2)
        .forEach(words -> facts.put(words[0], words[1]));
    return of(facts);
  }

  private static CodedStream of(Map<String, String> facts) {
    return new CodedStream(
        facts.getOrDefault("decoder", ""),
        facts.getOrDefault("codec_name", ""),
        facts.getOrDefault("sample_fmt", ""),
        SampleFormat.of(facts.getOrDefault("samples", "s32")),
        number(facts.get("sample_rate")),
        number(facts.get("channels")),
        number(facts.get("channel_mask")),
        Math.max(number(facts.get("bits_per_raw_sample")), number(facts.get("bits_per_sample"))));
  }

  boolean isUsable() {
    return sampleRate > 0 && channels > 0 && !sampleKind.isEmpty() && !sampleKind.equals("unknown");
  }

  boolean isLossy() {
    return !LOSSLESS.contains(codec) && !isLinear();
  }

  OptionalInt bitDepth() {
    if (isLossy()) {
      return OptionalInt.empty();
    }
    int fromKind =
        switch (sampleFormat) {
          case F64 -> 64;
          case F32 -> 32;
          case S32 -> sampleKind.startsWith("u8") ? 8 : sampleKind.startsWith("s16") ? 16 : 32;
        };
    return OptionalInt.of(bits > 0 ? bits : fromKind);
  }

  private boolean isLinear() {
    return codec.startsWith("pcm_") && !codec.endsWith("law");
  }

  private static int number(String text) {
    try {
      return text == null ? 0 : Integer.parseInt(text);
    } catch (NumberFormatException none) {
      return 0;
    }
  }
}
