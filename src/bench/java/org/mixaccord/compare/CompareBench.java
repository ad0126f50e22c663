package org.mixaccord.compare;

import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import org.mixaccord.align.Aligner;
import org.mixaccord.align.Retimed;
import org.mixaccord.align.TimeMap;
import org.mixaccord.audio.PcmSource;
import org.mixaccord.intake.PcmFile;
import org.mixaccord.intake.SampleFormat;

/**
 * Aligning and comparing against length, from stored samples, on music of our own: a bounce and a
 * later one with 37 ms trimmed, 8 s cut out of the middle, +0.3 dB overall and one part louder in
 * every fourth half minute. Prints CPU time of the working thread and the heap in use.
 */
final class CompareBench {
  private static final int RATE = 48000;
  private static final int CHUNK = 30 * RATE;
  private static final int BASES = 3;

  private final Path folder;

  private CompareBench(Path folder) {
    this.folder = folder;
  }

  /** The tune and the rest of some invented songs, made at half this rate: here twice as fast. */
  private static float[][][][] bases() {
    float[][][][] bases = new float[BASES][2][2][CHUNK];
    for (int b = 0; b < BASES; b++) {
      double[][][] parts = Synth.parts(900 + b, 2.0 * CHUNK / RATE);
      for (int p = 0; p < parts.length; p++) {
        for (int c = 0; c < 2; c++) {
          for (int i = 0; i < CHUNK; i++) {
            bases[b][p == 3 ? 0 : 1][c][i] += (float) parts[p][c][i];
          }
        }
      }
    }
    return bases;
  }

  public static void main(String[] args) throws IOException {
    CompareBench bench = new CompareBench(Path.of(args[0]));
    Files.createDirectories(bench.folder);
    System.out.println("Aligning and comparing against length, 48 kHz stereo from stored samples");
    System.out.println("largest heap allowed: " + (Runtime.getRuntime().maxMemory() >> 20) + " MB");
    bench.length(1, 6, false);
    bench.length(4, 5, false);
    bench.length(4, 5, true);
    bench.length(5, 3, false);
    bench.length(20, 2, false);
    bench.length(60, 1, false);
  }

  private void length(int minutes, int runs, boolean otherRate) throws IOException {
    Path a = folder.resolve("compare-a.raw");
    Path b = folder.resolve("compare-b.raw");
    try {
      writeBoth(a, b, minutes);
      int rate = otherRate ? 44100 : RATE;
      if (otherRate) {
        resample(b, rate);
      }
      try (PcmFile there = PcmFile.open(a, SampleFormat.S32, RATE, 2);
          PcmFile here = PcmFile.open(b, SampleFormat.S32, rate, 2)) {
        double[] seconds = new double[2];
        Comparison found = null;
        Peak peak = new Peak();
        for (int run = 0; run < runs; run++) {
          long start = cpu();
          Aligner.align(here, there);
          long aligned = cpu();
          found = Comparer.compare(input(here, there), p -> peak.look());
          seconds[0] = (aligned - start) / 1e9;
          seconds[1] = (cpu() - aligned) / 1e9;
        }
        System.out.printf(
            Locale.ROOT,
            "%2d min%s: aligning %.2f s, comparing with aligning %.2f s, %.3f s a minute, heap %d MB;"
                + " pieces %d, changed %d of %d, level %+.3f dB%n",
            minutes,
            otherRate ? " at 44.1 against 48 kHz" : "",
            seconds[0],
            seconds[1],
            seconds[1] / minutes,
            peak.megabytes,
            found.timeMap().size(),
            found.sections().stream().filter(s -> s.difference() == Difference.CHANGED).count(),
            found.sections().size(),
            found.gainDb());
      }
    } finally {
      Files.deleteIfExists(a);
      Files.deleteIfExists(b);
    }
  }

  private static ComparisonInput input(PcmSource here, PcmSource there) {
    List<NamedSection> sections = new ArrayList<>();
    double end = here.frames() / (double) here.sampleRate();
    double length = Math.max(20, end / 40);
    for (double at = 0; at + length <= end; at += length) {
      sections.add(new NamedSection("Part " + (sections.size() + 1), at, at + length));
    }
    return ComparisonInput.of(
        new ComparedFile(here, "b", false, 24, false),
        new ComparedFile(there, "a", false, 24, false),
        sections);
  }

  private static void writeBoth(Path a, Path b, int minutes) throws IOException {
    // Held only while writing: the heap that is printed is that of comparing.
    float[][][][] bases = bases();
    write(bases, a, minutes, false);
    write(bases, b, minutes, true);
  }

  private static void write(float[][][][] bases, Path file, int minutes, boolean later)
      throws IOException {
    int chunks = minutes * 60 * RATE / CHUNK;
    int cutFrom = chunks / 2 * CHUNK + 5 * RATE;
    ByteBuffer bytes = ByteBuffer.allocateDirect(CHUNK * 8).order(ByteOrder.LITTLE_ENDIAN);
    try (FileChannel out =
        FileChannel.open(file, StandardOpenOption.CREATE, StandardOpenOption.WRITE)) {
      for (int chunk = 0; chunk < chunks; chunk++) {
        double[][] mix = chunk(bases, chunk, later && chunk % 4 == 1 ? 1.122 : 1);
        bytes.clear();
        for (int i = 0; i < CHUNK; i++) {
          int at = chunk * CHUNK + i;
          boolean trimmed = at < RATE * 37 / 1000;
          boolean cut = at >= cutFrom && at < cutFrom + 8 * RATE;
          if (later && (trimmed || cut)) {
            continue;
          }
          for (double[] side : mix) {
            double value = side[i] * (later ? 0.5176 : 0.5); // +0.3 dB
            bytes.putInt((int) Math.rint(value * 8388607) << 8);
          }
        }
        bytes.flip();
        while (bytes.hasRemaining()) {
          out.write(bytes);
        }
      }
    }
  }

  /** Half a minute that comes nowhere else: two invented songs over each other, each turned. */
  private static double[][] chunk(float[][][][] bases, int number, double tune) {
    Random random = new Random(number);
    double[][] out = new double[2][CHUNK];
    for (int layer = 0; layer < 2; layer++) {
      float[][][] base = bases[random.nextInt(BASES)];
      for (int part = 0; part < 2; part++) {
        int turn = random.nextInt(CHUNK);
        double gain = (0.5 + random.nextDouble()) * (part == 0 ? tune : 1);
        for (int c = 0; c < 2; c++) {
          for (int i = 0; i < CHUNK; i++) {
            out[c][i] += gain * base[part][c][(i + turn) % CHUNK];
          }
        }
      }
    }
    return out;
  }

  private void resample(Path file, int rate) throws IOException {
    Path other = folder.resolve("compare-c.raw");
    try (PcmFile pcm = PcmFile.open(file, SampleFormat.S32, RATE, 2);
        FileChannel out =
            FileChannel.open(other, StandardOpenOption.CREATE, StandardOpenOption.WRITE)) {
      long frames = pcm.frames() * rate / RATE;
      Retimed moved =
          new Retimed(pcm, TimeMap.identity(pcm.frames() / (double) RATE), rate, frames);
      double[][] block = new double[2][1 << 16];
      ByteBuffer bytes = ByteBuffer.allocate(8 << 16).order(ByteOrder.LITTLE_ENDIAN);
      for (long at = 0; at < frames; at += block[0].length) {
        int count = (int) Math.min(block[0].length, frames - at);
        moved.read(at, block, count);
        bytes.clear();
        for (int i = 0; i < count; i++) {
          bytes.putInt((int) Math.rint(block[0][i] * 8388607) << 8);
          bytes.putInt((int) Math.rint(block[1][i] * 8388607) << 8);
        }
        bytes.flip();
        while (bytes.hasRemaining()) {
          out.write(bytes);
        }
      }
    }
    Files.move(other, file, java.nio.file.StandardCopyOption.REPLACE_EXISTING);
  }

  private static long cpu() {
    return ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime();
  }

  /** The most heap in use at any look. */
  private static final class Peak {
    private long megabytes;

    void look() {
      Runtime runtime = Runtime.getRuntime();
      megabytes = Math.max(megabytes, (runtime.totalMemory() - runtime.freeMemory()) >> 20);
    }
  }
}
