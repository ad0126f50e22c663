package org.mixaccord.api.v1.songs;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.mixaccord.audio.TempoMap;
import org.mixaccord.audio.midi.MidiReading;
import org.mixaccord.jobs.sections.PlacedTempoMap;
import org.mixaccord.songs.TempoMapRecord;

/**
 * A tempo map where it lies on one bounce.
 *
 * @param bounce the bounce it was given for
 * @param shownOn the bounce all times are on
 * @param placed false while it is not known how the two lie against each other; the lists are empty
 * @param at where the MIDI file's beginning lies on {@code bounce}
 * @param remark what was wrong with the file or assumed of it; null for nothing
 */
record TempoMapView(
    String bounce,
    String shownOn,
    boolean placed,
    double at,
    String remark,
    List<TempoView> tempos,
    List<MeterView> meters,
    List<MarkView> markers,
    List<BarView> bars) {
  /** Beats written out; hours of music at any tempo. */
  private static final int MOST_BEATS = 20_000;

  /** From this place on so many quarter notes a minute. */
  record TempoView(double at, int bar, double beat, double bpm) {}

  /** From this bar on so many beats, each a note of this value. */
  record MeterView(double at, int bar, int beats, int unit) {}

  /** A marker or cue point. */
  record MarkView(double at, int bar, double beat, String name) {}

  /** A bar: the times of its beats, the first of them the barline. */
  record BarView(int bar, List<Double> beats) {}

  static TempoMapView of(TempoMapRecord given, PlacedTempoMap placed, String shownOn) {
    MidiReading.Read read = placed.read();
    TempoMap map = read.map();
    return new TempoMapView(
        given.bounce().id(),
        shownOn,
        placed.aligned(),
        given.atSeconds(),
        read.remark().orElse(null),
        map.tempos().stream()
            .flatMap(t -> tempo(placed, map.seconds(t.quarter()), t.bpm()).stream())
            .toList(),
        map.meters().stream()
            .flatMap(m -> meter(placed, map.seconds(m.quarter()), m).stream())
            .toList(),
        read.marks().stream()
            .flatMap(m -> mark(placed, map.seconds(m.quarter()), m.label()).stream())
            .toList(),
        placed.bars(MOST_BEATS).stream().map(b -> new BarView(b.number(), b.beats())).toList());
  }

  private static Optional<TempoView> tempo(PlacedTempoMap placed, double seconds, double bpm) {
    OptionalDouble here = placed.moved(seconds);
    TempoMap.BarBeat at = placed.read().map().at(seconds);
    return here.isEmpty()
        ? Optional.empty()
        : Optional.of(new TempoView(here.getAsDouble(), at.bar(), at.beat(), toThousandth(bpm)));
  }

  /** A MIDI file counts a beat in whole microseconds, which turns 90 into 90.00009. */
  private static double toThousandth(double bpm) {
    return Math.round(bpm * 1000) / 1000.0;
  }

  private static Optional<MeterView> meter(
      PlacedTempoMap placed, double seconds, TempoMap.Meter meter) {
    OptionalDouble here = placed.moved(seconds);
    return here.isEmpty()
        ? Optional.empty()
        : Optional.of(
            new MeterView(
                here.getAsDouble(),
                placed.read().map().at(seconds).bar(),
                meter.beats(),
                meter.unit()));
  }

  private static Optional<MarkView> mark(PlacedTempoMap placed, double seconds, String label) {
    OptionalDouble here = placed.here(seconds);
    TempoMap.BarBeat at = placed.read().map().at(seconds);
    return here.isEmpty()
        ? Optional.empty()
        : Optional.of(new MarkView(here.getAsDouble(), at.bar(), at.beat(), label));
  }
}
