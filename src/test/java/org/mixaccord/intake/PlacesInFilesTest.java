package org.mixaccord.intake;

import static java.nio.charset.StandardCharsets.ISO_8859_1;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.mixaccord.intake.Fixtures.bytes;
import static org.mixaccord.intake.Fixtures.chunk;
import static org.mixaccord.intake.Fixtures.extended;
import static org.mixaccord.intake.Fixtures.fmt;
import static org.mixaccord.intake.Fixtures.join;
import static org.mixaccord.intake.Fixtures.music;
import static org.mixaccord.intake.Fixtures.number;
import static org.mixaccord.intake.Fixtures.riff;

import java.io.IOException;
import java.nio.file.Files;
import java.util.List;
import java.util.OptionalLong;
import org.junit.jupiter.api.Test;
import org.mixaccord.intake.DecodeResult.Reason;

/** Sound and format in unusual places of a file, once, twice or in pieces. */
class PlacesInFilesTest extends IntakeStage {
  private static final int FRAMES = 5000;
  private static final int[] MUSIC = music(FRAMES, 2, 16);
  private static final byte[] SOUND = bytes(MUSIC, 2, false);
  private static final byte[] FORMAT = chunk("fmt ", fmt(1, 2, 44100, 16, false), false);
  private static final byte[] DATA = chunk("data", SOUND, false);
  private static final byte[] EMPTY = chunk("data", new byte[0], false);

  private void plain(byte[] file) throws IOException {
    var decoded = decoded(file, "a.wav");
    assertSamples(shifted(MUSIC, 16), decoded);
    assertEquals(List.of(), codes(decoded));
  }

  @Test
  void theFormatMayComeBehindTheSound() throws IOException {
    plain(riff("RIFF", DATA, FORMAT));
    plain(
        riff(
            "RIFF",
            chunk("JUNK", new byte[28], false),
            DATA,
            chunk("LIST", new byte[4], false),
            FORMAT));
  }

  @Test
  void aLengthInAnotherPlaceIsNotBelievedForPlainSound() throws IOException {
    for (long lie : new long[] {0, 1, FRAMES * 2L, 0xFFFFFFFFL}) {
      plain(riff("RIFF", FORMAT, chunk("fact", number(lie, 4, false), false), DATA));
    }
  }

  /** A recorder wrote its first, empty sound chunk and then the one that holds the take. */
  @Test
  void anEmptyPieceOfSoundBeforeTheRealOneIsPassedOver() throws IOException {
    plain(riff("RIFF", FORMAT, EMPTY, DATA));
    plain(riff("RIFF", FORMAT, EMPTY, chunk("LIST", "INFO".getBytes(ISO_8859_1), false), DATA));
    plain(riff("RIFF", FORMAT, DATA, EMPTY));
  }

  @Test
  void aSecondPieceOfSoundIsTold() throws IOException {
    var file = decoded(riff("RIFF", FORMAT, DATA, DATA), "a.wav");
    assertSamples(shifted(MUSIC, 16), file);
    assertEquals(List.of("more-sound"), codes(file));
    assertTrue(defect(file, "more-sound").affectsSound());
    assertTrue(defect(file, "more-sound").detail().contains("sound of 0.1 s"));
  }

  @Test
  void soundInAListIsReadAsOnePieceAndRefusedInSeveral() throws IOException {
    byte[] name = "wavl".getBytes(ISO_8859_1);
    byte[] silence = chunk("slnt", number(44100, 4, false), false);
    plain(riff("RIFF", FORMAT, chunk("LIST", join(name, DATA), false)));
    rejected(
        riff("RIFF", FORMAT, chunk("LIST", join(name, DATA, silence, DATA), false)),
        Reason.UNSUPPORTED_FORMAT,
        "in several pieces");
    rejected(
        riff("RIFF", FORMAT, chunk("LIST", join(name, silence, DATA), false)),
        Reason.UNSUPPORTED_FORMAT,
        "in several pieces");
  }

  @Test
  void soundOfAnAiffMayBeginLaterAndItsHeaderMayBeOdd() throws IOException {
    byte[] big = bytes(MUSIC, 2, true);
    byte[] common =
        join(number(2, 2, true), number(FRAMES, 4, true), number(16, 2, true), extended(44100));
    byte[] late = join(number(10, 4, true), number(512, 4, true), new byte[10], big);
    byte[] body = join(chunk("COMM", common, true), chunk("SSND", late, true));
    byte[] oddName = join(common, "NONE".getBytes(ISO_8859_1), new byte[] {3, 'a', 'b', 'c', 0});
    byte[] odd = join(chunk("COMM", oddName, true), chunk("SSND", join(new byte[8], big), true));
    byte[] text = chunk("NAME", "abc".getBytes(ISO_8859_1), true);
    for (byte[] file :
        List.of(
            form("AIFF", body.length + 4L, body),
            form("AIFF", 0, body),
            form("AIFF", 0xFFFFFFFFL, body),
            form("AIFC", odd.length + 4L, odd),
            form("AIFF", body.length + 4L, join(text, body)))) {
      var decoded = decoded(file, "a.aif");
      assertSamples(shifted(MUSIC, 16), decoded);
      assertEquals(List.of(), codes(decoded));
    }
  }

  private static byte[] form(String type, long claims, byte[] body) {
    return join(
        "FORM".getBytes(ISO_8859_1), number(claims, 4, true), type.getBytes(ISO_8859_1), body);
  }

  @Test
  void whereAFileBeginsInItsSessionIsReadEvenWhereItIsZero() throws IOException {
    byte[] bext = new byte[602];
    assertEquals(
        OptionalLong.of(0), session(riff("RIFF", chunk("bext", bext, false), FORMAT, DATA)));
    System.arraycopy(number(5_000_000_000L, 8, false), 0, bext, 338, 8);
    assertEquals(
        OptionalLong.of(5_000_000_000L),
        session(riff("RIFF", FORMAT, DATA, chunk("bext", bext, false))));
    assertEquals(OptionalLong.empty(), session(riff("RIFF", FORMAT, DATA)));
    assertEquals(OptionalLong.empty(), session("<html>".getBytes(ISO_8859_1)));
  }

  private OptionalLong session(byte[] bytes) throws IOException {
    return Decoder.sessionFrame(Files.write(folder.resolve("upload"), bytes));
  }

  /** A script sent its file as a form field, so that the form itself was uploaded. */
  @Test
  void soundWrappedIntoAFormIsSaidToBe() throws IOException {
    byte[] wrapped =
        join(
            ("--x9\r\nContent-Disposition: form-data; name=\"file\"; filename=\"a.wav\"\r\n"
                    + "Content-Type: audio/wav\r\n\r\n")
                .getBytes(ISO_8859_1),
            riff("RIFF", FORMAT, DATA),
            "\r\n--x9--\r\n".getBytes(ISO_8859_1));
    rejected(wrapped, Reason.NOT_AUDIO, "wrapped into a form");
  }

  @Test
  void silenceIsToldOfIntegersAndFloatsAlike() throws IOException {
    var integers = decoded(Fixtures.wav(1, 2, 48000, 24, new byte[6000]), "a.wav");
    var floats = decoded(Fixtures.wav(3, 1, 48000, 32, new byte[6000]), "a.wav");
    assertEquals(List.of("silent"), codes(integers));
    assertEquals(List.of("silent"), codes(floats));
    assertTrue(integers.silent() && floats.silent());
    assertFalse(defect(floats, "silent").affectsSound());
    byte[] one = new byte[6000];
    one[5999] = 1;
    assertFalse(decoded(Fixtures.wav(1, 1, 48000, 24, one), "a.wav").silent());
  }
}
