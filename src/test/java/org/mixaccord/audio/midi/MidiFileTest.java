package org.mixaccord.audio.midi;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTimeout;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.mixaccord.intake.Fixtures.join;

import java.time.Duration;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.mixaccord.audio.TempoMap;

class MidiFileTest {
  private static final double MS = 0.001;

  private static MidiReading.Read read(byte[] file) {
    MidiReading reading = MidiFile.read(file);
    assertTrue(reading instanceof MidiReading.Read, reading.toString());
    return (MidiReading.Read) reading;
  }

  private static String refused(byte[] file) {
    MidiReading reading = MidiFile.read(file);
    assertTrue(reading instanceof MidiReading.Refused, reading.toString());
    return ((MidiReading.Refused) reading).detail();
  }

  private static double seconds(MidiReading.Read read, int mark) {
    return read.map().seconds(read.marks().get(mark).quarter());
  }

  @Test
  void tempoAndMetreChangeInTheMiddle() {
    MidiReading.Read read = read(Smf.turning());
    assertEquals(6.0, read.map().seconds(5, 1), MS);
    assertEquals(12.0, read.map().seconds(8, 1), MS);
    assertEquals(12.0 + 4 * 60 / 90.0, read.map().seconds(9, 1), MS);
    assertEquals(
        List.of("Verse", "Chorus", "Outro"), read.marks().stream().map(m -> m.label()).toList());
    assertEquals(0.0, seconds(read, 0), MS);
    assertEquals(6.0, seconds(read, 1), MS);
    assertEquals(12.0, seconds(read, 2), MS);
    assertTrue(read.remark().isEmpty(), read.toString());
  }

  @Test
  void oneTrackHoldsItAllInFormatZero() {
    byte[] file =
        Smf.file(
            0,
            96,
            Smf.track(
                Smf.tempo(0, 600_000),
                Smf.bytes(0, 0x90, 60, 100),
                Smf.marker(96 * 4, "B"),
                Smf.bytes(0, 0x80, 60, 0),
                Smf.tempo(96 * 4, 300_000),
                Smf.marker(96 * 2, "C")));
    MidiReading.Read read = read(file);
    assertEquals(2.4, seconds(read, 0), MS);
    assertEquals(4.8 + 0.6, seconds(read, 1), MS);
  }

  /** Notes without a status byte of their own, and texts and system messages between them. */
  @Test
  void runningStatusIsFollowed() {
    byte[] file =
        Smf.file(
            1,
            480,
            Smf.track(Smf.tempo(0, 500_000)),
            Smf.track(
                Smf.bytes(0, 0x90, 60, 100),
                Smf.bytes(240, 62, 100),
                Smf.bytes(240, 60, 0),
                Smf.bytes(0, 0xC0, 5),
                Smf.bytes(0, 6),
                Smf.bytes(0, 0xE0, 0, 64),
                Smf.bytes(480, 1, 64),
                Smf.bytes(0, 0xF0, 3, 1, 2, 0xF7),
                Smf.marker(0, "Here")));
    assertEquals(1.0, seconds(read(file), 0), MS);
  }

  /** 25 frames a second, 40 ticks a frame: a tick is a millisecond whatever the tempo. */
  @Test
  void filmTimeCountsInSeconds() {
    byte[] file =
        Smf.file(
            1,
            (256 - 25) << 8 | 40,
            Smf.track(Smf.tempo(0, 500_000), Smf.meter(0, 4, 2), Smf.tempo(8000, 1_000_000)),
            Smf.track(Smf.marker(1500, "A"), Smf.marker(8500, "B")));
    MidiReading.Read read = read(file);
    assertEquals(1.5, seconds(read, 0), MS);
    assertEquals(10.0, seconds(read, 1), MS);
    assertEquals(8.0, read.map().seconds(5, 1), MS);
    assertEquals(12.0, read.map().seconds(6, 1), MS);
  }

  /** 29 stands for thirty frames in 1.001 seconds. */
  @Test
  void dropFrameRunsSlower() {
    byte[] file =
        Smf.file(
            1,
            (256 - 29) << 8 | 100,
            Smf.track(Smf.tempo(0, 500_000)),
            Smf.track(Smf.marker(30 * 100 * 60, "Minute")));
    assertEquals(60.06, seconds(read(file), 0), MS);
  }

  @Test
  void withoutATempoTheUsualIsTakenAndSaid() {
    MidiReading.Read read = read(Smf.file(1, 480, Smf.track(Smf.marker(960, "A"))));
    assertEquals(1.0, seconds(read, 0), MS);
    assertEquals("The file names no tempo, so 120 bpm was taken.", read.remark().orElseThrow());
  }

  @Test
  void whatMakesNoSenseIsLeftOut() {
    byte[] file =
        Smf.file(
            1,
            480,
            Smf.track(
                Smf.tempo(0, 500_000),
                Smf.tempo(480, 0),
                Smf.meter(0, 0, 2),
                Smf.meter(0, 4, 200),
                Smf.meta(0, 0x51, new byte[1]),
                Smf.marker(480, "A")));
    MidiReading.Read read = read(file);
    assertEquals(1.0, seconds(read, 0), MS);
    assertEquals(1, read.map().tempos().size());
    assertEquals(List.of(new TempoMap.Meter(0, 4, 4)), read.map().meters());
    assertTrue(read.remark().orElseThrow().contains("make no sense"));
  }

  @Test
  void aFileCutOffCountsUpToTheCut() {
    byte[] whole = Smf.turning();
    MidiReading.Read read = read(Arrays.copyOf(whole, whole.length - 12));
    assertEquals(2, read.marks().size());
    assertEquals(12.0, read.map().seconds(8, 1), MS);
    assertTrue(read.remark().orElseThrow().contains("cut off"), read.toString());
  }

  @Test
  void everyCutIsAnsweredInWords() {
    byte[] whole = Smf.turning();
    for (int length = 0; length < whole.length; length++) {
      MidiReading reading = MidiFile.read(Arrays.copyOf(whole, length));
      boolean said =
          reading instanceof MidiReading.Refused refused
              ? refused.detail().endsWith(".")
              : ((MidiReading.Read) reading).remark().isPresent();
      assertTrue(said, "cut at " + length + ": " + reading);
    }
  }

  @Test
  void formatTwoIsRefusedInWords() {
    String detail = refused(Smf.file(2, 480, Smf.track(Smf.tempo(0, 500_000))));
    assertTrue(detail.contains("format 2") && detail.contains("format 0 or 1"), detail);
  }

  @Test
  void headsThatSayNothingAreRefused() {
    assertTrue(refused(Smf.file(1, 0, Smf.track())).contains("how it counts time"));
    assertTrue(refused(Smf.file(7, 480, Smf.track())).contains("how it counts time"));
    assertTrue(refused(Smf.file(1, 0xFF00, Smf.track())).contains("how it counts time"));
    assertTrue(refused(Smf.file(1, 480)).contains("no track"));
    assertTrue(refused(new byte[0]).contains("not a MIDI file"));
    assertTrue(refused("RIFFxxxxWAVEfmt ".getBytes()).contains("not a MIDI file"));
  }

  /**
   * Ten megabytes of noise behind a right head, and as one track that claims more than there is.
   */
  @Test
  void noiseIsAnsweredAtOnce() {
    byte[] noise = new byte[10 << 20];
    new Random(11).nextBytes(noise);
    byte[] track = {'M', 'T', 'r', 'k', -1, -1, -1, -1};
    assertTimeout(
        Duration.ofSeconds(5),
        () -> {
          MidiFile.read(noise);
          MidiFile.read(join(Smf.head(1, 9999, 480), noise));
          MidiFile.read(join(Smf.head(1, 1, 480), track, noise));
        });
  }

  /** Ten megabytes of nothing but markers and tempos: only so many are kept. */
  @Test
  void whatIsKeptIsBounded() {
    byte[] one = join(Smf.tempo(1, 500_000), Smf.meter(0, 3, 2), Smf.marker(0, "m"));
    byte[] many = new byte[10 << 20];
    for (int i = 0; i + one.length <= many.length; i += one.length) {
      System.arraycopy(one, 0, many, i, one.length);
    }
    MidiReading.Read read = read(Smf.file(0, 480, Smf.track(many)));
    assertEquals(1000, read.marks().size());
    assertTrue(read.map().tempos().size() <= 10_001, "" + read.map().tempos().size());
  }

  @Test
  void noBytesAtAllThrow() {
    Random random = new Random(5);
    byte[] whole = Smf.turning();
    for (int n = 0; n < 20_000; n++) {
      byte[] bent = whole.clone();
      for (int k = random.nextInt(4); k >= 0; k--) {
        bent[random.nextInt(bent.length)] = (byte) random.nextInt(256);
      }
      if (MidiFile.read(bent) instanceof MidiReading.Read read) {
        for (MidiReading.Mark mark : read.marks()) {
          assertTrue(Double.isFinite(read.map().seconds(mark.quarter())));
        }
        read.map().bars(0, 30, 1000);
      }
    }
  }
}
