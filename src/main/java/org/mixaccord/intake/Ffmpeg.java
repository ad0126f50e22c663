package org.mixaccord.intake;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.bytedeco.javacpp.Loader;
import org.jboss.logging.Logger;

/**
 * The FFmpeg programs, run as confined children: those that come with Mixaccord, or where these do
 * not start, those of the system.
 */
public final class Ffmpeg {
  private static final Logger LOG = Logger.getLogger(Ffmpeg.class);
  private static final Path NOTHING = Path.of("/dev/null");

  /** Decoders a file may call upon; pictures, video and subtitles are not among them. */
  private static final String CODECS =
      "flac,alac,aac,aac_latm,mp3float,mp3,mp2float,mp2,mp1float,vorbis,opus,libopus,wavpack,"
          + "adpcm_ms,adpcm_ima_wav,adpcm_ima_qt,pcm_alaw,pcm_mulaw,pcm_s8,pcm_u8,pcm_s16le,"
          + "pcm_s16be,pcm_s24le,pcm_s24be,pcm_s32le,pcm_s32be,pcm_f32le,pcm_f32be,pcm_f64le,"
          + "pcm_f64be";

  private final String decoder;
  private final String prober;
  private final String version;
  private final Child child;
  private final Map<String, String> environment;

  private Ffmpeg(String decoder, String prober, String version, Child child) {
    this.decoder = decoder;
    this.prober = prober;
    this.version = version;
    this.child = child;
    this.environment = environment(decoder);
  }

  /**
   * The bundled libraries do not all name their own folder as the place of the next one, so the
   * linker is told; programs of the system are found by name and need nothing.
   */
  private static Map<String, String> environment(String program) {
    Path folder = Path.of(program).getParent();
    return folder == null ? Map.of() : Map.of("LD_LIBRARY_PATH", folder.toString());
  }

  /**
   * Finds a pair of programs that answers.
   *
   * @param cache folder the programs are unpacked into
   * @throws IllegalStateException in words for the operator, if none does
   */
  public static Ffmpeg find(Path cache, Duration time, long memoryBytes) {
    Child child = new Child(Child.wrapper(memoryBytes, time), time);
    List<String> tried = new ArrayList<>();
    for (String[] pair : new String[][] {bundled(cache, tried), {"ffmpeg", "ffprobe"}}) {
      if (pair.length == 0) {
        continue;
      }
      try {
        String version = version(child, pair[0]);
        version(child, pair[1]);
        LOG.debugf("decoding with %s (%s)", version, pair[0]);
        return new Ffmpeg(pair[0], pair[1], version, child);
      } catch (IOException e) {
        tried.add(pair[0] + ": " + e.getMessage());
      }
    }
    throw new IllegalStateException(
        "No program to decode audio starts on this machine. Install the package ffmpeg, or the"
            + " libraries the bundled program misses. Tried: "
            + String.join("; ", tried));
  }

  private static String[] bundled(Path cache, List<String> tried) {
    try {
      Files.createDirectories(cache);
      System.setProperty("org.bytedeco.javacpp.cachedir", cache.toAbsolutePath().toString());
      return new String[] {
        Loader.load(org.bytedeco.ffmpeg.ffmpeg.class),
        Loader.load(org.bytedeco.ffmpeg.ffprobe.class)
      };
    } catch (IOException | RuntimeException | LinkageError e) {
      tried.add("bundled: " + e.getMessage());
      return new String[0];
    }
  }

  private static String version(Child child, String program) throws IOException {
    StringBuilder first = new StringBuilder();
    Child.End end =
        child.run(
            List.of(program, "-version"),
            NOTHING,
            environment(program),
            out -> first.append(new String(out.readAllBytes(), StandardCharsets.UTF_8)));
    if (end.code() != 0) {
      throw new IOException("ended with " + end.code() + " " + end.said());
    }
    String[] words = first.toString().split("\\s+", 4);
    return words.length > 2 ? "FFmpeg " + words[2] : "FFmpeg";
  }

  /** Name and version, as kept with what was decoded. */
  public String version() {
    return version;
  }

  /** The program that decodes and encodes. */
  String program() {
    return decoder;
  }

  /** What the programs need to find in their environment. */
  Map<String, String> environment() {
    return environment;
  }

  /** Facts of the first sound stream by their names; empty if there is none. */
  Map<String, String> probe(Path file, String demuxer, StringBuilder said) throws IOException {
    List<String> words = new ArrayList<>(List.of(prober, "-v", "error"));
    words.addAll(input(demuxer));
    words.addAll(
        List.of("-select_streams", "a:0", "-show_entries", "stream", "-of", "default=nw=1"));
    Map<String, String> facts = new LinkedHashMap<>();
    Child.End end =
        child.run(
            words,
            file,
            environment,
            out -> {
              byte[] answer = out.readNBytes(1 << 16);
              out.skipNBytes(Math.max(0, out.available()));
              for (String line : new String(answer, StandardCharsets.UTF_8).split("\n")) {
                int at = line.indexOf('=');
                if (at > 0) {
                  facts.putIfAbsent(line.substring(0, at).strip(), line.substring(at + 1).strip());
                }
              }
            });
    said.append(end.timedOut() ? "took too long" : end.said());
    return facts;
  }

  /** Decodes the first sound stream to raw samples. */
  Child.End decode(Path file, String demuxer, SampleFormat format, Child.Reader reader)
      throws IOException {
    String raw = format.wireName() + "le";
    List<String> words =
        new ArrayList<>(List.of(decoder, "-v", "error", "-nostdin", "-threads", "1"));
    words.addAll(input(demuxer));
    words.addAll(
        List.of("-map", "0:a:0", "-vn", "-sn", "-dn", "-c:a", "pcm_" + raw, "-f", raw, "pipe:1"));
    return child.run(words, file, environment, reader);
  }

  /** Encodes raw samples of a file to FLAC of this depth. */
  Child.End encodeFlac(
      Path raw, SampleFormat format, int sampleRate, int channels, int bits, Child.Reader reader)
      throws IOException {
    List<String> words =
        List.of(
            decoder,
            "-v",
            "error",
            "-nostdin",
            "-threads",
            "1",
            "-protocol_whitelist",
            "fd,pipe",
            "-f",
            format.wireName() + "le",
            "-ar",
            String.valueOf(sampleRate),
            "-ch_layout",
            layout(channels),
            "-fd",
            "0",
            "-i",
            "fd:",
            "-c:a",
            "flac",
            "-sample_fmt",
            bits <= 16 ? "s16" : "s32",
            "-bits_per_raw_sample",
            bits <= 16 ? "16" : "24",
            "-compression_level",
            "3",
            "-map_metadata",
            "-1",
            "-fflags",
            "+bitexact",
            "-flags:a",
            "+bitexact",
            "-f",
            "flac",
            "pipe:1");
    return child.run(words, raw, environment, reader);
  }

  private static String layout(int channels) {
    return switch (channels) {
      case 1 -> "mono";
      case 2 -> "stereo";
      default -> channels + "C";
    };
  }

  private static List<String> input(String demuxer) {
    return List.of(
        "-protocol_whitelist",
        "fd,pipe",
        "-codec_whitelist",
        CODECS,
        "-f",
        demuxer,
        "-fd",
        "0",
        "-i",
        "fd:");
  }
}
