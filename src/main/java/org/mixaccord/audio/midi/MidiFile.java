package org.mixaccord.audio.midi;

import static java.nio.charset.StandardCharsets.US_ASCII;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.mixaccord.audio.TempoMap;
import org.mixaccord.audio.container.FileMarker;
import org.mixaccord.audio.container.Labels;

/**
 * Reads tempos, time signatures, markers and cue points of a Standard MIDI File of format 0 or 1,
 * timed in ticks of a quarter note or of a film frame. Notes are passed over.
 *
 * <p>No length is believed beyond the bytes that are there; a damaged track counts up to its
 * damage. Linear in bytes; what is kept is bounded by {@value #MOST_CHANGES} changes and {@link
 * FileMarker#MOST_MARKERS} markers.
 *
 * @see <a href="https://midi.org/standard-midi-files-specification">Standard MIDI Files 1.0</a>
 */
public final class MidiFile {
  /** Largest file taken, in bytes: hours of a busy arrangement. */
  public static final int MOST_BYTES = 8 << 20;

  private static final int MOST_CHANGES = 10_000;

  /** A day and more at any usual resolution; a file that claims later places is damaged. */
  private static final long LAST_TICK = 1L << 36;

  private static final int META = 0xFF;
  private static final int MARKER = 0x06;
  private static final int CUE_POINT = 0x07;
  private static final int END_OF_TRACK = 0x2F;
  private static final int TEMPO = 0x51;
  private static final int TIME_SIGNATURE = 0x58;

  /** Quicker than this (3000 a minute) is no tempo but a damaged one. */
  private static final int LEAST_MICROS = 20_000;

  private final byte[] bytes;
  private final List<Change> changes = new ArrayList<>();
  private int tempos;
  private int meters;
  private int marks;
  private int at;
  private int tracks;
  private boolean cut;
  private boolean damaged;
  private boolean odd;

  /** Something a track says at a tick. */
  private record Change(long tick, int type, int a, int b, String label) {}

  private MidiFile(byte[] bytes) {
    this.bytes = bytes;
  }

  /** Reads a file; any bytes at all are answered, none throws. */
  public static MidiReading read(byte[] bytes) {
    return new MidiFile(bytes).read();
  }

  private MidiReading read() {
    if (bytes.length < 14 || !id(0).equals("MThd") || number(4, 4) < 6) {
      return new MidiReading.Refused(
          "This is not a MIDI file. Export the tempo track as a Standard MIDI File, format 0 or"
              + " 1.");
    }
    int format = (int) number(8, 2);
    if (format == 2) {
      return new MidiReading.Refused(
          "This MIDI file holds patterns that do not follow one another in time (format 2). Export"
              + " it as format 0 or 1.");
    }
    int division = (int) number(12, 2);
    int perFrame = division & 0xFF;
    boolean film = division >= 0x8000;
    int frames = film ? 256 - (division >> 8) : 0;
    boolean known = film ? perFrame > 0 && List.of(24, 25, 29, 30).contains(frames) : division > 0;
    if (format > 2 || !known) {
      return new MidiReading.Refused(
          "The head of this MIDI file is damaged: it does not say how it counts time. Export it"
              + " again, as format 0 or 1.");
    }
    walkTracks(8 + number(4, 4));
    cut |= tracks < number(10, 2);
    if (tracks == 0) {
      return new MidiReading.Refused(
          "This MIDI file has no track in it, so nothing can be taken from it. Export it again.");
    }
    if (changes.isEmpty() && (damaged || cut)) {
      return new MidiReading.Refused(
          "This MIDI file is damaged and nothing could be read from it. Export it again.");
    }
    changes.sort(Comparator.comparingLong(Change::tick));
    return film
        ? placed(new FilmTicks(1 / (perFrame * (frames == 29 ? 30000 / 1001.0 : frames))))
        : placed(tick -> (double) tick / division);
  }

  private void walkTracks(long first) {
    long chunk = first;
    while (chunk + 8 <= bytes.length) {
      long size = number((int) chunk + 4, 4);
      long end = chunk + 8 + size;
      if (id((int) chunk).equals("MTrk")) {
        tracks++;
        cut |= end > bytes.length;
        at = (int) chunk + 8;
        track((int) Math.min(end, bytes.length));
      }
      chunk = end;
    }
  }

  private void track(int end) {
    long tick = 0;
    int running = 0;
    while (at < end) {
      int delta = quantity(end);
      tick += Math.max(0, delta);
      if (delta < 0 || at >= end || tick > LAST_TICK) {
        damaged = true;
        return;
      }
      int status = bytes[at] & 0xFF;
      if (status < 0x80) {
        status = running;
      } else {
        at++;
      }
      if (status >= 0x80 && status < 0xF0) {
        running = status;
        at += status >= 0xC0 && status < 0xE0 ? 1 : 2;
      } else if (status == META || status == 0xF0 || status == 0xF7) {
        int type = status == META && at < end ? bytes[at++] & 0xFF : -1;
        int length = quantity(end);
        if (length < 0 || length > end - at) {
          damaged = true;
          return;
        }
        if (type == END_OF_TRACK) {
          return;
        }
        meta(tick, type, length);
        at += length;
      } else {
        damaged = true;
        return;
      }
    }
  }

  private void meta(long tick, int type, int length) {
    switch (type) {
      case TEMPO -> {
        int micros = length < 3 ? 0 : (int) number(at, 3);
        if (micros < LEAST_MICROS || ++tempos > MOST_CHANGES) {
          odd = true;
        } else {
          changes.add(new Change(tick, type, micros, 0, ""));
        }
      }
      case TIME_SIGNATURE -> {
        int beats = length < 2 ? 0 : bytes[at] & 0xFF;
        int power = length < 2 ? 99 : bytes[at + 1] & 0xFF;
        if (beats == 0 || power > 6 || ++meters > MOST_CHANGES) {
          odd = true;
        } else {
          changes.add(new Change(tick, type, beats, 1 << power, ""));
        }
      }
      case MARKER, CUE_POINT -> {
        if (++marks <= FileMarker.MOST_MARKERS) {
          byte[] text = Arrays.copyOfRange(bytes, at, at + Math.min(length, 2048));
          changes.add(new Change(tick, MARKER, 0, 0, Labels.read(text, FileMarker.MOST_CHARS)));
        }
      }
      default -> {
        // Everything else a track holds says nothing about the form.
      }
    }
  }

  /** Turns ticks, which never go back from call to call, into quarter notes. */
  private interface Ticks {
    double quarter(long tick);

    /** From the tick asked for last on, a quarter note lasts so long. */
    default void tempo(int micros) {}
  }

  /** Ticks of fixed length: there the tempo says how many make a quarter note. */
  private static final class FilmTicks implements Ticks {
    private final double tickSeconds;
    private long lastTick;
    private double lastQuarter;
    private double micros = TempoMap.USUAL_MICROS;

    FilmTicks(double tickSeconds) {
      this.tickSeconds = tickSeconds;
    }

    @Override
    public double quarter(long tick) {
      lastQuarter += (tick - lastTick) * tickSeconds * 1e6 / micros;
      lastTick = tick;
      return lastQuarter;
    }

    @Override
    public void tempo(int newMicros) {
      micros = newMicros;
    }
  }

  private MidiReading placed(Ticks ticks) {
    List<TempoMap.Tempo> tempoList = new ArrayList<>();
    List<TempoMap.Meter> meterList = new ArrayList<>();
    List<MidiReading.Mark> markList = new ArrayList<>();
    for (Change change : changes) {
      double quarter = ticks.quarter(change.tick);
      switch (change.type) {
        case TEMPO -> {
          ticks.tempo(change.a);
          tempoList.add(new TempoMap.Tempo(quarter, change.a));
        }
        case TIME_SIGNATURE -> meterList.add(new TempoMap.Meter(quarter, change.a, change.b));
        default -> markList.add(new MidiReading.Mark(quarter, change.label));
      }
    }
    return new MidiReading.Read(
        TempoMap.of(0, tempoList, meterList), markList, remark(tempoList.isEmpty()));
  }

  private Optional<String> remark(boolean noTempo) {
    List<String> words = new ArrayList<>();
    if (cut || damaged) {
      words.add("The file is damaged or cut off; what could be read up to there was taken.");
    }
    if (odd) {
      words.add("Tempos or time signatures that make no sense were left out.");
    }
    if (noTempo) {
      words.add("The file names no tempo, so 120 bpm was taken.");
    }
    return words.isEmpty() ? Optional.empty() : Optional.of(String.join(" ", words));
  }

  /** A number in groups of seven bits, at most four of them; -1 where there is none. */
  private int quantity(int end) {
    int value = 0;
    for (int n = 0; n < 4 && at < end; n++) {
      int b = bytes[at++];
      value = value << 7 | (b & 0x7F);
      if (b >= 0) {
        return value;
      }
    }
    return -1;
  }

  private long number(int from, int count) {
    long value = 0;
    for (int i = 0; i < count; i++) {
      value = value << 8 | (bytes[from + i] & 0xFF);
    }
    return value;
  }

  private String id(int from) {
    return new String(bytes, from, 4, US_ASCII);
  }
}
