package org.mixaccord.intake;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.mixaccord.intake.Fixtures.aiff;
import static org.mixaccord.intake.Fixtures.bytes;
import static org.mixaccord.intake.Fixtures.chunk;
import static org.mixaccord.intake.Fixtures.extensible;
import static org.mixaccord.intake.Fixtures.floats;
import static org.mixaccord.intake.Fixtures.fmt;
import static org.mixaccord.intake.Fixtures.join;
import static org.mixaccord.intake.Fixtures.music;
import static org.mixaccord.intake.Fixtures.number;
import static org.mixaccord.intake.Fixtures.riff;
import static org.mixaccord.intake.Fixtures.wav;

import java.io.IOException;
import java.security.MessageDigest;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.List;
import java.util.OptionalInt;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.mixaccord.audio.container.FileDefect;
import org.mixaccord.storage.DerivedFiles;

class DecoderTest extends IntakeStage {
  private static final int FRAMES = 3001;

  @ParameterizedTest
  @CsvSource({
    "8,1,8000",
    "16,2,44100",
    "16,6,48000",
    "20,2,48000",
    "24,1,48000",
    "24,2,192000",
    "32,2,96000"
  })
  void integerWavKeepsEverySample(int bits, int channels, int rate) throws IOException {
    int[] music = music(FRAMES, channels, bits);
    int container = (bits + 7) / 8;
    int[] written = shifted(music, container * 8 - bits);
    if (bits == 8) {
      written = Arrays.stream(written).map(v -> v + 128).toArray();
    }
    var file = decoded(wav(1, channels, rate, bits, bytes(written, container, false)), "a.wav");
    assertSamples(shifted(music, 32 - bits), file);
    assertEquals("WAV", file.container());
    assertEquals(rate, file.sampleRate());
    assertEquals(OptionalInt.of(bits), file.bitDepth());
    assertEquals(OptionalInt.of(bits), file.significantBits());
    assertEquals((double) FRAMES / rate, file.seconds());
    assertFalse(file.lossy());
    assertEquals(channels > 2 ? List.of("more-than-stereo") : List.of(), codes(file));
  }

  @Test
  void thePcmHashIsOverTheHeadLineAndTheLeftJustifiedSamples() throws Exception {
    int[] music = music(FRAMES, 2, 24);
    var file = decoded(wav(1, 2, 48000, 24, bytes(music, 3, false)), "a.wav");
    MessageDigest digest = MessageDigest.getInstance("SHA-256");
    digest.update("s32 48000 2\n".getBytes(UTF_8));
    digest.update(bytes(shifted(music, 8), 4, false));
    assertEquals(HexFormat.of().formatHex(digest.digest()), file.pcmSha256().hex());
  }

  @Test
  void oneSoundHasOneHashInEveryLosslessContainer() throws IOException {
    byte[] little = bytes(music(FRAMES, 2, 16), 2, false);
    byte[] big = bytes(music(FRAMES, 2, 16), 2, true);
    byte[] plain = wav(1, 2, 44100, 16, little);
    String hash = decoded(plain, "a.wav").pcmSha256().hex();
    byte[] ds64 =
        chunk(
            "ds64",
            join(
                number(0, 8, false),
                number(little.length, 8, false),
                number(FRAMES, 8, false),
                number(0, 4, false)),
            false);
    byte[] format = chunk("fmt ", fmt(1, 2, 44100, 16, false), false);
    byte[] open = chunk("data", little, 0xFFFFFFFFL, false, false);
    for (byte[] same :
        List.of(
            riff("RF64", ds64, format, open),
            riff("BW64", ds64, format, open),
            riff("RIFX", chunk("fmt ", fmt(1, 2, 44100, 16, true), true), chunk("data", big, true)),
            riff(
                "RIFF",
                chunk("fmt ", extensible(1, 2, 44100, 16, 16, 3), false),
                chunk("data", little, false)),
            riff(
                "RIFF",
                chunk("JUNK", new byte[29], false),
                chunk("bext", new byte[602], false),
                chunk("data", little, false),
                format),
            aiff("", 2, 44100, 16, FRAMES, big),
            aiff("NONE", 2, 44100, 16, FRAMES, big),
            aiff("twos", 2, 44100, 16, FRAMES, big),
            aiff("sowt", 2, 44100, 16, FRAMES, little))) {
      var file = decoded(same, "a");
      assertEquals(hash, file.pcmSha256().hex(), file.container());
      assertEquals(List.of(), codes(file), file.container());
    }
    for (String[] way :
        new String[][] {
          {"flac", "flac"},
          {"alac", "ipod"},
          {"wavpack", "wv"},
          {"pcm_s16be", "caf"},
          {"pcm_s16le", "caf"},
          {"flac", "ogg"}
        }) {
      var file = decoded(Encoded.by(folder, plain, way[0], way[1]), "a");
      assertEquals(hash, file.pcmSha256().hex(), way[0] + " in " + way[1]);
      assertEquals(OptionalInt.of(16), file.bitDepth(), way[0]);
      assertEquals(List.of(), codes(file), way[0]);
      assertFalse(file.lossy());
    }
  }

  @ParameterizedTest
  @CsvSource({"flac,flac", "alac,ipod", "wavpack,wv", "pcm_s24be,aiff", "pcm_s24le,caf"})
  void twentyFourBitsSurviveEveryLosslessCoding(String codec, String muxer) throws IOException {
    int[] music = music(FRAMES, 2, 24);
    byte[] plain = wav(1, 2, 96000, 24, bytes(music, 3, false));
    var file = decoded(Encoded.by(folder, plain, codec, muxer), "x");
    assertSamples(shifted(music, 8), file);
    assertEquals(OptionalInt.of(24), file.significantBits());
    assertEquals(96000, file.sampleRate());
  }

  @ParameterizedTest
  @CsvSource({
    "aac,ipod,48000,MP4,aac",
    "aac,adts,48000,AAC,aac",
    "libmp3lame,mp3,44100,MP3,mp3",
    "libopus,opus,48000,Ogg Opus,opus"
  })
  void lossyCopiesStartWhereTheyShouldAndKeepTheirLevel(
      String codec, String muxer, int rate, String container, String name) throws IOException {
    int frames = rate;
    int[] music = music(frames, 2, 16);
    byte[] plain = wav(1, 2, rate, 16, bytes(music, 2, false));
    var file = decoded(Encoded.by(folder, plain, codec, muxer), "x");
    assertTrue(file.lossy());
    assertEquals(container, file.container());
    assertEquals(name, file.codec());
    assertEquals(OptionalInt.empty(), file.bitDepth());
    assertEquals(SampleFormat.F32, file.sampleFormat());
    if (muxer.equals("adts")) {
      // Raw AAC has nowhere to write its delay down.
      assertTrue(file.frames() >= frames, "frames " + file.frames());
      return;
    }
    assertEquals(frames, file.frames(), muxer.equals("ipod") ? 1024 : 0);
    assertTrue(signalToError(music, file) > 15, "signal to error " + signalToError(music, file));
  }

  @Test
  void floatsKeepTheirPeaksAndFalseNumbersAreToldWithTheirPlace() throws IOException {
    double[] samples = new double[4000];
    Arrays.setAll(samples, i -> 2 * Math.sin(i * 0.1));
    for (boolean isDouble : new boolean[] {false, true}) {
      var file =
          decoded(wav(3, 2, 8000, isDouble ? 64 : 32, floats(samples, isDouble, false)), "a.wav");
      assertEquals(isDouble ? SampleFormat.F64 : SampleFormat.F32, file.sampleFormat());
      assertEquals(List.of("over-full-scale"), codes(file));
      assertTrue(
          file.defects().get(0).detail().contains("+6.0 dBFS"), file.defects().get(0).detail());
      assertEquals(isDouble ? samples[777] : (float) samples[777], sample(file, 388, 1));
    }
    samples[2000] = Double.NaN;
    samples[2003] = Double.POSITIVE_INFINITY;
    var file = decoded(wav(3, 2, 8000, 32, floats(samples, false, false)), "a.wav");
    FileDefect defect = file.defects().get(0);
    assertEquals("not-a-number", defect.code());
    assertEquals(0.125, defect.fromSeconds().orElseThrow());
    assertEquals(0.12525, defect.toSeconds().orElseThrow());
    assertTrue(defect.detail().startsWith("2 samples"), defect.detail());
    assertEquals(0, sample(file, 1000, 0));
  }

  @ParameterizedTest
  @CsvSource({"fl32,32", "FL32,32", "fl64,64"})
  void aiffFloats(String type, int bits) throws IOException {
    double[] samples = new double[600];
    Arrays.setAll(samples, i -> Math.sin(i * 0.1));
    var file = decoded(aiff(type, 2, 44100, bits, 300, floats(samples, bits == 64, true)), "a.aif");
    assertEquals(bits == 64 ? samples[401] : (float) samples[401], sample(file, 200, 1));
  }

  @Test
  void twentyFourBitSowtIsReadInTheOrderThatMakesSense() throws IOException {
    int[] music = music(FRAMES, 2, 24);
    for (boolean big : new boolean[] {false, true}) {
      var file = decoded(aiff("sowt", 2, 48000, 24, FRAMES, bytes(music, 3, big)), "a.aif");
      assertSamples(shifted(music, 8), file);
    }
  }

  @Test
  void twentyFourBitsInThirtyTwoAreSeenAsSuch() throws IOException {
    int[] music = music(FRAMES, 2, 24);
    byte[] data = bytes(shifted(music, 8), 4, false);
    var file =
        decoded(
            riff(
                "RIFF",
                chunk("fmt ", extensible(1, 2, 48000, 32, 24, 3), false),
                chunk("data", data, false)),
            "a.wav");
    assertEquals(OptionalInt.of(24), file.bitDepth());
    assertEquals(OptionalInt.of(24), file.significantBits());
    assertSamples(shifted(music, 8), file);
    var sixteen =
        decoded(wav(1, 2, 48000, 24, bytes(shifted(music(FRAMES, 2, 16), 8), 3, false)), "a.wav");
    assertEquals(OptionalInt.of(24), sixteen.bitDepth());
    assertEquals(OptionalInt.of(16), sixteen.significantBits());
  }

  @Test
  void floatsCalledIntegersAndTheOtherWayRoundAreNotPlayedAsNoise() throws IOException {
    double[] samples = new double[8000];
    Arrays.setAll(samples, i -> 0.5 * Math.sin(i * 0.01));
    var floats = decoded(wav(1, 2, 48000, 32, floats(samples, false, false)), "a.wav");
    assertEquals(List.of("integer-float-confusion"), codes(floats));
    assertEquals((float) samples[101], sample(floats, 50, 1));
    int[] music = music(FRAMES, 2, 32);
    var integers = decoded(wav(3, 2, 48000, 32, bytes(music, 4, false)), "a.wav");
    assertEquals(List.of("integer-float-confusion"), codes(integers));
    assertSamples(music, integers);
  }

  @Test
  void silenceIsSoundToo() throws IOException {
    var file = decoded(wav(1, 2, 48000, 16, new byte[48000 * 4]), "a.wav");
    assertEquals(48000, file.frames());
    assertEquals(OptionalInt.empty(), file.significantBits());
  }

  @Test
  void theNameIsOnlyEverCorrected() throws IOException {
    byte[] plain = wav(1, 2, 44100, 16, bytes(music(FRAMES, 2, 16), 2, false));
    byte[] flac = Encoded.by(folder, plain, "flac", "flac");
    var file = decoded(flac, "Mix 3.wav");
    assertEquals("FLAC", file.container());
    assertEquals("The file is named .wav but really is FLAC.", file.defects().get(0).detail());
    byte[] tag = join(new byte[] {'I', 'D', '3', 4, 0, 0, 0, 0, 1, 0}, new byte[128]);
    var tagged = decoded(join(tag, flac), "Mix 3.flac");
    assertEquals(file.pcmSha256(), tagged.pcmSha256());
    assertEquals(List.of(), codes(tagged));
  }

  @Test
  void flacCutOffSaysHowMuchIsThere() throws IOException {
    byte[] plain = wav(1, 2, 44100, 16, bytes(music(200_000, 2, 16), 2, false));
    byte[] flac = Encoded.by(folder, plain, "flac", "flac");
    var file = decoded(Arrays.copyOf(flac, flac.length * 61 / 100), "a.flac");
    assertTrue(codes(file).contains("truncated"), codes(file).toString());
    assertTrue(file.frames() > 100_000 && file.frames() < 130_000, "frames " + file.frames());
  }

  @Test
  void codedStreamsInsideAWavAreDecodedAndNamed() throws IOException {
    byte[] plain = wav(1, 2, 44100, 16, bytes(music(44100, 2, 16), 2, false));
    for (String codec : List.of("libmp3lame", "adpcm_ms", "pcm_alaw")) {
      var file = decoded(Encoded.by(folder, plain, codec, "wav"), "a.wav");
      assertTrue(file.lossy(), codec);
      assertTrue(codes(file).contains("lossy-inside"), codec + codes(file));
      assertTrue(file.frames() >= 44100, codec + " " + file.frames());
    }
  }

  @Test
  void whatIsNoSoundIsSaidInWords() throws IOException {
    rejected(new byte[0], DecodeResult.Reason.EMPTY, "empty");
    rejected(
        "<!DOCTYPE html><html>Sign in</html>".getBytes(UTF_8),
        DecodeResult.Reason.NOT_AUDIO,
        "web page");
    rejected(
        join("PK\u0003\u0004".getBytes(UTF_8), new byte[50]),
        DecodeResult.Reason.NOT_AUDIO,
        "archive");
    rejected("notes for the mix\n".getBytes(UTF_8), DecodeResult.Reason.NOT_AUDIO, "text file");
    rejected(new byte[] {0, 5, 0x16, 7, 0, 2, 0, 0}, DecodeResult.Reason.NOT_AUDIO, "companion");
    rejected(new byte[5000], DecodeResult.Reason.NOT_AUDIO, "zeros");
    rejected(
        join(new byte[] {(byte) 0x89}, "PNG\r\n".getBytes(UTF_8), new byte[9]),
        DecodeResult.Reason.NOT_AUDIO,
        "picture");
    rejected("%PDF-1.7".getBytes(UTF_8), DecodeResult.Reason.NOT_AUDIO, "PDF");
    byte[] noise = new byte[9000];
    new java.util.Random(5).nextBytes(noise);
    rejected(noise, DecodeResult.Reason.NOT_AUDIO, "not a sound file");
  }

  @Test
  void soundFilesWithoutSoundAreSaidInWords() throws IOException {
    rejected(
        wav(1, 2, 48000, 16, new byte[0]),
        DecodeResult.Reason.NO_AUDIO_FRAMES,
        "no sound after it");
    rejected(
        wav(1, 0, 48000, 16, new byte[80]), DecodeResult.Reason.NO_AUDIO_FRAMES, "no channels");
    rejected(
        wav(1, 2, 0, 16, new byte[80]), DecodeResult.Reason.NO_AUDIO_FRAMES, "sample rate of zero");
    for (int rate : new int[] {1, 3999, 768_001, Integer.MAX_VALUE}) {
      rejected(
          wav(1, 2, rate, 16, new byte[80]),
          DecodeResult.Reason.UNSUPPORTED_FORMAT,
          rate + " samples a second");
    }
    rejected(
        wav(1, 65, 48000, 16, new byte[1300]),
        DecodeResult.Reason.UNSUPPORTED_FORMAT,
        "65 channels");
    byte[] adpcm = Encoded.by(folder, wav(1, 2, 44100, 16, new byte[8000]), "adpcm_ms", "wav");
    System.arraycopy(number(1_092_676, 4, false), 0, adpcm, 24, 4);
    rejected(adpcm, DecodeResult.Reason.UNSUPPORTED_FORMAT, "1092676 samples a second");
    rejected(
        wav(0x161, 2, 48000, 16, new byte[80]), DecodeResult.Reason.UNSUPPORTED_FORMAT, "0x0161");
    rejected(
        join("fLaC".getBytes(UTF_8), new byte[60]), DecodeResult.Reason.NO_AUDIO_FRAMES, "FLAC");
    byte[] plain = wav(1, 2, 44100, 16, bytes(music(44100, 2, 16), 2, false));
    byte[] m4a = Encoded.by(folder, plain, "aac", "ipod");
    // The index of this file is at its end, as recorders write it.
    rejected(
        Arrays.copyOf(m4a, m4a.length / 2),
        DecodeResult.Reason.NO_AUDIO_FRAMES,
        "never finished writing");
  }

  @Test
  void aLyingFileCannotFillTheDisk() throws IOException {
    decoder = new Decoder(ffmpeg, derived, 100_000);
    byte[] plain = wav(1, 2, 44100, 16, new byte[4 * 44100]);
    rejected(plain, DecodeResult.Reason.UNSUPPORTED_FORMAT, "longer than");
    rejected(
        Encoded.by(folder, plain, "flac", "flac"),
        DecodeResult.Reason.UNSUPPORTED_FORMAT,
        "longer than");
    derived = new DerivedFiles(folder.resolve("data"), 0, () -> 50_000);
    decoder = new Decoder(ffmpeg, derived, 1L << 30);
    rejected(plain, DecodeResult.Reason.DISK_FULL, "disk is full");
  }
}
