package org.mixaccord.worksheet;

import java.io.ByteArrayOutputStream;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.mixaccord.audio.TempoMap;

/**
 * The places of a list as the markers of a Standard MIDI File of format 0, which begins where the
 * mix begins. Tempo and metre are those of the song, so that its bars come along.
 *
 * @see <a href="https://midi.org/standard-midi-files-specification">Standard MIDI Files 1.0</a>
 */
public final class MarkerMidi {
  /** Ticks of a quarter note: half a tick is under 1 ms from 8 quarter notes a minute on. */
  private static final int TICKS = 3840;

  private static final int MARKER = 0x06;
  private static final int TRACK_NAME = 0x03;
  private static final int TEMPO = 0x51;
  private static final int TIME_SIGNATURE = 0x58;
  private static final int END_OF_TRACK = 0x2F;
  private static final int MOST_TICKS = 0x0FFFFFFF;
  private static final int MOST_MICROS = 0xFFFFFF;

  /** An event; of those at one tick, tempos stand before markers. */
  private record Event(long tick, int type, byte[] content) {}

  private MarkerMidi() {}

  /**
   * The file.
   *
   * @param bars of the song, in seconds of the mix
   */
  public static byte[] of(WorkSheet sheet, TempoMap bars) {
    List<Event> events = new ArrayList<>();
    events.add(new Event(0, TRACK_NAME, text(sheet.song() + ", " + sheet.mix())));
    Ticks ticks = Ticks.of(bars, events);
    for (WorkSheet.Line line : sheet.lines()) {
      for (WorkSheet.Stretch place : line.places()) {
        String label =
            line.number() + ". " + line.what() + " (" + String.join(", ", line.names()) + ")";
        events.add(new Event(ticks.at(place.fromSeconds()), MARKER, text(label)));
      }
    }
    events.sort(
        Comparator.comparingLong(Event::tick).thenComparingInt(e -> e.type() == MARKER ? 1 : 0));
    return file(events);
  }

  /** Ticks by time, through the tempos as the file can hold them: whole microseconds and ticks. */
  private record Ticks(List<Long> from, List<Double> seconds, List<Integer> micros) {
    static Ticks of(TempoMap bars, List<Event> events) {
      double origin = bars.quarter(0);
      Ticks ticks = new Ticks(new ArrayList<>(), new ArrayList<>(), new ArrayList<>());
      for (TempoMap.Tempo tempo : bars.tempos()) {
        long tick = Math.round((tempo.quarter() - origin) * TICKS);
        int micros = (int) Math.min(MOST_MICROS, Math.max(1, Math.round(tempo.micros())));
        ticks.change(Math.max(0, tick), micros);
      }
      for (int i = 0; i < ticks.from.size(); i++) {
        int micros = ticks.micros.get(i);
        byte[] content = {(byte) (micros >> 16), (byte) (micros >> 8), (byte) micros};
        events.add(new Event(ticks.from.get(i), TEMPO, content));
      }
      long last = -1;
      for (TempoMap.Meter meter : bars.meters()) {
        long tick = Math.max(0, Math.round((meter.quarter() - origin) * TICKS));
        byte unit = (byte) Integer.numberOfTrailingZeros(meter.unit());
        if (tick == last) {
          events.remove(events.size() - 1);
        }
        last = tick;
        events.add(new Event(tick, TIME_SIGNATURE, new byte[] {(byte) meter.beats(), unit, 24, 8}));
      }
      return ticks;
    }

    /** Tempos before the beginning give way to the last of them. */
    private void change(long tick, int tempo) {
      int last = from.size() - 1;
      if (last >= 0 && from.get(last) == tick) {
        micros.set(last, tempo);
        return;
      }
      double at =
          last < 0
              ? 0
              : seconds.get(last) + (tick - from.get(last)) * (micros.get(last) / 1e6) / TICKS;
      from.add(last < 0 ? 0 : tick);
      seconds.add(at);
      micros.add(tempo);
    }

    long at(double time) {
      int i = from.size() - 1;
      while (i > 0 && seconds.get(i) > time) {
        i--;
      }
      long tick = from.get(i) + Math.round((time - seconds.get(i)) * 1e6 / micros.get(i) * TICKS);
      return Math.min(MOST_TICKS, Math.max(0, tick));
    }
  }

  private static byte[] file(List<Event> events) {
    ByteArrayOutputStream track = new ByteArrayOutputStream();
    long now = 0;
    for (Event event : events) {
      number(track, event.tick() - now);
      now = event.tick();
      track.write(0xFF);
      track.write(event.type());
      number(track, event.content().length);
      track.writeBytes(event.content());
    }
    number(track, 0);
    track.writeBytes(new byte[] {(byte) 0xFF, END_OF_TRACK, 0});
    ByteBuffer file = ByteBuffer.allocate(14 + 8 + track.size());
    file.put("MThd".getBytes(StandardCharsets.US_ASCII)).putInt(6);
    file.putShort((short) 0).putShort((short) 1).putShort((short) TICKS);
    file.put("MTrk".getBytes(StandardCharsets.US_ASCII))
        .putInt(track.size())
        .put(track.toByteArray());
    return file.array();
  }

  /** A number of seven bits a byte, all but the last with the highest bit. */
  private static void number(ByteArrayOutputStream to, long value) {
    for (int shift = 21; shift > 0; shift -= 7) {
      if (value >> shift != 0) {
        to.write((int) (value >> shift & 0x7F | 0x80));
      }
    }
    to.write((int) (value & 0x7F));
  }

  private static byte[] text(String words) {
    return words.replaceAll("\\s+", " ").getBytes(StandardCharsets.UTF_8);
  }
}
