package org.mixaccord.intake;

import static java.nio.charset.StandardCharsets.ISO_8859_1;
import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;
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
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.mixaccord.audio.container.ByteSource;
import org.mixaccord.audio.container.FileDefect;
import org.mixaccord.audio.container.Walk;
import org.mixaccord.audio.container.WavWalker;

/** WAV files as programs really write them: the sound that must come out, and what is said. */
class WavOdditiesTest extends IntakeStage {
  private static final int FRAMES = 5000;
  private static final int[] MUSIC = music(FRAMES, 2, 16);
  private static final byte[] SOUND = bytes(MUSIC, 2, false);
  private static final byte[] FORMAT = chunk("fmt ", fmt(1, 2, 44100, 16, false), false);
  private static final byte[] DATA = chunk("data", SOUND, false);

  @Test
  void oddLengthsOfSoundAreNoFault() throws IOException {
    int[] odd = music(101, 1, 24);
    byte[] format = chunk("fmt ", fmt(1, 1, 48000, 24, false), false);
    byte[] sound = bytes(odd, 3, false);
    byte[] list = chunk("LIST", "INFOISFT\4\0\0\0abc\0".getBytes(ISO_8859_1), false);
    for (byte[] file :
        List.of(
            riff("RIFF", format, chunk("data", sound, false)),
            riff("RIFF", format, chunk("data", sound, sound.length, false, false)),
            riff("RIFF", list, format, chunk("data", sound, false)),
            riff("RIFF", format, chunk("data", sound, false), list))) {
      var decoded = decoded(file, "a.wav");
      assertSamples(shifted(odd, 8), decoded);
      assertEquals(List.of(), codes(decoded));
    }
    byte[] unpadded = riff("RIFF", format, chunk("data", sound, sound.length, false, false), list);
    var decoded = decoded(unpadded, "a.wav");
    assertSamples(shifted(odd, 8), decoded);
    assertEquals(List.of("missing-pad"), codes(decoded));
  }

  @Test
  void longFormsWorkInSmallFilesAndUseTheirShortSizesWhereThoseAreFilled() throws IOException {
    byte[] zeros = chunk("ds64", new byte[28], false);
    byte[] lies = chunk("ds64", join(new byte[8], number(99, 8, false), new byte[12]), false);
    for (String magic : List.of("RF64", "BW64")) {
      for (byte[] ds64 : List.of(zeros, lies)) {
        var file = decoded(riff(magic, ds64, FORMAT, DATA), "a.wav");
        assertSamples(shifted(MUSIC, 16), file);
        assertEquals(magic, file.container());
        assertEquals(List.of(), codes(file));
      }
    }
  }

  /** A mix of 6.5 GiB whose writer let the 32-bit sizes run over: 2.5 GiB is what they say. */
  @Test
  void soundBehindFourGigabytesIsNotLost() throws IOException {
    long bytes = 6_979_321_856L;
    byte[] head =
        join(
            "RIFF".getBytes(ISO_8859_1),
            number(bytes + 36 & 0xFFFFFFFFL, 4, false),
            "WAVE".getBytes(ISO_8859_1),
            FORMAT,
            "data".getBytes(ISO_8859_1),
            number(bytes & 0xFFFFFFFFL, 4, false));
    // What follows the declared end looks like the name of a chunk, as sound sometimes does.
    ByteSource file =
        new ByteSource() {
          @Override
          public long size() {
            return head.length + bytes;
          }

          @Override
          public int read(long position, byte[] into, int at, int count) {
            int some = (int) Math.max(0, Math.min(count, size() - position));
            for (int i = 0; i < some; i++) {
              long place = position + i;
              into[at + i] = place < head.length ? head[(int) place] : (byte) (32 + place % 90);
            }
            return some;
          }
        };
    var layout = ((Walk.Found) WavWalker.walk(file)).layout();
    assertEquals(bytes / 4, layout.frames());
    assertEquals(List.of("lying-sizes"), layout.defects().stream().map(FileDefect::code).toList());
    assertTrue(layout.defects().get(0).detail().contains("all of the sound in it was taken"));
  }

  @Test
  void brokenNotesInsideTheFileNeverHideTheSound() throws IOException {
    byte[] liar = chunk("LIST", "INFOISFT\u00ff\u00ff\0\0abcd".getBytes(ISO_8859_1), false);
    byte[] unsteady =
        chunk("LIST", "INFOISFT\3\0\0\0abcICMT\2\0\0\0ab".getBytes(ISO_8859_1), false);
    byte[] foreign = chunk("\1\u0080x\0", new byte[10], false);
    byte[] vendor = chunk("qrst", new byte[333], false);
    byte[] cues = chunk("cue ", number(50_000_000, 4, false), false);
    for (byte[] notes :
        List.of(liar, unsteady, chunk("LIST", new byte[40], false), foreign, vendor, cues)) {
      for (byte[] file :
          List.of(
              riff("RIFF", notes, FORMAT, DATA),
              riff("RIFF", FORMAT, notes, DATA),
              riff("RIFF", FORMAT, DATA, notes))) {
        var decoded = decoded(file, "a.wav");
        assertSamples(shifted(MUSIC, 16), decoded);
        assertEquals(List.of(), codes(decoded));
      }
    }
    byte[] runsOver = chunk("bext", new byte[610], 700_000, false, false);
    var decoded = decoded(riff("RIFF", runsOver, FORMAT, DATA), "a.wav");
    assertSamples(shifted(MUSIC, 16), decoded);
    assertEquals(List.of("broken-metadata"), codes(decoded));
    assertFalse(defect(decoded, "broken-metadata").affectsSound());
  }

  @Test
  void anEndInTheMiddleOfASampleIsToldAndBlocks() throws IOException {
    byte[] part = Arrays.copyOf(SOUND, SOUND.length - 3);
    var file = decoded(riff("RIFF", FORMAT, chunk("data", part, false)), "a.wav");
    assertSamples(shifted(Arrays.copyOf(MUSIC, MUSIC.length - 2), 16), file);
    assertEquals(List.of("partial-frame"), codes(file));
    assertTrue(defect(file, "partial-frame").affectsSound());
    assertTrue(defect(file, "partial-frame").detail().contains("in the middle of a sample"));
  }

  @Test
  void surplusInTheFormatIsTolerated() throws IOException {
    byte[] plain = fmt(1, 2, 44100, 16, false);
    for (byte[] body :
        List.of(
            join(plain, new byte[2]),
            join(plain, number(22, 2, false)),
            join(plain, number(40_000, 2, false)),
            join(plain, number(22, 2, false), new byte[22]),
            join(plain, new byte[84]))) {
      var file = decoded(riff("RIFF", chunk("fmt ", body, false), DATA), "a.wav");
      assertSamples(shifted(MUSIC, 16), file);
      assertEquals(List.of(), codes(file));
    }
  }

  @Test
  void aSecondRateInTheHeaderIsAskedAboutAndNonsenseIsNot() throws IOException {
    byte[] format = fmt(1, 2, 44100, 16, false);
    System.arraycopy(number(48000 * 4, 4, false), 0, format, 8, 4);
    var file = decoded(riff("RIFF", chunk("fmt ", format, false), DATA), "a.wav");
    assertEquals(44100, file.sampleRate());
    assertTrue(defect(file, "speed-mismatch").affectsSound());
    assertTrue(
        defect(file, "speed-mismatch").detail().contains("44100 Hz and 48000 Hz"),
        defect(file, "speed-mismatch").detail());
    System.arraycopy(number(1, 4, false), 0, format, 8, 4);
    file = decoded(riff("RIFF", chunk("fmt ", format, false), DATA), "a.wav");
    assertSamples(shifted(MUSIC, 16), file);
    assertFalse(defect(file, "speed-mismatch").affectsSound());
  }

  @Test
  void fullScaleStaysFullScale() throws IOException {
    double[] edges = {1.0, -1.0, 1.0, -1.0, 0.5, -0.5};
    for (boolean isDouble : new boolean[] {false, true}) {
      var file =
          decoded(wav(3, 2, 48000, isDouble ? 64 : 32, floats(edges, isDouble, false)), "a.wav");
      assertArrayEquals(edges, numbers(file));
      assertEquals(List.of(), codes(file));
    }
    int[] integers = {0x7FFF, -0x8000, -0x4000, 0x4000};
    var file = decoded(wav(1, 2, 48000, 16, bytes(integers, 2, false)), "a.wav");
    assertArrayEquals(new double[] {32767 / 32768.0, -1, -0.5, 0.5}, numbers(file));
  }

  @Test
  void aTagInFrontIsReadOverAndTold() throws IOException {
    byte[] plain = riff("RIFF", FORMAT, DATA);
    var file = decoded(join(Tags.id3v2(), plain), "a.wav");
    assertSamples(shifted(MUSIC, 16), file);
    assertEquals(List.of("tag-in-front"), codes(file));
    assertFalse(defect(file, "tag-in-front").affectsSound());
  }

  @Test
  void thePlaceInTheSessionIsShown() throws IOException {
    byte[] bext = new byte[602];
    System.arraycopy(number(44100L * 3600 + 22050, 8, false), 0, bext, 338, 8);
    var file = decoded(riff("RIFF", chunk("bext", bext, false), FORMAT, DATA), "a.wav");
    assertSamples(shifted(MUSIC, 16), file);
    assertEquals(List.of("place-in-session"), codes(file));
    assertTrue(defect(file, "place-in-session").detail().contains("1:00:00.500 of its session"));
    assertFalse(defect(file, "place-in-session").affectsSound());
  }

  @Test
  void channelsAreNamedAndAnImpossibleNamingIsLeftOut() throws IOException {
    byte[] six = bytes(music(500, 6, 16), 2, false);
    String film = sentence(six, 0x3F);
    assertTrue(
        film.startsWith(
            "The file has 6 channels: 1 left, 2 right, 3 centre, 4 low-frequency effects, 5 back"
                + " left, 6 back right."),
        film);
    assertTrue(sentence(six, 0x60F).contains("5 side left, 6 side right"), sentence(six, 0x60F));
    String wrong = sentence(six, 0x3);
    assertTrue(wrong.contains("does not say which loudspeaker each is for"), wrong);
    var seventeen = decoded(wav(1, 17, 48000, 16, bytes(music(50, 17, 16), 2, false)), "a.wav");
    assertTrue(
        defect(seventeen, "more-than-stereo").detail().startsWith("The file has 17 channels and"));
  }

  private String sentence(byte[] sound, long mask) throws IOException {
    byte[] format = chunk("fmt ", extensible(1, 6, 48000, 16, 16, mask), false);
    var file = decoded(riff("RIFF", format, chunk("data", sound, false)), "a.wav");
    return defect(file, "more-than-stereo").detail();
  }

  @Test
  void monoInTwoChannelsAndAnEmptyChannelAreNoticed() throws IOException {
    int[] same = MUSIC.clone();
    int[] leftOnly = MUSIC.clone();
    for (int i = 0; i < same.length; i += 2) {
      same[i + 1] = same[i];
      leftOnly[i + 1] = 0;
    }
    var mono = decoded(wav(1, 2, 48000, 16, bytes(same, 2, false)), "a.wav");
    assertEquals(List.of("dual-mono"), codes(mono));
    assertFalse(defect(mono, "dual-mono").affectsSound());
    var left = decoded(wav(1, 2, 48000, 16, bytes(leftOnly, 2, false)), "a.wav");
    assertEquals(List.of("silent-channel"), codes(left));
    assertTrue(defect(left, "silent-channel").detail().contains("on the right channel"));
    same[same.length - 1] ^= 1;
    var nearly = decoded(wav(1, 2, 48000, 16, bytes(same, 2, false)), "a.wav");
    assertEquals(List.of(), codes(nearly));
  }

  @Test
  void blocksOfACodedWavEndWhereTheFileSays() throws IOException {
    byte[] plain = wav(1, 2, 44100, 16, SOUND);
    byte[] coded = Encoded.by(folder, plain, "adpcm_ms", "wav");
    int fact = new String(coded, ISO_8859_1).indexOf("fact");
    System.arraycopy(number(FRAMES, 4, false), 0, coded, fact + 8, 4);
    var file = decoded(coded, "a.wav");
    assertEquals(FRAMES, file.frames());
    assertEquals(List.of("lossy-inside", "delay-trimmed"), codes(file));
    assertTrue(defect(file, "lossy-inside").affectsSound());
  }

  @Test
  void soundThatLooksLikeATagOrAChunkIsKeptWhole() throws IOException {
    Random random = new Random(20261126);
    byte[] text = new byte[40_000];
    for (int i = 0; i < text.length; i++) {
      text[i] = (byte) ('a' + random.nextInt(26));
    }
    byte[] declaredHalf = chunk("data", text, 20_000, false, false);
    var file = decoded(riff("RIFF", FORMAT, declaredHalf), "a.wav");
    assertEquals(10_000, file.frames());
    assertEquals(List.of("lying-sizes"), codes(file));
  }
}
