package org.mixaccord.demo.music;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What the demo's story says about its mixes must be there in the samples. */
class DemoSongTest {
  private static final DemoSong SONG = DemoSongs.first();
  private static final int CUT = 24_000;
  private static final int EDGE = 2_400;
  private static final double CEILING_DB = -1;
  private static final Listener[] MIXES = new Listener[4];
  private static Listener sumOfTheSecond;
  private static Listener stringsOfTheFirst;
  private static Listener stringsOfTheSecond;

  @BeforeAll
  static void render() throws IOException {
    List<Renderer.Output> outputs = new ArrayList<>();
    for (int n = 1; n <= 3; n++) {
      MIXES[n] = new Listener(SONG.mix(n).frames());
      outputs.add(SONG.mix(n).output(MIXES[n]));
    }
    int[] sum = new int[(int) SONG.mix(2).frames() * 2];
    for (DemoAudio stem : SONG.stems(2)) {
      sumOfTheSecond = Listener.addingTo(sum);
      outputs.add(stem.output(sumOfTheSecond));
    }
    stringsOfTheFirst = new Listener(SONG.mix(1).frames());
    outputs.add(SONG.stem(1, "strings").output(stringsOfTheFirst));
    stringsOfTheSecond = new Listener(SONG.mix(2).frames());
    outputs.add(SONG.stem(2, "strings").output(stringsOfTheSecond));
    Renderer.render(SONG.arrangement(), outputs);
  }

  @Test
  void theFirstSongHasTheFormItPromises() {
    assertTrue(SONG.frames() >= 150L * SONG.sampleRate(), "at least 2:30");
    assertTrue(SONG.sections().size() >= 8);
    assertTrue(SONG.parts().size() >= 6);
    assertSectionsFillTheSong(SONG);
    assertEquals(48_000 + 4 * 115_200, SONG.section("Verse 1").fromFrame());
    assertEquals(1.0, SONG.firstBarSeconds());
    // 100 beats a minute: a bar of four beats lasts 2.4 s.
    assertEquals(115_200, 4 * 60 / SONG.tempoBpm() * SONG.sampleRate());
  }

  @Test
  void theSecondSongHasTheFormItPromises() {
    DemoSong second = DemoSongs.second();
    assertTrue(second.frames() >= 90L * second.sampleRate(), "at least 1:30");
    assertTrue(second.parts().size() >= 4);
    assertSectionsFillTheSong(second);
    assertTrue(second.tempoBpm() != SONG.tempoBpm());
  }

  private static void assertSectionsFillTheSong(DemoSong song) {
    long at = 0;
    for (DemoSection section : song.sections()) {
      assertEquals(at, section.fromFrame(), section.name());
      at = section.toFrame();
    }
    assertEquals(song.frames(), at);
  }

  @Test
  void partsAreNamedAsNotesNameThem() {
    assertEquals(
        Set.of("lead vocal", "backing vocals", "drums", "bass", "keys", "guitars", "strings"),
        Set.copyOf(SONG.parts()));
  }

  @Test
  void headOfTheSecondMixIsHalfASecondShorter() {
    assertEquals(SONG.mix(1).frames() - CUT, SONG.mix(2).frames());
    assertEquals(SONG.mix(1).frames(), SONG.mix(3).frames());
    assertEquals(MIXES[2].samples.length, MIXES[2].written());
    // Verse 1 has no moved part, so it must be the same to the last bit, half a second earlier.
    DemoSection verse = SONG.section("Verse 1");
    int from = (int) verse.fromFrame() * 2;
    int count = (int) (verse.toFrame() - verse.fromFrame()) * 2;
    int[] first = new int[count];
    int[] second = new int[count];
    System.arraycopy(MIXES[1].samples, from, first, 0, count);
    System.arraycopy(MIXES[2].samples, from - 2 * CUT, second, 0, count);
    assertArrayEquals(first, second);
  }

  @Test
  void sectionsOfTheSecondMixMoveWithItsHead() {
    DemoSection moved = SONG.sections(2).get(3);
    assertEquals("Chorus 1", moved.name());
    assertEquals(SONG.section("Chorus 1").fromFrame() - CUT, moved.fromFrame());
    assertEquals(0, SONG.sections(2).get(0).fromFrame());
  }

  @Test
  void stringsEnterLateAndAreMissingInOneSectionOfTheSecondMix() {
    DemoSection chorus = SONG.section("Chorus 2");
    DemoSection bridge = SONG.section("Bridge");
    assertEquals(0, stringsOfTheFirst.peak(0, chorus.fromFrame() - EDGE));
    assertTrue(stringsOfTheFirst.powerDb(chorus.fromFrame(), chorus.toFrame()) > -40);
    assertTrue(stringsOfTheFirst.powerDb(bridge.fromFrame(), bridge.toFrame()) > -40);
    assertEquals(
        0, stringsOfTheSecond.peak(bridge.fromFrame() - CUT + EDGE, bridge.toFrame() - CUT - EDGE));
    assertTrue(stringsOfTheSecond.powerDb(chorus.fromFrame() - CUT, chorus.toFrame() - CUT) > -40);
  }

  @Test
  void stemsAddUpToTheMix() {
    // Eight files, each rounded by at most half a step.
    int most = (SONG.parts().size() + 1) / 2;
    int[] mix = MIXES[2].samples;
    assertEquals(mix.length, sumOfTheSecond.written());
    for (int i = 0; i < mix.length; i++) {
      int off = Math.abs(mix[i] - sumOfTheSecond.samples[i]);
      if (off > most) {
        assertEquals(mix[i], sumOfTheSecond.samples[i], "at sample " + i);
      }
    }
  }

  @Test
  void movesOfTheMixesAreAsTold() throws IOException {
    DemoSection pre = SONG.section("Pre-Chorus 1");
    DemoSection chorus = SONG.section("Chorus 1");
    double[] backing = new double[4];
    double[] lead = new double[4];
    Listener[] backings = new Listener[4];
    Listener[] leads = new Listener[4];
    List<Renderer.Output> outputs = new ArrayList<>();
    for (int n = 1; n <= 3; n++) {
      backings[n] = new Listener(SONG.mix(n).frames());
      leads[n] = new Listener(SONG.mix(n).frames());
      outputs.add(SONG.stem(n, "backing vocals").output(backings[n]));
      outputs.add(SONG.stem(n, "lead vocal").output(leads[n]));
    }
    Renderer.render(SONG.arrangement(), outputs);
    for (int n = 1; n <= 3; n++) {
      long cut = n == 2 ? CUT : 0;
      backing[n] = level(backings[n], pre, cut);
      lead[n] = level(leads[n], chorus, cut);
    }
    assertEquals(-3.4, backing[2] - backing[1], 0.001);
    assertEquals(-1.2, backing[3] - backing[1], 0.001);
    assertEquals(1.0, lead[2] - lead[1], 0.001);
    assertEquals(1.0, lead[3] - lead[1], 0.001);
  }

  private static double level(Listener listener, DemoSection section, long cut) {
    return listener.powerDb(section.fromFrame() - cut + EDGE, section.toFrame() - cut - EDGE);
  }

  @Test
  void onlyTheLastChorusOfTheSecondMixPassesTheCeiling() {
    assertTrue(MIXES[1].truePeakDb(0, SONG.mix(1).frames()) < CEILING_DB);
    assertTrue(MIXES[3].truePeakDb(0, SONG.mix(3).frames()) < CEILING_DB);
    for (DemoSection section : SONG.sections(2)) {
      double peak = MIXES[2].truePeakDb(section.fromFrame(), section.toFrame());
      assertEquals(
          section.name().equals("Chorus 3"), peak > CEILING_DB, section.name() + " " + peak);
      assertTrue(peak < 0, "nothing is clipped");
    }
  }

  @Test
  void chorusesRiseAboveTheirVerses() {
    double verse = level(MIXES[1], SONG.section("Verse 1"), 0);
    double first = level(MIXES[1], SONG.section("Chorus 1"), 0);
    double last = level(MIXES[1], SONG.section("Chorus 3"), 0);
    assertTrue(first > verse + 2, verse + " then " + first);
    assertTrue(last > first + 0.5, first + " then " + last);
  }

  @Test
  void soundBeginsAndEndsInSilenceWithoutOffset() {
    for (int n = 1; n <= 3; n++) {
      long end = SONG.mix(n).frames();
      assertEquals(0, MIXES[n].peak(0, n == 2 ? 20_000 : 44_000));
      assertTrue(MIXES[n].peak(end - 48, end) < 1e-5);
      assertTrue(Math.abs(MIXES[n].mean()) < 1e-5);
      assertTrue(MIXES[n].peak(48_000, end - 144_000) > 0.1);
    }
  }

  @Test
  void headerDescribesTheFile() {
    ByteBuffer header = ByteBuffer.wrap(MIXES[1].header).order(ByteOrder.LITTLE_ENDIAN);
    assertEquals(1, header.getShort(20));
    assertEquals(2, header.getShort(22));
    assertEquals(48_000, header.getInt(24));
    assertEquals(24, header.getShort(34));
    assertEquals(SONG.mix(1).frames() * 6, header.getInt(40));
    assertEquals(SONG.mix(1).bytes() - 8, header.getInt(4));
  }

  @Test
  void aFileRenderedAloneEqualsTheOneRenderedWithOthers(@TempDir Path folder) throws IOException {
    DemoSong second = DemoSongs.second();
    ByteArrayOutputStream alone = new ByteArrayOutputStream();
    second.stem(1, "bass").writeTo(alone);
    DemoAudio bass = second.stem(1, "bass");
    Path file = second.writeAll(List.of(second.mix(2), bass), folder).get(bass);
    assertArrayEquals(alone.toByteArray(), Files.readAllBytes(file));
    assertEquals(bass.bytes(), Files.size(file));
    assertEquals(Optional.of("bass"), bass.part());
  }

  @Test
  void unknownMixesAndPartsAreRefused() {
    assertThrows(IllegalArgumentException.class, () -> SONG.mix(0));
    assertThrows(IllegalArgumentException.class, () -> SONG.mix(4));
    assertThrows(IllegalArgumentException.class, () -> SONG.stem(1, "zither"));
    assertThrows(IllegalArgumentException.class, () -> SONG.section("Chorus 9"));
  }
}
