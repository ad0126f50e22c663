package org.mixaccord.intake;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.io.TempDir;
import org.mixaccord.audio.container.FileDefect;
import org.mixaccord.storage.DerivedFiles;

/** The real decoder with its confined child, and questions about what came out of it. */
abstract class IntakeStage {
  static Ffmpeg ffmpeg;
  @TempDir Path folder;
  DerivedFiles derived;
  Decoder decoder;

  @BeforeAll
  static void find() {
    ffmpeg = Ffmpeg.unpack(Path.of("target/programs"), Duration.ofSeconds(60), 4L << 30);
  }

  @BeforeEach
  void open() throws IOException {
    derived = new DerivedFiles(folder.resolve("data"), 0);
    decoder = new Decoder(ffmpeg, derived, 1L << 30);
  }

  @AfterEach
  void nothingUnfinishedIsLeft() throws IOException {
    try (var files = Files.list(folder.resolve("data/unfinished"))) {
      assertEquals(0, files.count());
    }
  }

  DecodedFile decoded(byte[] bytes, String name) throws IOException {
    DecodeResult result = decoder.decode(Files.write(folder.resolve("upload"), bytes), name);
    assertTrue(result instanceof DecodeResult.Decoded, name + ": " + result);
    DecodedFile file = ((DecodeResult.Decoded) result).file();
    try (PcmFile pcm = decoder.open(file)) {
      assertEquals(file.frames(), pcm.frames());
    }
    return file;
  }

  void rejected(byte[] bytes, DecodeResult.Reason reason, String words) throws IOException {
    DecodeResult result = decoder.decode(Files.write(folder.resolve("upload"), bytes), "a.wav");
    assertTrue(result instanceof DecodeResult.Rejected, result.toString());
    var rejected = (DecodeResult.Rejected) result;
    assertEquals(reason, rejected.reason(), rejected.detail());
    assertTrue(rejected.detail().contains(words), rejected.detail());
  }

  static List<String> codes(DecodedFile file) {
    return file.defects().stream().map(FileDefect::code).toList();
  }

  static FileDefect defect(DecodedFile file, String code) {
    return file.defects().stream()
        .filter(defect -> defect.code().equals(code))
        .findFirst()
        .orElseThrow(() -> new AssertionError(code + " is not among " + file.defects()));
  }

  static int[] shifted(int[] samples, int bits) {
    return Arrays.stream(samples).map(v -> v << bits).toArray();
  }

  void assertSamples(int[] expected, DecodedFile file) throws IOException {
    assertEquals(SampleFormat.S32, file.sampleFormat());
    assertArrayEquals(expected, integers(file));
  }

  /** All samples, interleaved and left-justified. */
  int[] integers(DecodedFile file) throws IOException {
    return Arrays.stream(numbers(file)).mapToInt(sample -> (int) (sample * 0x1p31)).toArray();
  }

  /** All samples, interleaved, full scale 1. */
  double[] numbers(DecodedFile file) throws IOException {
    try (PcmFile pcm = decoder.open(file)) {
      double[][] read = new double[file.channels()][(int) file.frames()];
      pcm.read(0, read, (int) file.frames());
      double[] samples = new double[(int) file.frames() * file.channels()];
      for (int i = 0; i < samples.length; i++) {
        samples[i] = read[i % file.channels()][i / file.channels()];
      }
      return samples;
    }
  }

  double sample(DecodedFile file, int frame, int channel) throws IOException {
    return numbers(file)[frame * file.channels() + channel];
  }

  /**
   * How far the error lies below the signal, in dB, sample against sample and none of them moved;
   * the first and last tenth of a second are left out.
   */
  double signalToError(int[] music, DecodedFile file) throws IOException {
    double[] read = numbers(file);
    int edge = file.sampleRate() / 10 * file.channels();
    double signal = 0;
    double error = 0;
    for (int i = edge; i < Math.min(read.length, music.length) - edge; i++) {
      double wanted = music[i] / 32768.0;
      signal += wanted * wanted;
      error += (read[i] - wanted) * (read[i] - wanted);
    }
    return 10 * Math.log10(signal / error);
  }

  /** Frames by which the decoded sound lies later than the music, found by trying. */
  int lag(int[] music, DecodedFile file, int most) throws IOException {
    double[] read = numbers(file);
    int channels = file.channels();
    int from = file.sampleRate() / 5;
    int count = Math.min(8000, music.length / channels - from - most);
    double best = -1;
    int found = 0;
    for (int lag = -most; lag <= most; lag++) {
      double sum = 0;
      for (int i = from; i < from + count; i++) {
        int at = (i + lag) * channels;
        if (at >= 0 && at < read.length) {
          sum += music[i * channels] / 32768.0 * read[at];
        }
      }
      if (sum > best) {
        best = sum;
        found = lag;
      }
    }
    return found;
  }
}
