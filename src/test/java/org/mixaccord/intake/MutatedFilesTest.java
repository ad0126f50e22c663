package org.mixaccord.intake;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.Queue;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.ConcurrentLinkedQueue;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicInteger;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.mixaccord.audio.container.FileDefect;
import org.mixaccord.measure.MeasureTrack;
import org.mixaccord.storage.DerivedFiles;

/**
 * Broken files of every kind go the whole way: each is answered in words or measured, none hangs,
 * throws, leaves a process or a file behind.
 *
 * <p>A short form of {@code mvn -Pfuzz test}, which takes ten thousand in a small heap.
 */
class MutatedFilesTest {
  private static final Duration LIMIT = Duration.ofSeconds(60);
  private static final int COUNT = Integer.getInteger("mutations", 120);
  private static final long SEED = Long.getLong("mutations.seed", 20261127);

  /** What a whole hour of stereo would take; a file of some kilobytes has no right to it. */
  private static final long MOST_DECODED_BYTES = 1L << 30;

  private static Ffmpeg ffmpeg;
  private final Map<String, AtomicInteger> ends = new ConcurrentHashMap<>();
  private final Queue<String> faults = new ConcurrentLinkedQueue<>();
  private final AtomicInteger done = new AtomicInteger();
  @TempDir Path folder;

  @BeforeAll
  static void find() {
    ffmpeg = Ffmpeg.unpack(Path.of("target/programs"), LIMIT, 4L << 30);
    assertTrue(ffmpeg.isLocked());
  }

  @Test
  void everyBrokenFileIsAnsweredAndNothingIsLeftBehind() throws Exception {
    Mutations mutations = new Mutations(folder, SEED);
    int threads = Runtime.getRuntime().availableProcessors();
    ExecutorService workers = Executors.newFixedThreadPool(threads);
    AtomicInteger next = new AtomicInteger();
    for (int thread = 0; thread < threads; thread++) {
      Path own = Files.createDirectory(folder.resolve("worker" + thread));
      workers.execute(
          () -> {
            for (int n = next.getAndIncrement(); n < COUNT; n = next.getAndIncrement()) {
              answer(own, mutations.file(n));
            }
          });
    }
    workers.shutdown();
    assertTrue(workers.awaitTermination(COUNT * 5L + 600, TimeUnit.SECONDS), "it hangs: " + ends);
    System.err.println("broken files: " + ends);
    assertEquals(List.of(), List.copyOf(faults));
    assertEquals(COUNT, done.get());
    List<String> children =
        ProcessHandle.current()
            .descendants()
            .filter(process -> process.info().commandLine().orElse("").contains("CoderMain"))
            .map(process -> process.pid() + " " + process.info().commandLine().orElse(""))
            .toList();
    assertEquals(List.of(), children, "processes left behind");
    assertTrue(share("decoded") > 0.2, "too few were still heard: " + ends);
    assertTrue(share("no-audio-frames") + share("not-audio") > 0.1, "too few broke: " + ends);
  }

  private double share(String end) {
    return (double) ends.getOrDefault(end, new AtomicInteger()).get() / COUNT;
  }

  private void answer(Path own, Mutations.Broken broken) {
    long began = System.nanoTime();
    try {
      DerivedFiles derived = new DerivedFiles(own.resolve("data"), 0);
      Decoder decoder = new Decoder(ffmpeg, derived, MOST_DECODED_BYTES);
      Path upload = Files.write(own.resolve("upload"), broken.bytes());
      DecodeResult result = decoder.decode(upload, "mix.wav");
      if (result instanceof DecodeResult.Decoded decoded) {
        heard(decoder, derived, decoded.file());
        derived.remove(decoded.file().pcmSha256());
        count("decoded");
      } else {
        var rejected = (DecodeResult.Rejected) result;
        if (!rejected.detail().strip().endsWith(".")) {
          faults.add(broken.name() + ": no sentence: " + rejected.detail());
        }
        count(rejected.reason().name().toLowerCase(java.util.Locale.ROOT).replace('_', '-'));
      }
      try (var left = Files.list(own.resolve("data/unfinished"))) {
        left.forEach(file -> faults.add(broken.name() + " leaves " + file));
      }
    } catch (IOException | RuntimeException | Error e) {
      faults.add(broken.name() + ": " + e + " at " + e.getStackTrace()[0]);
    }
    long seconds = (System.nanoTime() - began) / 1_000_000_000L;
    if (seconds > LIMIT.toSeconds() + 30) {
      faults.add(broken.name() + " took " + seconds + " s");
    }
    int count = done.incrementAndGet();
    if (count % 500 == 0) {
      System.err.println(count + " of " + COUNT + ", faults " + faults.size() + ": " + ends);
    }
  }

  /** What is decoded must be countable and measurable, whatever the numbers in it are. */
  private void heard(Decoder decoder, DerivedFiles derived, DecodedFile file) throws IOException {
    long pcmBytes = Files.size(derived.pcm(file.pcmSha256(), file.sampleFormat().wireName()));
    assertEquals(file.frames() * file.channels() * file.sampleFormat().bytes(), pcmBytes);
    for (FileDefect defect : file.defects()) {
      assertTrue(defect.detail().strip().endsWith("."), defect.toString());
    }
    try (PcmFile pcm = decoder.open(file)) {
      MeasureTrack track = MeasureTrack.measure(pcm.asStored(), share -> {});
      assertEquals(file.frames(), track.frames());
    }
    new ListeningCopy(ffmpeg, decoder, derived).make(file, share -> {});
  }

  private void count(String end) {
    ends.computeIfAbsent(end, key -> new AtomicInteger()).incrementAndGet();
  }
}
