package org.mixaccord.intake;

import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.mixaccord.intake.Fixtures.bytes;
import static org.mixaccord.intake.Fixtures.join;
import static org.mixaccord.intake.Fixtures.sweep;
import static org.mixaccord.intake.Fixtures.wav;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.mixaccord.audio.container.ByteSource;
import org.mixaccord.audio.container.CafWalker;
import org.mixaccord.audio.container.Walk;

/** What is found out before decoding never throws and claims nothing impossible. */
class BrokenCodedFilesTest {
  @TempDir Path folder;

  @Test
  void noMutationMakesAPlanThrow() throws IOException {
    byte[] plain = wav(1, 2, 44100, 16, bytes(sweep(20_000, 2), 2, false));
    byte[] adts = Encoded.by(folder, plain, "aac", "adts");
    Mp4Bytes m4a = Mp4Bytes.ofAdts(adts, 44100, 2);
    byte[][] seeds = {
      adts,
      m4a.asCaf(44100, 2, 19_000, 1024),
      m4a.indexFirst().edit(441, -1).edit(400, 1024).gapless(1024, 100, 18_000).bytes(),
      Encoded.by(folder, plain, "libmp3lame", "mp3"),
      Encoded.by(folder, plain, "vorbis", "ogg"),
      Encoded.by(folder, plain, "flac", "flac"),
      Encoded.by(folder, plain, "wavpack", "wv")
    };
    long seed = 20261126;
    Random random = new Random(seed);
    for (int n = 0; n < 3_000; n++) {
      byte[] file = seeds[n % seeds.length].clone();
      for (int k = random.nextInt(8); k >= 0; k--) {
        file[random.nextInt(Math.min(file.length, 900))] = (byte) random.nextInt(256);
      }
      file = Arrays.copyOf(file, file.length - random.nextInt(file.length));
      try (FileBytes source = new FileBytes(Files.write(folder.resolve("upload"), file))) {
        Sniffer.Sniffed sniffed = Sniffer.sniff(source);
        CodedPlan plan = CodedPlan.of(source, sniffed);
        String what = "seed " + seed + " file " + n + ": " + plan;
        assertTrue(plan.startFrames(48000) >= 0, what);
        assertTrue(plan.lengthFrames(48000).orElse(0) >= 0, what);
        assertTrue(plan.firstByte() <= file.length, what);
      }
    }
  }

  @Test
  void noMutationMakesTheCafWalkerReadBehindTheEnd() throws IOException {
    byte[] seedFile =
        join(
            CafBytes.file(
                CafBytes.description(48000, CafBytes.LITTLE, 2, 24, 3),
                CafBytes.layout(3),
                CafBytes.data(bytes(sweep(200, 2), 3, false)),
                CafBytes.chunk("info", new byte[4])));
    long seed = 20261127;
    Random random = new Random(seed);
    for (int n = 0; n < 20_000; n++) {
      byte[] file = seedFile.clone();
      for (int k = random.nextInt(6); k >= 0; k--) {
        file[4 + random.nextInt(100)] = (byte) random.nextInt(256);
      }
      file = Arrays.copyOf(file, file.length - random.nextInt(300));
      Walk walk = CafWalker.walk(ByteSource.of(file));
      String what = "seed " + seed + " file " + n + ": " + walk;
      if (walk instanceof Walk.Found found) {
        var layout = found.layout();
        long end = layout.dataOffset() + layout.frames() * layout.frameBytes();
        assertTrue(end <= file.length, what);
      } else {
        assertTrue(((Walk.Unusable) walk).detail().endsWith("."), what);
      }
    }
  }
}
