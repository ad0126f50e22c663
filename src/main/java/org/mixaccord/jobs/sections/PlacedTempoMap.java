package org.mixaccord.jobs.sections;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.mixaccord.align.TimeMap;
import org.mixaccord.audio.TempoMap;
import org.mixaccord.audio.midi.MidiReading;

/**
 * A tempo map where it lies on one bounce, whose music may begin earlier or later, or be cut.
 *
 * @param read the map and its markers on the bounce they were given for
 * @param map from that bounce to this one; empty where they are the same bounce
 * @param aligned false while it is not known how the two lie against each other
 * @param seconds length of this bounce
 */
public record PlacedTempoMap(
    MidiReading.Read read, Optional<TimeMap> map, boolean aligned, double seconds) {
  /** A time of the map on this bounce's time line; empty where the music is not there. */
  public OptionalDouble moved(double mapSeconds) {
    if (!aligned) {
      return OptionalDouble.empty();
    }
    return map.isPresent() ? map.get().toOther(mapSeconds) : OptionalDouble.of(mapSeconds);
  }

  /** The same, empty also before this bounce begins and after its end. */
  public OptionalDouble here(double mapSeconds) {
    OptionalDouble moved = moved(mapSeconds);
    double at = moved.orElse(-1);
    return at >= 0 && at < seconds ? moved : OptionalDouble.empty();
  }

  /** The bars that lie on this bounce, up to a number of beats. */
  public List<TempoMap.Bar> bars(int mostBeats) {
    if (!aligned) {
      return List.of();
    }
    double from = map.isPresent() ? first() : 0;
    double to = map.isPresent() ? last() : seconds;
    List<TempoMap.Bar> bars = new ArrayList<>();
    for (TempoMap.Bar bar : read.map().bars(from, to, mostBeats)) {
      List<Double> beats = new ArrayList<>();
      bar.beats().forEach(b -> here(b).ifPresent(beats::add));
      if (!beats.isEmpty() && here(bar.beats().get(0)).isPresent()) {
        bars.add(new TempoMap.Bar(bar.number(), List.copyOf(beats)));
      }
    }
    return bars;
  }

  private double first() {
    return map.orElseThrow().pieces().stream().mapToDouble(p -> p.from()).min().orElse(0);
  }

  private double last() {
    return map.orElseThrow().pieces().stream().mapToDouble(p -> p.to()).max().orElse(0);
  }
}
