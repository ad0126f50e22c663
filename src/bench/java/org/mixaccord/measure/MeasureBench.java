package org.mixaccord.measure;

import com.sun.management.OperatingSystemMXBean;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.lang.management.ManagementFactory;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.util.Arrays;
import java.util.List;
import org.mixaccord.audio.ArrayPcm;
import org.mixaccord.audio.FrameRange;
import org.mixaccord.audio.PcmSource;
import org.mixaccord.intake.DecodeResult;
import org.mixaccord.intake.DecodedFile;
import org.mixaccord.intake.Decoder;
import org.mixaccord.intake.PcmFile;
import org.mixaccord.storage.DerivedFiles;
import org.mixaccord.storage.Sha256;

/**
 * Sets our measuring beside FFmpeg's filter and libebur128 on real music: the figures of every
 * track, and the CPU time each takes in the same run. Prints Markdown.
 */
public final class MeasureBench {
  private static final int WARM = 4;
  private static final int RUNS = 7;
  private static final OperatingSystemMXBean SYSTEM =
      (OperatingSystemMXBean) ManagementFactory.getOperatingSystemMXBean();

  /** Something to be timed. */
  private interface Work {
    void run() throws IOException;
  }

  private record Track(String name, int rate, Path raw, Path wav) {}

  private final Path folder;

  private MeasureBench(Path folder) {
    this.folder = folder;
  }

  /** Takes the folder that prepare.sh filled. */
  public static void main(String[] args) throws IOException {
    MeasureBench bench = new MeasureBench(Path.of(args[0]));
    bench.figures();
    bench.times();
    bench.lengths();
  }

  private List<Track> tracks() throws IOException {
    try (var files = Files.list(folder)) {
      return files
          .filter(f -> f.toString().endsWith(".f64"))
          .sorted()
          .map(
              f -> {
                String name = f.getFileName().toString().replace(".f64", "");
                return new Track(name, rate(name), f, folder.resolve(name + ".wav"));
              })
          .toList();
    }
  }

  private int rate(String name) {
    try {
      return Integer.parseInt(Files.readString(folder.resolve(name + ".rate")).strip());
    } catch (IOException e) {
      throw new IllegalStateException(e);
    }
  }

  private void figures() throws IOException {
    System.out.println("### Figures\n");
    System.out.println(
        "| track | rate | I ours | FFmpeg | libebur128 | range ours | FFmpeg | libebur128 (1 Hz) |"
            + " true peak ours | 64-fold | FFmpeg | libebur128 |");
    System.out.println("|---|---|---|---|---|---|---|---|---|---|---|---|");
    double[] worst = new double[4];
    for (Track t : tracks()) {
      double[][] x = samples(t.raw());
      Measurements m = MeasureTrack.measure(new ArrayPcm(t.rate(), x), done -> {}).whole();
      Peers.Reading f = Peers.filter(t.rate(), t.raw());
      Peers.Reading l = Peers.library(folder, "levels", t.rate(), t.raw());
      double lufs = m.integratedLufs().orElseThrow();
      double range = m.loudnessRangeLu().orElseThrow();
      double peak = m.truePeakDbtp().orElseThrow();
      double fine = 20 * Math.log10(new FinePeak(x).find());
      System.out.printf(
          "| %s | %d | %.3f | %.3f | %.3f | %.2f | %.2f | %.2f | %.3f | %.3f | %.3f | %.3f |%n",
          t.name(), t.rate(), lufs, f.lufs(), l.lufs(), range, f.rangeLu(), l.rangeLu(), peak, fine,
          f.truePeakDbtp(), l.truePeakDbtp());
      worst[0] = Math.max(worst[0], Math.abs(lufs - f.lufs()));
      worst[1] = Math.max(worst[1], Math.abs(lufs - l.lufs()));
      worst[2] = Math.max(worst[2], Math.abs(range - f.rangeLu()));
      worst[3] = Math.max(worst[3], fine - peak);
    }
    System.out.printf(
        "%nFarthest apart: I %.4f LU from FFmpeg, %.4f LU from libebur128; range %.3f LU from FFmpeg;"
            + " true peak %.3f dB under the 64-fold reference.%n%n",
        worst[0], worst[1], worst[2], worst[3]);
  }

  private void times() throws IOException {
    System.out.println("### Times\n");
    System.out.println("CPU seconds for four minutes of stereo, everything warm, middle of "
        + RUNS + " runs.\n");
    System.out.println("| work | music | ratio | limited | ratio |");
    System.out.println("|---|---|---|---|---|");
    Track music = find("track07");
    Track limited = find("limited");
    double[] filter = {filter(music), filter(limited)};
    double[] file = {Peers.fileSeconds(music.wav()), Peers.fileSeconds(limited.wav())};
    row("FFmpeg ebur128=peak=true, from memory", filter, filter);
    row("libebur128: I, range, true peak", each("levels", music, limited), filter);
    row("libebur128: the same, largest M and S", each("windows", music, limited), filter);
    row("ours: I, range, true peak, from memory", levels(music, limited), filter);
    row("ours: everything, from memory", whole(music, limited), filter);
    row("FFmpeg decoding 24-bit WAV, ebur128=peak=true", file, file);
    row("ours: the whole analysis from 24-bit WAV", analysis(music, limited), file);
    MeasureTrack track =
        MeasureTrack.measure(new ArrayPcm(music.rate(), samples(music.raw())), done -> {});
    double section =
        seconds(
            () -> {
              for (int i = 0; i < 100; i++) {
                track.section(new FrameRange(1_000_000L + 977 * i, 3_000_000L + 1979 * i));
              }
            });
    System.out.printf("%nA section of 42 s measured anew: %.2f ms.%n%n", section * 10);
  }

  private Track find(String name) {
    return new Track(name, rate(name), folder.resolve(name + ".f64"), folder.resolve(name + ".wav"));
  }

  private static double filter(Track t) throws IOException {
    return Peers.filterSeconds(t.rate(), t.raw());
  }

  private double[] each(String mode, Track a, Track b) throws IOException {
    return new double[] {
      Peers.library(folder, mode, a.rate(), a.raw()).seconds(),
      Peers.library(folder, mode, b.rate(), b.raw()).seconds()
    };
  }

  private static double[] levels(Track a, Track b) throws IOException {
    PcmSource x = new ArrayPcm(a.rate(), samples(a.raw()));
    PcmSource y = new ArrayPcm(b.rate(), samples(b.raw()));
    return new double[] {seconds(() -> LevelPass.over(x)), seconds(() -> LevelPass.over(y))};
  }

  private static double[] whole(Track a, Track b) throws IOException {
    PcmSource x = new ArrayPcm(a.rate(), samples(a.raw()));
    PcmSource y = new ArrayPcm(b.rate(), samples(b.raw()));
    return new double[] {
      seconds(() -> MeasureTrack.measure(x, done -> {}).whole()),
      seconds(() -> MeasureTrack.measure(y, done -> {}).whole())
    };
  }

  private double[] analysis(Track a, Track b) throws IOException {
    Path derived = Files.createTempDirectory(folder, "derived");
    DerivedFiles files = new DerivedFiles(derived, 0);
    double[] out = {
      seconds(() -> analyse(files, a.wav())), seconds(() -> analyse(files, b.wav()))
    };
    try (var all = Files.walk(derived)) {
      for (Path p : all.sorted(java.util.Comparator.reverseOrder()).toList()) {
        Files.delete(p);
      }
    }
    return out;
  }

  /** What happens to an upload: its hash, its samples and theirs, the track, and what is drawn. */
  private static void analyse(DerivedFiles files, Path wav) throws IOException {
    MessageDigest digest = Sha256.digest();
    byte[] buffer = new byte[1 << 16];
    try (InputStream in = Files.newInputStream(wav)) {
      for (int n = in.read(buffer); n >= 0; n = in.read(buffer)) {
        digest.update(buffer, 0, n);
      }
    }
    // Plain samples are moved without a child, so no coder is needed.
    Decoder decoder = new Decoder(null, files, Long.MAX_VALUE);
    DecodedFile file = ((DecodeResult.Decoded) decoder.decode(wav, "a.wav")).file();
    MeasureTrack track;
    try (PcmFile pcm = decoder.open(file)) {
      track = MeasureTrack.measure(pcm, done -> {});
    }
    try (OutputStream out = Files.newOutputStream(files.unfinished("track"))) {
      track.write(out);
    }
    track.whole();
    track.outline(600);
    Files.delete(files.pcm(file.pcmSha256(), file.sampleFormat().wireName()));
  }

  private static void row(String what, double[] seconds, double[] peer) {
    System.out.printf(
        "| %s | %.3f | %.2f | %.3f | %.2f |%n",
        what, seconds[0], seconds[0] / peer[0], seconds[1], seconds[1] / peer[1]);
  }

  private void lengths() throws IOException {
    System.out.println("### Lengths\n");
    System.out.println("| length | CPU s | CPU s a minute | largest heap in use MB |");
    System.out.println("|---|---|---|---|");
    Track t = find("track07");
    double[][] x = samples(t.raw());
    for (int minutes : new int[] {1, 4, 16, 64, 180}) {
      PcmSource pcm = new RepeatedPcm(t.rate(), x, minutes * 60L * t.rate());
      HeapWatch heap = new HeapWatch();
      double begin = cpu();
      MeasureTrack.measure(pcm, done -> heap.look());
      double took = cpu() - begin;
      System.out.printf(
          "| %d min | %.2f | %.3f | %d |%n", minutes, took, took / minutes, heap.largestMegabytes());
    }
  }

  private static double seconds(Work work) throws IOException {
    for (int i = 0; i < WARM; i++) {
      work.run();
    }
    double[] seconds = new double[RUNS];
    for (int i = 0; i < RUNS; i++) {
      double begin = cpu();
      work.run();
      seconds[i] = cpu() - begin;
    }
    Arrays.sort(seconds);
    return seconds[RUNS / 2];
  }

  /** CPU time of the whole process, collector and compiler included. */
  private static double cpu() {
    return SYSTEM.getProcessCpuTime() / 1e9;
  }

  private static double[][] samples(Path raw) throws IOException {
    try (FileChannel channel = FileChannel.open(raw)) {
      ByteBuffer bytes = ByteBuffer.allocate((int) channel.size()).order(ByteOrder.LITTLE_ENDIAN);
      while (bytes.hasRemaining() && channel.read(bytes) >= 0) {
        // until the file is in
      }
      bytes.flip();
      double[][] x = new double[2][bytes.remaining() / 16];
      for (int i = 0; i < x[0].length; i++) {
        x[0][i] = bytes.getDouble();
        x[1][i] = bytes.getDouble();
      }
      return x;
    }
  }
}
