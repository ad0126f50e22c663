package org.mixaccord.intake;

import static java.nio.charset.StandardCharsets.ISO_8859_1;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.mixaccord.intake.Fixtures.aiff;
import static org.mixaccord.intake.Fixtures.bytes;
import static org.mixaccord.intake.Fixtures.chunk;
import static org.mixaccord.intake.Fixtures.floats;
import static org.mixaccord.intake.Fixtures.join;
import static org.mixaccord.intake.Fixtures.music;
import static org.mixaccord.intake.Fixtures.sweep;
import static org.mixaccord.intake.Fixtures.wav;

import java.io.IOException;
import java.util.Arrays;
import java.util.List;
import java.util.OptionalInt;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.mixaccord.intake.DecodeResult.Reason;

/** Oddities of AIFF, CAF, FLAC, WavPack, lossy files, and of files that are no sound at all. */
class OtherOdditiesTest extends IntakeStage {
  private static final int FRAMES = 5000;
  private static final int[] MUSIC = music(FRAMES, 2, 16);

  @ParameterizedTest
  @CsvSource({
    "NONE,16,true",
    "twos,16,true",
    "TWOS,16,true",
    "sowt,16,false",
    "SOWT,32,false",
    "NONE,12,true",
    "NONE,24,true",
    "in24,24,true",
    "in32,32,true",
    "42ni,24,false",
    "23ni,32,false"
  })
  void everyWayAiffWritesIntegers(String type, int bits, boolean bigEndian) throws IOException {
    int width = (bits + 7) / 8;
    int[] music = music(FRAMES, 2, bits);
    byte[] sound = bytes(shifted(music, width * 8 - bits), width, bigEndian);
    var file = decoded(aiff(type, 2, 48000, bits, FRAMES, sound), "a.aif");
    assertSamples(shifted(music, 32 - bits), file);
    assertEquals(OptionalInt.of(bits), file.bitDepth());
    assertEquals(List.of(), codes(file));
  }

  @Test
  void aTagBehindTheSoundOfAnAiffAndAnUnknownCodingInside() throws IOException {
    byte[] big = bytes(MUSIC, 2, true);
    byte[] plain = aiff("", 2, 44100, 16, FRAMES, big);
    var tagged = decoded(join(plain, chunk("ID3 ", Tags.id3v2(), true)), "a.aif");
    assertSamples(shifted(MUSIC, 16), tagged);
    assertEquals(List.of(), codes(tagged));
    rejected(aiff("QDMC", 2, 44100, 16, FRAMES, big), Reason.UNSUPPORTED_FORMAT, "(\"QDMC\")");
  }

  @Test
  void cafSaysWhatIsWrongWithIt() throws IOException {
    byte[] little = bytes(MUSIC, 2, false);
    byte[] description = CafBytes.description(44100, CafBytes.LITTLE, 2, 16, 2);
    byte[] whole = CafBytes.file(description, CafBytes.data(little));
    int there = little.length * 61 / 100 / 4 * 4;
    var cut = decoded(Arrays.copyOf(whole, whole.length - little.length + there), "a.caf");
    assertSamples(shifted(Arrays.copyOf(MUSIC, there / 2), 16), cut);
    assertEquals(List.of("truncated"), codes(cut));
    assertTrue(defect(cut, "truncated").detail().contains("61 %"));
    var part = decoded(Arrays.copyOf(whole, whole.length - 1), "a.caf");
    assertEquals(List.of("truncated", "partial-frame"), codes(part));
    byte[] surround = CafBytes.description(48000, 0, 6, 24, 3);
    var six =
        decoded(
            CafBytes.file(
                surround,
                CafBytes.layout(0x3F),
                CafBytes.data(bytes(music(400, 6, 24), 3, true)),
                CafBytes.chunk("info", new byte[4])),
            "a.caf");
    assertSamples(shifted(music(400, 6, 24), 8), six);
    assertTrue(defect(six, "more-than-stereo").detail().contains("5 back left, 6 back right"));
    rejected(CafBytes.file(description), Reason.NO_AUDIO_FRAMES, "no sound in it");
    rejected(
        CafBytes.file(CafBytes.description(0, 0, 2, 16, 2), CafBytes.data(little)),
        Reason.NO_AUDIO_FRAMES,
        "no sound in it");
    double[] bad = new double[2000];
    bad[1000] = Double.NaN;
    var nan =
        decoded(
            CafBytes.file(
                CafBytes.description(8000, CafBytes.FLOAT, 2, 32, 4),
                CafBytes.data(floats(bad, false, true))),
            "a.caf");
    assertTrue(codes(nan).contains("not-a-number"));
    assertEquals(500 / 8000.0, defect(nan, "not-a-number").fromSeconds().orElseThrow());
    assertTrue(defect(nan, "not-a-number").affectsSound());
  }

  @Test
  void tagsAndCoversAroundLosslessFilesAreNoDamage() throws IOException {
    byte[] plain = wav(1, 2, 44100, 16, bytes(MUSIC, 2, false));
    byte[] flac = Encoded.by(folder, plain, "flac", "flac");
    byte[] wavPack = Encoded.by(folder, plain, "wavpack", "wv");
    byte[] uncounted = flac.clone();
    uncounted[21] &= (byte) 0xf0;
    Arrays.fill(uncounted, 22, 26, (byte) 0);
    for (byte[] file :
        List.of(
            join(Tags.id3v2(), flac),
            join(flac, Tags.id3v1()),
            join(Tags.id3v2(), flac, Tags.id3v1()),
            Tags.flacWithPicture(flac),
            uncounted,
            join(uncounted, Tags.id3v1()),
            join(wavPack, Tags.ape()),
            join(wavPack, Tags.id3v1()))) {
      var decoded = decoded(file, "a");
      assertSamples(shifted(MUSIC, 16), decoded);
      assertEquals(List.of(), codes(decoded));
    }
  }

  @Test
  void losslessFilesCutOffSayItOnceWithTheirShare() throws IOException {
    int[] music = music(200_000, 2, 16);
    byte[] plain = wav(1, 2, 44100, 16, bytes(music, 2, false));
    for (String[] way : new String[][] {{"flac", "flac"}, {"wavpack", "wv"}}) {
      byte[] whole = Encoded.by(folder, plain, way[0], way[1]);
      var cut = decoded(Arrays.copyOf(whole, whole.length * 61 / 100), "a");
      assertEquals(List.of("truncated"), codes(cut), way[0]);
      long share = 100 * cut.frames() / 200_000;
      assertTrue(share > 40 && share < 70, "share " + share);
      assertTrue(defect(cut, "truncated").detail().contains(share + " %"));
      assertSamples(shifted(Arrays.copyOf(music, 2 * (int) cut.frames()), 16), cut);
    }
  }

  @Test
  void damageInsideAFileIsNotMistakenForATag() throws IOException {
    byte[] plain = wav(1, 2, 44100, 16, bytes(music(200_000, 2, 16), 2, false));
    byte[] flac = Encoded.by(folder, plain, "flac", "flac");
    Arrays.fill(flac, flac.length / 3, flac.length / 3 + 60_000, (byte) 0x55);
    var file = decoded(join(flac, Tags.id3v1()), "a.flac");
    var told = defect(file, "truncated");
    assertTrue(told.affectsSound());
    assertTrue(told.detail().startsWith("The file is cut off or damaged: "), told.detail());
    assertTrue(told.detail().contains(file.frames() / 2000 + " %"), told.detail());
  }

  @Test
  void mp3TagsBehindAndPeaksOverFullScale() throws IOException {
    int[] loud = sweep(60_000, 2);
    for (int i = 0; i < loud.length; i++) {
      loud[i] = loud[i] > 0 ? 32767 : -32768;
    }
    byte[] plain = wav(1, 2, 44100, 16, bytes(loud, 2, false));
    byte[] mp3 = Encoded.by(folder, plain, "libmp3lame", "mp3");
    var bare = decoded(mp3, "a.mp3");
    assertEquals(60_000, bare.frames());
    assertEquals(List.of("delay-trimmed", "decodes-over-full-scale"), codes(bare));
    assertFalse(defect(bare, "decodes-over-full-scale").affectsSound());
    assertTrue(
        defect(bare, "decodes-over-full-scale")
            .detail()
            .matches(".*peaks of \\+\\d+\\.\\d dBFS\\."),
        defect(bare, "decodes-over-full-scale").detail());
    var tagged = decoded(join(mp3, Tags.ape(), Tags.id3v1()), "a.mp3");
    assertEquals(bare.pcmSha256(), tagged.pcmSha256());
    assertEquals(codes(bare), codes(tagged));
  }

  @Test
  void aWavPackFileThatThrewSomethingAwayIsLossy() throws IOException {
    byte[] plain = wav(1, 2, 44100, 16, bytes(MUSIC, 2, false));
    byte[] wavPack = Encoded.by(folder, plain, "wavpack", "wv");
    var upload = java.nio.file.Files.write(folder.resolve("upload"), wavPack);
    try (FileBytes bytes = new FileBytes(upload)) {
      CodedPlan plan = CodedPlan.of(bytes, Sniffer.sniff(bytes));
      assertFalse(plan.isLossyByHead());
      assertEquals(FRAMES, plan.frames().orElseThrow());
    }
    wavPack[24] |= 8; // the flag of the hybrid form, whose other half is a second file
    java.nio.file.Files.write(upload, wavPack);
    try (FileBytes bytes = new FileBytes(upload)) {
      assertTrue(CodedPlan.of(bytes, Sniffer.sniff(bytes)).isLossyByHead());
    }
  }

  @ParameterizedTest
  @CsvSource({
    "'<html><head><title>Shared file</title></head></html>',web page",
    "'  <!DOCTYPE html><body>',web page",
    "'{\"url\": \"https://files.example/mix\"}',link or a placeholder",
    "'[InternetShortcut]\r\nURL=https://files.example/mix',link or a placeholder",
    "'<?xml version=\"1.0\"?><plist><dict><key>URL</key></dict></plist>',link or a placeholder",
    "'bplist00 and more',link or a placeholder",
    "'PK\u0003\u0004 and more',archive",
    // The first file in it lies there as it was, unpacked.
    "'PK\u0003\u0004 page.wav <!DOCTYPE html><html></html>',archive",
    "'Rar!\u001a\u0007 and more',archive",
    "'MThd\u0000\u0000\u0000\u0006',MIDI",
    "'%PDF-1.7',PDF",
    "'\u0000\u0000\u0000\u0001Bud1\u0000',hidden note",
    "'\u0000\u0005\u0016\u0007\u0000\u0002\u0000\u0000',companion"
  })
  void whatIsNoSoundIsCalledByItsName(String content, String words) throws IOException {
    rejected(content.getBytes(ISO_8859_1), Reason.NOT_AUDIO, words);
  }
}
