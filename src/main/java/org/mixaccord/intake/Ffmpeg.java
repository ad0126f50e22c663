package org.mixaccord.intake;

import java.io.File;
import java.io.IOException;
import java.io.InputStream;
import java.net.URI;
import java.net.URL;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.bytedeco.javacpp.Loader;
import org.mixaccord.audio.FrameRange;
import org.mixaccord.intake.coder.CoderMain;

/**
 * The FFmpeg libraries that come with Mixaccord, run in a confined child: a Java machine of its own
 * for each file, see {@link org.mixaccord.intake.coder}.
 */
public final class Ffmpeg {
  private static final Path NOTHING = Path.of("/dev/null");

  /** Small, quick to start, silent, and writing nothing. */
  private static final List<String> MACHINE =
      List.of(
          "-Xmx96m",
          "-Xss512k",
          "-XX:+UseSerialGC",
          "-XX:TieredStopAtLevel=1",
          "-XX:ReservedCodeCacheSize=32m",
          "-XX:CompressedClassSpaceSize=64m",
          "-XX:-UsePerfData",
          "-XX:-PrintWarnings",
          "-XX:+DisableAttachMechanism",
          // It would read the limits of its group again and again, from files.
          "-XX:-UseContainerSupport",
          "-XX:ErrorFile=/dev/null",
          "-Xlog:disable",
          "-Xshare:auto",
          "-Dorg.bytedeco.javacpp.nopointergc=true",
          "-Dorg.bytedeco.javacpp.maxbytes=0",
          "-Dorg.bytedeco.javacpp.maxphysicalbytes=0");

  /** Decoders a file may call upon; pictures, video and subtitles are not among them. */
  private static final String CODECS =
      "flac,alac,aac,aac_latm,mp3float,mp3,mp2float,mp2,mp1float,vorbis,opus,libopus,wavpack,"
          + "adpcm_ms,adpcm_ima_wav,adpcm_ima_qt,pcm_alaw,pcm_mulaw,pcm_s8,pcm_u8,pcm_s16le,"
          + "pcm_s16be,pcm_s24le,pcm_s24be,pcm_s32le,pcm_s32be,pcm_f32le,pcm_f32be,pcm_f64le,"
          + "pcm_f64be";

  private final List<String> coder;
  private final Child child;
  private final boolean isLocked;
  private final String version;

  private Ffmpeg(List<String> coder, Child child, boolean isLocked) throws IOException {
    this.coder = coder;
    this.child = child;
    this.isLocked = isLocked;
    this.version = askVersion();
  }

  /**
   * Unpacks the libraries and tries them under the limits that every file will meet.
   *
   * @param cache folder the libraries are unpacked into
   * @throws IllegalStateException in words for the operator, if they do not load here
   */
  public static Ffmpeg unpack(Path cache, Duration time, long memoryBytes) {
    try {
      Files.createDirectories(cache);
      List<String> coder = coder(cache);
      // The first time unpacks, which the limits would not allow.
      new Ffmpeg(coder, new Child(List.of(), time), false);
      Child child = new Child(Child.wrapper(memoryBytes, time), time);
      return new Ffmpeg(coder, child, Child.canLock());
    } catch (IOException e) {
      throw new IllegalStateException(
          "The libraries that decode audio do not load on this machine ("
              + Loader.getPlatform()
              + "): "
              + e.getMessage(),
          e);
    }
  }

  private static List<String> coder(Path cache) throws IOException {
    String platform = Loader.getPlatform();
    Set<String> places = new LinkedHashSet<>();
    for (String needed :
        List.of(
            CoderMain.class.getName().replace('.', '/') + ".class",
            "org/bytedeco/javacpp/Loader.class",
            "org/bytedeco/javacpp/" + platform + "/libjnijavacpp.so",
            "org/bytedeco/ffmpeg/global/avcodec.class",
            "org/bytedeco/ffmpeg/" + platform + "/libjniavcodec.so")) {
      places.add(place(needed));
    }
    List<String> words = new ArrayList<>();
    words.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
    words.addAll(MACHINE);
    words.add("-Dorg.bytedeco.javacpp.cachedir=" + cache.toAbsolutePath());
    words.add("-cp");
    words.add(String.join(File.pathSeparator, places));
    words.add(CoderMain.class.getName());
    return List.copyOf(words);
  }

  /** The archive or folder that holds a resource. */
  private static String place(String resource) throws IOException {
    URL found = Ffmpeg.class.getResource("/" + resource);
    if (found == null) {
      throw new IOException(resource + " does not come along");
    }
    String text = found.toString();
    String folder =
        text.startsWith("jar:")
            ? text.substring("jar:".length(), text.indexOf("!/"))
            : text.substring(0, text.length() - resource.length());
    return Path.of(URI.create(folder)).toString();
  }

  private String askVersion() throws IOException {
    StringBuilder answer = new StringBuilder();
    Child.End end =
        run(
            List.of("version"),
            NOTHING,
            out -> answer.append(new String(out.readNBytes(1000), StandardCharsets.UTF_8)));
    if (end.code() != 0 || answer.isEmpty()) {
      throw new IOException("ended with " + end.code() + " " + end.said());
    }
    return answer.toString();
  }

  /** Whether a child can open nothing but its input; true wherever the system has the means. */
  public boolean isLocked() {
    return isLocked;
  }

  /** Name and version, as kept with what was decoded. */
  public String version() {
    return version;
  }

  /** Takes what a child makes of a coded file. */
  @FunctionalInterface
  interface Listener {
    /** Called at most once; samples are interleaved and little-endian. */
    void hear(CodedStream stream, InputStream samples) throws IOException;
  }

  /** Decodes the first sound stream; the listener is not called if there is none. */
  Child.End decode(Path file, String demuxer, CodedPlan plan, Listener listener)
      throws IOException {
    String edges = plan.trimsHere() ? "keep" : "trim";
    return run(
        List.of("decode", demuxer, CODECS, String.valueOf(plan.firstByte()), edges),
        file,
        out -> {
          CodedStream stream = CodedStream.read(out);
          if (stream.isUsable()) {
            listener.hear(stream, out);
          }
        });
  }

  /**
   * Encodes ranges of left-justified 32-bit samples, one FLAC stream each, see {@link FlacFile}.
   */
  Child.End encodeFlac(
      Path raw,
      int sampleRate,
      int channels,
      int bits,
      List<FrameRange> ranges,
      Child.Reader reader)
      throws IOException {
    List<String> words = new ArrayList<>(List.of("flac"));
    words.add(String.valueOf(sampleRate));
    words.add(String.valueOf(channels));
    words.add(String.valueOf(bits));
    for (FrameRange range : ranges) {
      words.add(range.from() + "-" + range.to());
    }
    return run(words, raw, reader);
  }

  /**
   * Encodes all samples of a file as one lossy copy; what comes out is told in {@link
   * org.mixaccord.intake.coder}.
   */
  Child.End encodeLight(Path raw, DecodedFile file, int bitsPerSecond, Child.Reader reader)
      throws IOException {
    List<String> words =
        List.of(
            "light",
            String.valueOf(file.sampleRate()),
            String.valueOf(file.channels()),
            file.sampleFormat().wireName(),
            String.valueOf(file.frames()),
            String.valueOf(bitsPerSecond));
    return run(words, raw, reader);
  }

  private Child.End run(List<String> words, Path input, Child.Reader reader) throws IOException {
    List<String> all = new ArrayList<>(coder);
    all.add(isLocked ? CoderMain.LOCKED : CoderMain.OPEN);
    all.addAll(words);
    return isLocked ? child.runLocked(all, input, reader) : child.run(all, input, reader);
  }
}
