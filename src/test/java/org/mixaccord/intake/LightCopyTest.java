package org.mixaccord.intake;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.mixaccord.intake.Fixtures.bytes;
import static org.mixaccord.intake.Fixtures.floats;
import static org.mixaccord.intake.Fixtures.wav;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Arrays;
import java.util.SplittableRandom;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.mixaccord.storage.DerivedFiles;

/** The lossy copy against the samples it was made from, decoded by the decoder of uploads. */
class LightCopyTest {
  private static Ffmpeg ffmpeg;
  @TempDir Path folder;
  private Decoder decoder;
  private Decoder again;
  private DerivedFiles derived;
  private ListeningCopy copies;

  @BeforeAll
  static void find() {
    ffmpeg = Ffmpeg.unpack(Path.of("target/programs"), Duration.ofSeconds(60), 4L << 30);
  }

  @BeforeEach
  void open() throws IOException {
    derived = new DerivedFiles(folder.resolve("data"), 0);
    decoder = new Decoder(ffmpeg, derived, 1L << 30);
    again = new Decoder(ffmpeg, new DerivedFiles(folder.resolve("again"), 0), 1L << 30);
    copies = new ListeningCopy(ffmpeg, decoder, derived);
  }

  @ParameterizedTest
  @CsvSource({
    "44100,44100",
    "48000,48000",
    "88200,44100",
    "96000,48000",
    "192000,48000",
    "37800,48000",
    "32000,32000",
    "11025,48000"
  })
  void anInstantOfTheCopyIsTheSameInstantOfTheMix(int rate, int codedRate) throws IOException {
    int frames = 5 * rate + 321;
    double[] mono = bursts(frames, rate);
    DecodedFile file = decoded(wav(1, 1, rate, 24, bytes(scaled(mono, 0.5), 3, false)));
    copies.make(file, share -> {});
    LightCopy light = copies.light(file).orElseThrow();
    assertEquals(0, light.gainDb());
    DecodedFile coded = reopened(light);
    assertEquals(codedRate, coded.sampleRate());
    assertEquals((double) frames / rate, coded.seconds(), 1.5 / codedRate);
    double[] heard = samples(coded)[0];
    for (int burst = 0; burst < 5; burst++) {
      double wanted = centre(mono, rate, burst, rate);
      double got = centre(heard, codedRate, burst, codedRate);
      assertEquals(wanted, got, 0.0005, "burst " + burst + ", seconds");
    }
  }

  @Test
  void theSoundIsTheSame() throws IOException {
    int rate = 48_000;
    double[] mono = bursts(4 * rate, rate);
    double[] stereo = new double[2 * mono.length];
    for (int i = 0; i < mono.length; i++) {
      stereo[2 * i] = mono[i];
      stereo[2 * i + 1] = 0.3 * Math.sin(2 * Math.PI * 330 * i / rate);
    }
    DecodedFile file = decoded(wav(1, 2, rate, 16, bytes(scaled16(stereo), 2, false)));
    copies.make(file, share -> {});
    double[][] heard = samples(reopened(copies.light(file).orElseThrow()));
    for (int side = 0; side < 2; side++) {
      double left = 0;
      double all = 0;
      for (int i = 0; i < mono.length; i++) {
        double wanted = stereo[2 * i + side];
        left += Math.pow(heard[side][i] - wanted, 2);
        all += wanted * wanted;
      }
      assertTrue(10 * Math.log10(left / all) < -20, "side " + side + ": what is left over");
    }
  }

  @Test
  void peaksOverFullScaleAreLoweredAsAWholeAndTold() throws IOException {
    double[] samples = new double[2 * 48_000];
    Arrays.setAll(samples, i -> 1.7 * Math.sin(2 * Math.PI * 220 * (i / 2) / 48_000));
    DecodedFile file = decoded(wav(3, 2, 48_000, 32, floats(samples, false, false)));
    copies.make(file, share -> {});
    LightCopy light = copies.light(file).orElseThrow();
    assertEquals(-1 - 20 * Math.log10(1.7), light.gainDb(), 0.011);
    double[][] heard = samples(reopened(light));
    double most = Arrays.stream(heard[0]).map(Math::abs).max().orElseThrow();
    assertTrue(most <= 1, "peak " + most);
    double wanted = 1.7 * Math.pow(10, light.gainDb() / 20) / Math.sqrt(2);
    double sum = Arrays.stream(heard[0], 4_800, 43_200).map(x -> x * x).sum();
    assertEquals(wanted, Math.sqrt(sum / 38_400), wanted * 0.03);
  }

  @Test
  void whatIsNoNumberIsSilentAndSpoilsNothing() throws IOException {
    double[] samples = new double[2 * 48_000];
    Arrays.setAll(samples, i -> 0.5 * Math.sin(2 * Math.PI * 220 * (i / 2) / 48_000));
    samples[2 * 20_000] = Double.NaN;
    samples[2 * 20_001 + 1] = Double.POSITIVE_INFINITY;
    DecodedFile file = decoded(wav(3, 2, 48_000, 32, floats(samples, false, false)));
    copies.make(file, share -> {});
    LightCopy light = copies.light(file).orElseThrow();
    assertEquals(0, light.gainDb());
    double sum = Arrays.stream(samples(reopened(light))[1], 30_000, 40_000).map(x -> x * x).sum();
    assertEquals(0.5 / Math.sqrt(2), Math.sqrt(sum / 10_000), 0.01);
  }

  @Test
  void moreThanTwoChannelsAreFoldedToStereoAndMoreThanEightHaveNoLightCopy() throws IOException {
    double[] six = new double[6 * 48_000];
    for (int i = 0; i < 48_000; i++) {
      // Only the centre sounds: it is heard equally on both sides.
      six[6 * i + 2] = 0.5 * Math.sin(2 * Math.PI * 440 * i / 48_000);
    }
    DecodedFile file = decoded(wav(1, 6, 48_000, 24, bytes(scaled(six, 1), 3, false)));
    copies.make(file, share -> {});
    double[][] heard = samples(reopened(copies.light(file).orElseThrow()));
    assertEquals(2, heard.length);
    for (double[] side : heard) {
      double power = Arrays.stream(side, 10_000, 40_000).map(x -> x * x).sum() / 30_000;
      assertTrue(power > 0.001, "power " + power);
    }
    DecodedFile ten = decoded(wav(1, 10, 48_000, 16, new byte[20 * 48_000]));
    copies.make(ten, share -> {});
    assertFalse(copies.hasLight(ten));
    assertTrue(copies.light(ten).isEmpty());
    assertTrue(copies.whole(ten).isPresent());
  }

  @ParameterizedTest
  @CsvSource({"1", "1023", "1024", "1025", "48000"})
  void shortAndSilentFilesHaveOneToo(int frames) throws IOException {
    DecodedFile file = decoded(wav(1, 2, 48_000, 16, new byte[4 * frames]));
    copies.make(file, share -> {});
    assertEquals(frames, reopened(copies.light(file).orElseThrow()).frames());
  }

  @Test
  void theIndexStandsInFrontAndIsSmall() throws IOException {
    int rate = 44_100;
    double[] mono = bursts(60 * rate, rate);
    DecodedFile file = decoded(wav(1, 1, rate, 16, bytes(scaled16(mono), 2, false)));
    copies.make(file, share -> {});
    LightCopy light = copies.light(file).orElseThrow();
    byte[] bytes = Files.readAllBytes(light.file());
    assertEquals("mdat", new String(bytes, (int) light.indexBytes() + 4, 4, "US-ASCII"));
    String front = new String(bytes, 0, (int) light.indexBytes(), "ISO-8859-1");
    assertTrue(front.startsWith("ftyp", 4) && front.contains("moov") && front.contains("elst"));
    assertTrue(light.indexBytes() < 60 * 44 * 4 + 2_300, "index " + light.indexBytes());
    double bitsPerSecond = bytes.length * 8 / 60.0;
    assertTrue(bitsPerSecond < 60_000, "bits per second " + bitsPerSecond);
  }

  @Test
  void itIsMadeAfterTheFirstSegmentsAndAgainWhenItIsRemoved() throws IOException {
    double[] mono = bursts(40 * 48_000, 48_000);
    DecodedFile file = decoded(wav(1, 1, 48_000, 16, bytes(scaled16(mono), 2, false)));
    boolean[] seen = {false, false};
    copies.make(
        file,
        share -> {
          int there = copies.segmentsThere(file);
          if (there == 4) {
            seen[0] = copies.light(file).isEmpty();
          } else if (there == 5) {
            seen[1] = copies.light(file).isPresent();
          }
        });
    assertTrue(seen[0] && seen[1]);
    assertEquals(8, copies.segmentsThere(file));
    LightCopy light = copies.light(file).orElseThrow();
    byte[] before = Files.readAllBytes(light.file());
    Files.delete(light.file());
    assertTrue(copies.light(file).isEmpty() && copies.hasLight(file));
    copies.make(file, share -> {});
    LightCopy remade = copies.light(file).orElseThrow();
    assertEquals(light, remade);
    assertEquals(-1, Arrays.mismatch(before, Files.readAllBytes(remade.file())));
  }

  /** A short burst of a band in the middle of every second, over very quiet noise. */
  private static double[] bursts(int frames, int rate) {
    SplittableRandom random = new SplittableRandom(7);
    double[] samples = new double[frames];
    for (int i = 0; i < frames; i++) {
      double second = (double) i / rate;
      double fromMiddle = second - Math.floor(second) - 0.5;
      double envelope = Math.exp(-Math.pow(fromMiddle / 0.01, 2));
      samples[i] =
          0.8 * envelope * Math.sin(2 * Math.PI * 900 * fromMiddle)
              + 1e-4 * (random.nextDouble() - 0.5);
    }
    return samples;
  }

  /** Where the power of a burst has its centre, seconds. */
  private static double centre(double[] samples, int rate, int burst, int perSecond) {
    double weighted = 0;
    double all = 0;
    int from = (int) ((burst + 0.4) * perSecond);
    for (int i = from; i < Math.min(samples.length, from + perSecond / 5); i++) {
      double power = samples[i] * samples[i];
      weighted += power * i / rate;
      all += power;
    }
    return weighted / all;
  }

  private static int[] scaled(double[] samples, double gain) {
    return Arrays.stream(samples).mapToInt(x -> (int) Math.round(x * gain * 0x7FFFFF)).toArray();
  }

  private static int[] scaled16(double[] samples) {
    return Arrays.stream(samples).mapToInt(x -> (int) Math.round(x * 0x7FFF)).toArray();
  }

  private DecodedFile decoded(byte[] bytes) throws IOException {
    Path upload = Files.write(folder.resolve("upload"), bytes);
    return ((DecodeResult.Decoded) decoder.decode(upload, "a.wav")).file();
  }

  private DecodedFile reopened(LightCopy copy) throws IOException {
    return ((DecodeResult.Decoded) again.decode(copy.file(), "a.m4a")).file();
  }

  private double[][] samples(DecodedFile file) throws IOException {
    try (PcmFile pcm = again.open(file)) {
      double[][] samples = new double[pcm.channels()][(int) pcm.frames()];
      pcm.read(0, samples, (int) pcm.frames());
      return samples;
    }
  }
}
