package org.mixaccord.intake;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.mixaccord.intake.Fixtures.aiff;
import static org.mixaccord.intake.Fixtures.bytes;
import static org.mixaccord.intake.Fixtures.chunk;
import static org.mixaccord.intake.Fixtures.extensible;
import static org.mixaccord.intake.Fixtures.floats;
import static org.mixaccord.intake.Fixtures.music;
import static org.mixaccord.intake.Fixtures.riff;
import static org.mixaccord.intake.Fixtures.sweep;
import static org.mixaccord.intake.Fixtures.wav;

import java.io.IOException;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalInt;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** One sound through every way of writing it down: the same samples come out, and one hash. */
class EveryFormatTest extends IntakeStage {
  private static final int FRAMES = 5003;

  @ParameterizedTest
  @ValueSource(
      ints = {8000, 11025, 16000, 22050, 32000, 44100, 48000, 88200, 96000, 176400, 192000})
  void plainContainersGiveTheSameSamplesAtEveryRate(int rate) throws IOException {
    for (int bits : new int[] {8, 16, 20, 24, 32}) {
      int[] music = music(FRAMES, 2, bits);
      int width = (bits + 7) / 8;
      int[] wide = shifted(music, width * 8 - bits);
      int[] unsigned = Arrays.stream(wide).map(v -> v + 128).toArray();
      byte[] little = bytes(wide, width, false);
      byte[] big = bytes(wide, width, true);
      Map<String, byte[]> ways = new LinkedHashMap<>();
      ways.put("WAV", wav(1, 2, rate, bits, bits == 8 ? bytes(unsigned, 1, false) : little));
      ways.put("AIFF", aiff("", 2, rate, bits, FRAMES, big));
      ways.put("AIFF-C", aiff("sowt", 2, rate, bits, FRAMES, little));
      ways.put(
          "CAF",
          CafBytes.file(
              CafBytes.description(rate, CafBytes.LITTLE, 2, bits, width), CafBytes.data(little)));
      String hash = decoded(ways.get("WAV"), "WAV").pcmSha256().hex();
      for (var way : ways.entrySet()) {
        var file = decoded(way.getValue(), way.getKey() + " " + bits);
        assertSamples(shifted(music, 32 - bits), file);
        assertEquals(hash, file.pcmSha256().hex(), way.getKey());
        assertEquals(way.getKey(), file.container());
        assertEquals(rate, file.sampleRate());
        assertEquals(FRAMES, file.frames());
        assertEquals(OptionalInt.of(bits), file.bitDepth(), way.getKey());
        assertEquals(List.of(), codes(file), way.getKey());
      }
    }
  }

  @ParameterizedTest
  @CsvSource({
    "flac,flac,16,8000",
    "flac,flac,24,44100",
    "flac,flac,24,88200",
    "flac,flac,24,192000",
    "flac,ogg,24,48000",
    "flac,mp4,24,48000",
    "alac,ipod,16,44100",
    "alac,ipod,24,96000",
    "alac,ipod,24,192000",
    "alac,caf,24,48000",
    "wavpack,wv,16,22050",
    "wavpack,wv,24,96000",
    "wavpack,wv,24,176400"
  })
  void losslessCodingsGiveTheHashOfTheWav(String codec, String muxer, int bits, int rate)
      throws IOException {
    int[] music = music(FRAMES, 2, bits);
    byte[] plain = wav(1, 2, rate, bits, bytes(music, bits / 8, false));
    var file = decoded(Encoded.by(folder, plain, codec, muxer), codec);
    assertSamples(shifted(music, 32 - bits), file);
    assertEquals(decoded(plain, "WAV").pcmSha256(), file.pcmSha256());
    assertEquals(rate, file.sampleRate());
    assertEquals(OptionalInt.of(bits), file.bitDepth());
    assertFalse(file.lossy());
    assertEquals(List.of(), codes(file));
  }

  @ParameterizedTest
  @CsvSource({"16,44100,44100", "20,88200,22664", "24,96000,0", "24,192000,0", "32,96000,48000"})
  void alacTakesRateAndDepthFromItsOwnHead(int bits, int rate, int entryRate) throws IOException {
    int[] music = music(FRAMES, 2, bits);
    var file = decoded(Mp4Bytes.alac(music, 2, bits, rate, entryRate).bytes(), "a.m4a");
    assertSamples(shifted(music, 32 - bits), file);
    assertEquals(rate, file.sampleRate());
    assertEquals(OptionalInt.of(bits), file.bitDepth());
    assertEquals(List.of(), codes(file));
  }

  @Test
  void sixteenBitsInWiderContainersAreTheSameSound() throws IOException {
    int[] music = music(FRAMES, 2, 16);
    String hash = decoded(wav(1, 2, 48000, 16, bytes(music, 2, false)), "16").pcmSha256().hex();
    byte[] in24 = wav(1, 2, 48000, 24, bytes(shifted(music, 8), 3, false));
    byte[] in32 = wav(1, 2, 48000, 32, bytes(shifted(music, 16), 4, false));
    byte[] valid16 =
        riff(
            "RIFF",
            chunk("fmt ", extensible(1, 2, 48000, 24, 16, 3), false),
            chunk("data", bytes(shifted(music, 8), 3, false), false));
    for (byte[] same :
        List.of(
            in24,
            in32,
            valid16,
            aiff("", 2, 48000, 24, FRAMES, bytes(shifted(music, 8), 3, true)),
            Encoded.by(folder, in24, "flac", "flac"),
            Encoded.by(folder, in24, "wavpack", "wv"),
            Mp4Bytes.alac(shifted(music, 8), 2, 24, 48000, 48000).bytes())) {
      var file = decoded(same, "wider");
      assertEquals(hash, file.pcmSha256().hex(), file.container());
      assertEquals(OptionalInt.of(16), file.significantBits(), file.container());
    }
    var other = music.clone();
    other[4321] ^= 1;
    assertFalse(
        hash.equals(decoded(wav(1, 2, 48000, 16, bytes(other, 2, false)), "b").pcmSha256().hex()));
    assertFalse(
        hash.equals(decoded(wav(1, 2, 44100, 16, bytes(music, 2, false)), "b").pcmSha256().hex()));
  }

  @ParameterizedTest
  @ValueSource(booleans = {false, true})
  void floatsAreTheSameSoundInEveryContainerThatHoldsThem(boolean isDouble) throws IOException {
    double[] sound = new double[2 * FRAMES];
    Arrays.setAll(sound, i -> 0.9 * Math.sin(i * 0.017) * Math.cos(i * 0.0031));
    int bits = isDouble ? 64 : 32;
    byte[] little = floats(sound, isDouble, false);
    byte[] big = floats(sound, isDouble, true);
    byte[] plain = wav(3, 2, 48000, bits, little);
    String hash = decoded(plain, "a.wav").pcmSha256().hex();
    for (byte[] same :
        List.of(
            riff(
                "RIFF",
                chunk("fmt ", extensible(3, 2, 48000, bits, bits, 3), false),
                chunk("data", little, false)),
            aiff("fl" + bits, 2, 48000, bits, FRAMES, big),
            CafBytes.file(
                CafBytes.description(48000, CafBytes.FLOAT, 2, bits, bits / 8), CafBytes.data(big)),
            CafBytes.file(
                CafBytes.description(48000, CafBytes.FLOAT | CafBytes.LITTLE, 2, bits, bits / 8),
                CafBytes.openData(little)))) {
      var file = decoded(same, "a");
      assertEquals(hash, file.pcmSha256().hex(), file.container());
      assertEquals("float", file.codec());
      assertEquals(OptionalInt.of(bits), file.bitDepth());
      assertEquals(List.of(), codes(file), file.container());
    }
    double[] kept = numbers(decoded(plain, "a.wav"));
    double[] wanted =
        isDouble ? sound : Arrays.stream(sound).map(sample -> (float) sample).toArray();
    assertArrayEquals(wanted, kept);
  }

  @ParameterizedTest
  @CsvSource({
    "aac,ipod,MP4,44100",
    "aac,ipod,MP4,48000",
    "aac,ipod,MP4,96000",
    "libmp3lame,mp3,MP3,32000",
    "libmp3lame,mp3,MP3,44100",
    "libmp3lame,mp3,MP3,22050",
    "libmp3lame,mp4,MP4,48000",
    "libopus,opus,Ogg Opus,48000"
  })
  void lossyCopiesHaveTheLengthOfTheOriginalToTheFrame(
      String codec, String muxer, String container, int rate) throws IOException {
    int frames = 100_001;
    int[] music = sweep(frames, 2);
    byte[] plain = wav(1, 2, rate, 16, bytes(music, 2, false));
    var file = decoded(Encoded.by(folder, plain, codec, muxer), codec);
    assertEquals(container, file.container());
    assertEquals(frames, file.frames());
    assertEquals(rate, file.sampleRate());
    assertTrue(file.lossy());
    // This encoder's high-pass turns the phase of low tones by about a sample.
    assertEquals(0, lag(music, file, 2000), codec.equals("libopus") ? 1 : 0);
    assertTrue(signalToError(music, file) > 15, "signal to error " + signalToError(music, file));
    assertEquals(List.of("delay-trimmed"), codes(file));
  }
}
