package org.mixaccord.audio.container;

import static java.nio.charset.StandardCharsets.ISO_8859_1;
import static java.nio.charset.StandardCharsets.UTF_16LE;
import static java.nio.charset.StandardCharsets.UTF_8;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTimeout;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.mixaccord.intake.Fixtures.chunk;
import static org.mixaccord.intake.Fixtures.join;
import static org.mixaccord.intake.Fixtures.number;

import java.io.IOException;
import java.time.Duration;
import java.util.Arrays;
import java.util.List;
import java.util.OptionalLong;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.mixaccord.intake.Fixtures;

class FileMarkersTest {
  private static final int RATE = 48000;
  private static final byte[] SOUND = new byte[2 * RATE];

  private static FileMarker at(long frame, String label) {
    return new FileMarker(frame, OptionalLong.empty(), label);
  }

  private static List<FileMarker> markers(byte[] file) throws IOException {
    boolean aiff = file[0] == 'F';
    Walk walk = aiff ? AiffWalker.walk(ByteSource.of(file)) : WavWalker.walk(ByteSource.of(file));
    assertTrue(walk instanceof Walk.Found, walk.toString());
    return ((Walk.Found) walk).markers();
  }

  private static byte[] point(int id, long frame, boolean big) {
    return join(
        number(id, 4, big),
        number(frame, 4, big),
        "data".getBytes(ISO_8859_1),
        new byte[8],
        number(frame, 4, big));
  }

  private static byte[] cue(long claims, boolean big, byte[]... points) {
    return chunk("cue ", join(number(claims, 4, big), join(points)), big);
  }

  private static byte[] text(String id, int point, byte[] text, boolean big) {
    return chunk(id, join(number(point, 4, big), text), big);
  }

  private static byte[] label(int point, String text) {
    return text("labl", point, (text + "\0").getBytes(UTF_8), false);
  }

  private static byte[] region(int point, long frames, String text, boolean big) {
    return chunk(
        "ltxt",
        join(
            number(point, 4, big),
            number(frames, 4, big),
            "rgn ".getBytes(ISO_8859_1),
            new byte[8],
            text.getBytes(UTF_8)),
        big);
  }

  private static byte[] list(boolean big, byte[]... entries) {
    return chunk("LIST", join("adtl".getBytes(ISO_8859_1), join(entries)), big);
  }

  private static byte[] wav(String magic, byte[]... chunksAround) {
    boolean big = magic.equals("RIFX");
    byte[][] chunks = new byte[chunksAround.length + 2][];
    chunks[0] = chunk("fmt ", Fixtures.fmt(1, 1, RATE, 16, big), big);
    chunks[1] = chunk("data", SOUND, big);
    System.arraycopy(chunksAround, 0, chunks, 2, chunksAround.length);
    return Fixtures.riff(magic, chunks);
  }

  @ParameterizedTest
  @ValueSource(strings = {"RIFF", "RIFX"})
  void cuePointsWithTheirNamesAndLengths(String magic) throws IOException {
    boolean big = magic.equals("RIFX");
    byte[] file =
        wav(
            magic,
            cue(3, big, point(7, 30001, big), point(2, 0, big), point(9, 12345, big)),
            list(
                big,
                text("labl", 7, "Chorus\0".getBytes(UTF_8), big),
                text("labl", 2, "Intro\0".getBytes(UTF_8), big),
                region(9, 4000, "", big),
                text("note", 9, "Verse\0".getBytes(UTF_8), big)));
    assertEquals(
        List.of(
            at(0, "Intro"),
            new FileMarker(12345, OptionalLong.of(16345), "Verse"),
            at(30001, "Chorus")),
        markers(file));
  }

  /** In long files the sound's size stands in another chunk; the markers come behind the sound. */
  @ParameterizedTest
  @ValueSource(strings = {"RF64", "BW64"})
  void markersOfLongFilesAreFoundBehindTheSound(String magic) throws IOException {
    byte[] sizes =
        chunk(
            "ds64",
            join(
                number(0, 8, false),
                number(SOUND.length, 8, false),
                number(RATE, 8, false),
                new byte[4]),
            false);
    byte[] file =
        Fixtures.riff(
            magic,
            sizes,
            chunk("fmt ", Fixtures.fmt(1, 1, RATE, 16, false), false),
            chunk("data", SOUND, 0xFFFFFFFFL, false, false),
            cue(1, false, point(1, 4711, false)),
            list(false, label(1, "Bridge")));
    assertEquals(List.of(at(4711, "Bridge")), markers(file));
  }

  @Test
  void markersInFrontOfTheSoundAndWithoutNames() throws IOException {
    byte[] file =
        Fixtures.riff(
            "RIFF",
            list(false, label(5, "Later named")),
            cue(2, false, point(4, 10, false), point(5, 20, false)),
            chunk("fmt ", Fixtures.fmt(1, 1, RATE, 16, false), false),
            chunk("data", SOUND, false));
    assertEquals(List.of(at(10, ""), at(20, "Later named")), markers(file));
  }

  @Test
  void aLabelGoesBeforeANoteAndTheFirstOfSeveralCounts() throws IOException {
    byte[] file =
        wav(
            "RIFF",
            cue(1, false, point(1, 5, false)),
            list(
                false,
                region(1, 100, "Text of the region", false),
                text("note", 1, "Remark".getBytes(UTF_8), false),
                label(1, "Name"),
                label(1, "Other name")));
    assertEquals(List.of(new FileMarker(5, OptionalLong.of(105), "Name")), markers(file));
  }

  @Test
  void textsComeInManyEncodings() throws IOException {
    byte[] utf16 = join(new byte[] {-1, -2}, "Zwischenspiel\0".getBytes(UTF_16LE));
    byte[] file =
        wav(
            "RIFF",
            cue(
                4,
                false,
                point(1, 1, false),
                point(2, 2, false),
                point(3, 3, false),
                point(4, 4, false)),
            list(
                false,
                text("labl", 1, new byte[] {'R', 'e', 'f', 'r', (byte) 0xE4, 'n', 0}, false),
                text("labl", 2, "Réfrain\u0000left over".getBytes(UTF_8), false),
                text("labl", 3, utf16, false),
                text("labl", 4, "  Two\r\n\tlines\u0007 ".getBytes(UTF_8), false)));
    assertEquals(
        List.of("Refrän", "Réfrain", "Zwischenspiel", "Two lines"),
        markers(file).stream().map(FileMarker::label).toList());
  }

  @Test
  void countsAndSizesAreNotBelieved() throws IOException {
    byte[] cues = join(number(0xFFFFFFFFL, 4, false), point(1, 100, false));
    byte[] labels =
        join(
            "adtl".getBytes(ISO_8859_1),
            chunk(
                "labl",
                join(number(1, 4, false), "Cut".getBytes(UTF_8)),
                0x7FFFFFF0L,
                false,
                false));
    byte[] file =
        wav("RIFF", chunk("cue ", cues, false), chunk("LIST", labels, 0x7FFFFFFFL, false, false));
    assertEquals(List.of(at(100, "Cut")), markers(file));
  }

  @Test
  void longListsAndLongNamesAreCut() throws IOException {
    byte[][] points = new byte[5000][];
    for (int i = 0; i < points.length; i++) {
      points[i] = point(i, i, false);
    }
    List<FileMarker> found =
        markers(wav("RIFF", cue(5000, false, points), list(false, label(0, "y".repeat(100_000)))));
    assertEquals(FileMarker.MOST_MARKERS, found.size());
    assertEquals("y".repeat(FileMarker.MOST_CHARS), found.get(0).label());
  }

  private static byte[] mark(int id, long frame, byte[] name) {
    byte[] text = join(new byte[] {(byte) name.length}, name);
    return join(number(id, 2, true), number(frame, 4, true), text, new byte[text.length % 2]);
  }

  private static byte[] aiff(String type, byte[] chunk) {
    byte[] plain = Fixtures.aiff(type, 1, RATE, 16, RATE, SOUND);
    byte[] whole = join(plain, chunk);
    System.arraycopy(number(whole.length - 8L, 4, true), 0, whole, 4, 4);
    return whole;
  }

  @ParameterizedTest
  @ValueSource(strings = {"", "sowt"})
  void markersOfAiff(String type) throws IOException {
    byte[] body =
        join(
            number(3, 2, true),
            mark(1, 24000, "Chorus".getBytes(UTF_8)),
            mark(2, 0, "Intro".getBytes(UTF_8)),
            mark(3, 40001, new byte[0]));
    assertEquals(
        List.of(at(0, "Intro"), at(24000, "Chorus"), at(40001, "")),
        markers(aiff(type, chunk("MARK", body, true))));
  }

  @Test
  void anAiffThatClaimsMoreMarkersThanItHas() throws IOException {
    byte[] body = join(number(0xFFFF, 2, true), mark(1, 7, "Only".getBytes(UTF_8)));
    assertEquals(List.of(at(7, "Only")), markers(aiff("", chunk("MARK", body, true))));
  }

  @Test
  void bentFilesNeverThrow() {
    Random random = new Random(17);
    byte[] wav =
        wav(
            "RIFF",
            cue(2, false, point(1, 5, false), point(2, 9, false)),
            list(false, label(1, "One"), region(2, 50, "Two", false)));
    byte[] aiff =
        aiff("", chunk("MARK", join(number(1, 2, true), mark(1, 7, "M".getBytes(UTF_8))), true));
    assertTimeout(
        Duration.ofSeconds(30),
        () -> {
          for (int n = 0; n < 4000; n++) {
            byte[] bent = n % 2 == 0 ? wav.clone() : aiff.clone();
            int interesting = n % 2 == 0 ? 2 * RATE + 44 : 2 * RATE + 54;
            for (int k = 0; k < 3; k++) {
              bent[interesting + random.nextInt(bent.length - interesting)] =
                  (byte) random.nextInt(256);
            }
            byte[] cut = Arrays.copyOf(bent, bent.length - random.nextInt(60));
            markers(cut).forEach(m -> assertTrue(m.frame() >= 0));
          }
        });
  }
}
