package org.mixaccord.intake;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.mixaccord.intake.Fixtures.bytes;
import static org.mixaccord.intake.Fixtures.floats;
import static org.mixaccord.intake.Fixtures.music;
import static org.mixaccord.intake.Fixtures.wav;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.mixaccord.storage.DerivedFiles;

class ListeningCopyTest {
  /** Two whole segments and a short one. */
  private static final int FRAMES = (2 << 18) + 12_345;

  private static Ffmpeg ffmpeg;
  @TempDir Path folder;
  private Decoder decoder;
  private Decoder again;
  private ListeningCopy copies;

  @BeforeAll
  static void find() {
    ffmpeg = Ffmpeg.unpack(Path.of("target/programs"), Duration.ofSeconds(60), 4L << 30);
  }

  @BeforeEach
  void open() throws IOException {
    var derived = new DerivedFiles(folder.resolve("data"), 0);
    decoder = new Decoder(ffmpeg, derived, 1L << 30);
    again = new Decoder(ffmpeg, new DerivedFiles(folder.resolve("again"), 0), 1L << 30);
    copies = new ListeningCopy(ffmpeg, decoder, derived);
  }

  @ParameterizedTest
  @CsvSource({"16,2,44100", "24,2,48000", "24,1,96000", "16,6,48000"})
  void integersComeBackSampleForSampleFromFlac(int bits, int channels, int rate)
      throws IOException {
    byte[] plain =
        wav(1, channels, rate, bits, bytes(music(FRAMES, channels, bits), bits / 8, false));
    checkCopy(plain, true, true);
  }

  @Test
  void floatsOverFullScaleComeBackSampleForSample() throws IOException {
    double[] samples = new double[FRAMES * 2];
    Arrays.setAll(samples, i -> 1.7 * Math.sin(i * 0.013));
    checkCopy(wav(3, 2, 48000, 32, floats(samples, false, false)), false, true);
  }

  @Test
  void silenceIsCopiedToo() throws IOException {
    checkCopy(wav(1, 2, 48000, 16, new byte[4 * 1000]), true, true);
  }

  @Test
  void sixtyFourBitFloatIsPlayedButNotCalledExact() throws IOException {
    double[] samples = new double[2000];
    Arrays.setAll(samples, i -> Math.sin(i * 0.013));
    var file = decoded(wav(3, 2, 48000, 64, floats(samples, true, false)));
    var manifest = ListeningCopy.manifest(file);
    assertFalse(manifest.isExact());
    copies.make(file, share -> {});
    try (PcmFile copy = reopened(copies.whole(file).orElseThrow())) {
      double[][] read = new double[2][1000];
      copy.read(0, read, 1000);
      assertEquals((float) samples[1501], read[1][750]);
    }
  }

  @Test
  void aBrokenOffCopyIsFinishedWithoutDoingAllAgain() throws IOException {
    var file = decoded(wav(1, 2, 48000, 16, bytes(music(FRAMES, 2, 16), 2, false)));
    copies.make(file, share -> {});
    Path first = copies.segment(file, 0).orElseThrow();
    var made = Files.getLastModifiedTime(first);
    byte[] second = Files.readAllBytes(copies.segment(file, 1).orElseThrow());
    Files.delete(copies.segment(file, 1).orElseThrow());
    assertTrue(copies.segment(file, 1).isEmpty());
    copies.make(file, share -> {});
    assertEquals(made, Files.getLastModifiedTime(first));
    assertArrayEquals(second, Files.readAllBytes(copies.segment(file, 1).orElseThrow()));
  }

  private void checkCopy(byte[] plain, boolean isFlac, boolean isExact) throws IOException {
    var file = decoded(plain);
    var manifest = ListeningCopy.manifest(file);
    assertEquals(isFlac, manifest.isFlac());
    assertEquals(isExact, manifest.isExact());
    assertEquals((file.frames() + (1 << 18) - 1) >> 18, manifest.segments());
    List<Double> shares = new ArrayList<>();
    copies.make(file, shares::add);
    assertEquals(1.0, shares.get(shares.size() - 1));
    try (PcmFile original = decoder.open(file)) {
      for (int i = 0; i < manifest.segments(); i++) {
        try (PcmFile segment = reopened(copies.segment(file, i).orElseThrow())) {
          assertEquals(file.sampleRate(), segment.sampleRate());
          assertSame(original, manifest.segment(i).from(), manifest.segment(i).to(), segment);
        }
      }
      try (PcmFile whole = reopened(copies.whole(file).orElseThrow())) {
        assertSame(original, 0, file.frames(), whole);
      }
    }
    assertTrue(copies.segment(file, manifest.segments()).isEmpty());
    assertTrue(copies.segment(file, -1).isEmpty());
  }

  private static void assertSame(PcmFile original, long from, long to, PcmFile copy)
      throws IOException {
    int count = (int) (to - from);
    assertEquals(count, copy.frames());
    double[][] wanted = new double[original.channels()][count];
    double[][] got = new double[original.channels()][count];
    original.read(from, wanted, count);
    copy.read(0, got, count);
    for (int c = 0; c < wanted.length; c++) {
      assertArrayEquals(wanted[c], got[c]);
    }
  }

  private DecodedFile decoded(byte[] bytes) throws IOException {
    Path upload = Files.write(folder.resolve("upload"), bytes);
    return ((DecodeResult.Decoded) decoder.decode(upload, "a.wav")).file();
  }

  private PcmFile reopened(Path copy) throws IOException {
    DecodedFile file = ((DecodeResult.Decoded) again.decode(copy, copy.toString())).file();
    return again.open(file);
  }
}
