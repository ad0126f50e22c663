package org.mixaccord.record;

import jakarta.enterprise.context.ApplicationScoped;
import java.util.Optional;
import java.util.OptionalDouble;
import org.mixaccord.audio.TempoMap;
import org.mixaccord.notes.BarGrid;
import org.mixaccord.notes.NoteContext;
import org.mixaccord.songs.Bounce;
import org.mixaccord.songs.Song;
import org.mixaccord.songs.TempoMapRecord;

/**
 * Where bars lie on a bounce: by the song's tempo map, moved along with the music, or else by its
 * one tempo.
 */
@ApplicationScoped
public class BarsOnRecord {
  private static final double USUAL_BPM = 60e6 / TempoMap.USUAL_MICROS;
  private static final int USUAL_BEATS = 4;

  private final PlaceMover mover;

  BarsOnRecord(PlaceMover mover) {
    this.mover = mover;
  }

  /** The bars of a song on one of its bounces. */
  public BarGrid on(Song song, Bounce bounce) {
    return TempoMapRecord.of(song)
        .map(given -> byMap(given.read().map(), given.bounce(), bounce))
        .orElseGet(() -> byOneTempo(song, bounce));
  }

  /**
   * The same as one map of tempos and metres, for whoever can't ask place by place: that of the
   * song beginning where its first bar lies on the bounce, or one tempo throughout.
   */
  TempoMap map(Song song, Bounce bounce) {
    return TempoMapRecord.of(song)
        .flatMap(
            given -> {
              TempoMap map = given.read().map();
              OptionalDouble start = moved(given.bounce(), bounce, map.seconds(0));
              return start.isEmpty()
                  ? Optional.empty()
                  : Optional.of(map.from(start.getAsDouble()));
            })
        .orElseGet(
            () -> {
              OptionalDouble first = byOneTempo(song, bounce).seconds(1, 1);
              return TempoMap.steady(
                  song.tempoBpm().orElse(USUAL_BPM),
                  song.beatsPerBar().orElse(USUAL_BEATS),
                  first.orElse(0));
            });
  }

  private BarGrid byMap(TempoMap map, Bounce drawn, Bounce bounce) {
    return new BarGrid() {
      @Override
      public OptionalDouble seconds(double bars) {
        return moved(drawn, bounce, map.secondsOfBars(bars));
      }

      @Override
      public OptionalDouble seconds(int bar, double beat) {
        return moved(drawn, bounce, map.seconds(bar, beat));
      }

      @Override
      public OptionalDouble bars(double seconds) {
        OptionalDouble there = moved(bounce, drawn, seconds);
        return there.isEmpty() ? there : OptionalDouble.of(map.bars(there.getAsDouble()));
      }
    };
  }

  /** The one tempo is said of the first main mix; where a place cannot be moved, it stays. */
  private BarGrid byOneTempo(Song song, Bounce bounce) {
    BarGrid steady =
        NoteContext.steady(song.tempoBpm(), song.beatsPerBar(), song.firstBarSeconds());
    Optional<Bounce> first = Bounce.firstMain(song);
    if (first.isEmpty() || bounce == null || first.get().id().equals(bounce.id())) {
      return steady;
    }
    return new BarGrid() {
      @Override
      public OptionalDouble seconds(double bars) {
        return orAsItIs(first.get(), bounce, steady.seconds(bars));
      }

      @Override
      public OptionalDouble seconds(int bar, double beat) {
        return orAsItIs(first.get(), bounce, steady.seconds(bar, beat));
      }

      @Override
      public OptionalDouble bars(double seconds) {
        return steady.bars(orAsItIs(bounce, first.get(), OptionalDouble.of(seconds)).orElseThrow());
      }
    };
  }

  private OptionalDouble orAsItIs(Bounce from, Bounce onto, OptionalDouble seconds) {
    if (seconds.isEmpty()) {
      return seconds;
    }
    OptionalDouble moved = moved(from, onto, seconds.getAsDouble());
    return moved.isPresent() ? moved : seconds;
  }

  private OptionalDouble moved(Bounce from, Bounce onto, double seconds) {
    return mover
        .move(from, onto, seconds, seconds)
        .map(m -> OptionalDouble.of(m.fromSeconds()))
        .orElse(OptionalDouble.empty());
  }
}
