package org.mixaccord.intake;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.mixaccord.intake.Fixtures.bytes;
import static org.mixaccord.intake.Fixtures.sweep;
import static org.mixaccord.intake.Fixtures.wav;

import java.io.IOException;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** Run-up and padding of block codings are taken off once, as the file says, and told. */
class CodingDelayTest extends IntakeStage {
  private static final int FRAMES = 100_001;

  /** What the AAC encoder of the libraries puts in front. */
  private static final int RUN_UP = 1024;

  private final int[] music = sweep(FRAMES, 2);
  private final byte[] plain = wav(1, 2, 44100, 16, bytes(music, 2, false));
  private byte[] adts;

  @BeforeEach
  void encode() throws IOException {
    adts = Encoded.by(folder, plain, "aac", "adts");
  }

  private Mp4Bytes m4a() {
    return Mp4Bytes.ofAdts(adts, 44100, 2);
  }

  private int padding() {
    return m4a().packets() * 1024 - RUN_UP - FRAMES;
  }

  @Test
  void editListAndGaplessTagTrimOnceNotTwice() throws IOException {
    for (byte[] file :
        List.of(
            m4a().movieTimescale(44100).edit(FRAMES, RUN_UP).bytes(),
            m4a().gapless(RUN_UP, padding(), FRAMES).bytes(),
            m4a().edit(FRAMES * 1000L / 44100, RUN_UP).gapless(RUN_UP, padding(), FRAMES).bytes(),
            m4a().edit(FRAMES * 1000L / 44100, RUN_UP).lastPacketTicks(1024 - padding()).bytes())) {
      var decoded = decoded(file, "a.m4a");
      assertEquals(FRAMES, decoded.frames());
      assertEquals(0, lag(music, decoded, 2000));
      assertTrue(signalToError(music, decoded) > 15);
      assertEquals(List.of("delay-trimmed"), codes(decoded));
      var told = defect(decoded, "delay-trimmed");
      assertFalse(told.affectsSound());
      assertEquals(
          "1024 samples at the start (23.2 ms) and "
              + padding()
              + " at the end belong to the coding and not to the music; they are left out, as the"
              + " file itself asks.",
          told.detail());
    }
  }

  @Test
  void withoutAnyNoteTheStartIsSaidToBeUnsure() throws IOException {
    var m4a = decoded(m4a().bytes(), "a.m4a");
    assertEquals(m4a().packets() * 1024, m4a.frames());
    assertEquals(RUN_UP, lag(music, m4a, 2000));
    var raw = decoded(adts, "a.aac");
    assertEquals(m4a.pcmSha256(), raw.pcmSha256());
    for (DecodedFile file : List.of(m4a, raw)) {
      assertEquals(List.of("start-unsure"), codes(file));
      assertFalse(defect(file, "start-unsure").affectsSound());
    }
  }

  @Test
  void silenceAskedForInFrontIsLeftOutAndTold() throws IOException {
    var file =
        decoded(m4a().movieTimescale(44100).edit(4410, -1).edit(FRAMES, RUN_UP).bytes(), "a.m4a");
    assertEquals(FRAMES, file.frames());
    assertEquals(0, lag(music, file, 2000));
    assertEquals(List.of("delay-trimmed", "silence-left-out"), codes(file));
    assertTrue(defect(file, "silence-left-out").detail().contains("0.100 s"));
  }

  @Test
  void aCoverInFrontOfTheSoundIsNotTheSound() throws IOException {
    byte[] file = m4a().pictureTrackFirst().movieTimescale(44100).edit(FRAMES, RUN_UP).bytes();
    var decoded = decoded(file, "a.m4a");
    assertEquals(FRAMES, decoded.frames());
    assertEquals(0, lag(music, decoded, 2000));
    assertEquals(List.of("delay-trimmed"), codes(decoded));
  }

  @Test
  void anM4aCutOffSaysItsShareOnce() throws IOException {
    byte[] whole = m4a().indexFirst().movieTimescale(44100).edit(FRAMES, RUN_UP).bytes();
    var file = decoded(Arrays.copyOf(whole, whole.length * 61 / 100), "a.m4a");
    assertEquals(List.of("truncated", "delay-trimmed"), codes(file));
    long percent = 100 * file.frames() / FRAMES;
    assertTrue(percent > 50 && percent < 70, "percent " + percent);
    assertTrue(defect(file, "truncated").detail().contains(percent + " %"));
    assertEquals(0, lag(music, file, 2000));
    byte[] indexBehind = m4a().bytes();
    rejected(
        Arrays.copyOf(indexBehind, indexBehind.length * 61 / 100),
        DecodeResult.Reason.NO_AUDIO_FRAMES,
        "never finished writing");
  }

  @Test
  void mp3CountsItsFramesWhateverItsHeadSays() throws IOException {
    byte[] lame = Encoded.by(folder, plain, "libmp3lame", "mp3");
    Mp3Bytes mp3 = new Mp3Bytes(lame);
    var whole = decoded(lame, "a.mp3");
    assertEquals(FRAMES, whole.frames());
    var uncounted = decoded(mp3.withoutCount(), "a.mp3");
    assertEquals(whole.pcmSha256(), uncounted.pcmSha256());
    assertEquals(List.of("delay-trimmed"), codes(uncounted));
    // 576 of the encoder and 529 of the decoder in front, and the filling behind.
    int all = 576 + FRAMES + mp3.padding();
    assertEquals(0, all % 1152);
    for (byte[] file :
        List.of(mp3.withoutDelay(), mp3.withoutInfo(), mp3.withOtherFigures(all / 1152))) {
      var unsure = decoded(file, "a.mp3");
      assertEquals(all, unsure.frames());
      assertEquals(576 + 529, lag(music, unsure, 2000));
      assertEquals(List.of("start-unsure"), codes(unsure));
    }
  }

  @Test
  void anMp3CutOffSaysItsShare() throws IOException {
    byte[] lame = Encoded.by(folder, plain, "libmp3lame", "mp3");
    var cut = decoded(Arrays.copyOf(lame, lame.length * 61 / 100), "a.mp3");
    assertEquals(List.of("truncated", "delay-trimmed"), codes(cut));
    assertTrue(defect(cut, "truncated").detail().contains("60 %"), codes(cut).toString());
    assertEquals(0, lag(music, cut, 2000));
    byte[] noHead = new Mp3Bytes(lame).withoutInfo();
    var unsure = decoded(Arrays.copyOf(noHead, noHead.length - 40), "a.mp3");
    assertEquals(List.of("truncated", "start-unsure"), codes(unsure));
    var raw = decoded(Arrays.copyOf(adts, adts.length - 40), "a.aac");
    assertEquals(List.of("start-unsure", "truncated"), codes(raw));
  }

  @Test
  void opusPreSkipAndEndAreThoseOfTheFile() throws IOException {
    byte[] at48 = wav(1, 2, 48000, 16, bytes(music, 2, false));
    byte[] opus = Encoded.by(folder, at48, "libopus", "opus");
    var whole = decoded(opus, "a.opus");
    assertEquals(FRAMES, whole.frames());
    int lag = lag(music, whole, 2000);
    assertEquals(0, lag, 1); // the encoder's high-pass turns the phase of low tones
    var later = decoded(OggBytes.withPreSkip(opus, 3840), "a.opus");
    assertEquals(FRAMES + 312 - 3840, later.frames());
    assertEquals(lag + 312 - 3840, lag(music, later, 4000));
    assertTrue(defect(later, "delay-trimmed").detail().startsWith("3840 samples"));
    assertEquals(FRAMES - 100, decoded(OggBytes.endingEarlier(opus, 100), "a.opus").frames());
    var cut = decoded(Arrays.copyOf(opus, opus.length * 61 / 100), "a.opus");
    assertEquals(List.of("truncated"), codes(cut));
  }

  @Test
  void vorbisEndsWhereItsLastPageSays() throws IOException {
    byte[] vorbis = Encoded.by(folder, plain, "vorbis", "ogg");
    var whole = decoded(vorbis, "a.ogg");
    assertEquals(0, lag(music, whole, 2000));
    assertEquals(List.of(), codes(whole));
    var earlier = decoded(OggBytes.endingEarlier(vorbis, 100), "a.ogg");
    assertEquals(whole.frames() - 100, earlier.frames());
    var cut = decoded(Arrays.copyOf(vorbis, vorbis.length * 61 / 100), "a.ogg");
    assertEquals(List.of("truncated"), codes(cut));
  }

  @Test
  void cafTrimsByItsPacketTable() throws IOException {
    var file = decoded(m4a().asCaf(44100, 2, FRAMES, RUN_UP), "a.caf");
    assertEquals("CAF", file.container());
    assertEquals("aac", file.codec());
    assertEquals(FRAMES, file.frames());
    assertEquals(0, lag(music, file, 2000));
    assertEquals(List.of("delay-trimmed"), codes(file));
  }

  @Test
  void anEditListInPiecesIsLeftToTheDecoder() throws IOException {
    byte[] pieces =
        m4a()
            .movieTimescale(44100)
            .edit(20 * 1024, RUN_UP)
            .edit(20 * 1024, RUN_UP + 40 * 1024)
            .bytes();
    var file = decoded(pieces, "a.m4a");
    assertEquals(0, lag(music, file, 2000));
    assertEquals(40 * 1024, file.frames(), 1024);
  }
}
