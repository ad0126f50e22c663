package org.mixaccord.audio.midi;

import java.util.List;
import java.util.Optional;
import org.mixaccord.audio.TempoMap;

/** What reading a Standard MIDI File came to. */
public sealed interface MidiReading {
  /**
   * A marker or cue point.
   *
   * @param quarter place in quarter notes of the map
   * @param label its text, one clean line; may be empty
   */
  record Mark(double quarter, String label) {}

  /**
   * The file's tempos, metres and markers.
   *
   * @param map beginning at 0 s
   * @param marks in order of time
   * @param remark what was wrong with the file or assumed of it, in words
   */
  record Read(TempoMap map, List<Mark> marks, Optional<String> remark) implements MidiReading {
    public Read {
      marks = List.copyOf(marks);
    }
  }

  /** Nothing can be made of it; {@code detail} says why and what to do. */
  record Refused(String detail) implements MidiReading {}
}
