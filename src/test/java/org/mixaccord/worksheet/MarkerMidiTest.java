package org.mixaccord.worksheet;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayInputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import javax.sound.midi.MetaMessage;
import javax.sound.midi.MidiEvent;
import javax.sound.midi.MidiSystem;
import javax.sound.midi.Sequence;
import org.junit.jupiter.api.Test;
import org.mixaccord.audio.TempoMap;

/** The marker file, read by the reader of the Java platform. */
class MarkerMidiTest {
  private record Marker(double seconds, String words) {}

  private static List<Marker> markers(byte[] file) throws Exception {
    Sequence sequence = MidiSystem.getSequence(new ByteArrayInputStream(file));
    assertEquals(Sequence.PPQ, sequence.getDivisionType(), 0);
    assertEquals(1, sequence.getTracks().length);
    List<Marker> markers = new ArrayList<>();
    double seconds = 0;
    double micros = 500_000;
    long last = 0;
    for (int i = 0; i < sequence.getTracks()[0].size(); i++) {
      MidiEvent event = sequence.getTracks()[0].get(i);
      seconds += (event.getTick() - last) * micros / 1e6 / sequence.getResolution();
      last = event.getTick();
      if (event.getMessage() instanceof MetaMessage meta) {
        byte[] data = meta.getData();
        if (meta.getType() == 0x51) {
          micros = ((data[0] & 0xFF) << 16) + ((data[1] & 0xFF) << 8) + (data[2] & 0xFF);
        } else if (meta.getType() == 0x06) {
          markers.add(new Marker(seconds, new String(data, StandardCharsets.UTF_8)));
        }
      }
    }
    return markers;
  }

  @Test
  void placesAreReadWhereTheyWere() throws Exception {
    List<Marker> read = markers(MarkerMidi.of(SheetForTests.hostile(), TempoMap.steady(100, 4, 0)));
    double[] places = {0, 61.2345, 120.001, 3599.9994};
    assertEquals(places.length, read.size());
    for (int i = 0; i < places.length; i++) {
      assertEquals(places[i], read.get(i).seconds(), 0.001);
    }
    assertEquals("1. Lead vocal: up, 1 dB (Lio, Bas)", read.get(1).words());
    assertEquals("3. +Strings: up, 1 dB (Lio, Bas)", read.get(3).words());
  }

  /**
   * Through changes of tempo that lie anywhere, before the mix too, and tempos no file can hold.
   */
  @Test
  void placesHoldThroughAnyTempos() throws Exception {
    Random random = new Random(31);
    for (int round = 0; round < 300; round++) {
      List<TempoMap.Tempo> tempos = new ArrayList<>();
      List<TempoMap.Meter> meters = new ArrayList<>();
      for (int i = 0; i < random.nextInt(12); i++) {
        double quarter = random.nextInt(400) / (random.nextBoolean() ? 1.0 : 3.0);
        tempos.add(new TempoMap.Tempo(quarter, 60e6 / (20 + 260 * random.nextDouble())));
        meters.add(new TempoMap.Meter(4 * random.nextInt(100), 1 + random.nextInt(12), 4));
      }
      TempoMap map = TempoMap.of(random.nextDouble() * 60 - 30, tempos, meters);
      double at = random.nextDouble() * 300;
      WorkSheet sheet =
          SheetForTests.sheet(SheetForTests.line(1, "Bass", "up", at, at + 1, at + 20, at + 30));
      List<Marker> read = markers(MarkerMidi.of(sheet, map));
      assertEquals(at, read.get(0).seconds(), 0.001, "round " + round);
      assertEquals(at + 20, read.get(1).seconds(), 0.001, "round " + round);
    }
  }

  @Test
  void barsComeAlong() throws Exception {
    byte[] file = MarkerMidi.of(SheetForTests.sheet(), TempoMap.steady(96, 3, 0.25));
    Sequence sequence = MidiSystem.getSequence(new ByteArrayInputStream(file));
    boolean metre = false;
    for (int i = 0; i < sequence.getTracks()[0].size(); i++) {
      if (sequence.getTracks()[0].get(i).getMessage() instanceof MetaMessage meta
          && meta.getType() == 0x58) {
        metre = true;
        assertEquals(3, meta.getData()[0]);
        assertEquals(2, meta.getData()[1]);
        // A quarter of a second at 96 quarter notes a minute.
        assertEquals(0.4 * sequence.getResolution(), sequence.getTracks()[0].get(i).getTick(), 1);
      }
    }
    assertTrue(metre);
  }
}
