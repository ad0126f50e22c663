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
  private final PlaceMover mover;

  BarsOnRecord(PlaceMover mover) {
    this.mover = mover;
  }

  /** The bars of a song on one of its bounces. */
  public BarGrid on(Song song, Bounce bounce) {
    Optional<TempoMapRecord> given = TempoMapRecord.of(song);
    if (given.isEmpty()) {
      return NoteContext.steady(song.tempoBpm(), song.beatsPerBar(), song.firstBarSeconds());
    }
    Bounce drawn = given.get().bounce();
    TempoMap map = given.get().read().map();
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

  private OptionalDouble moved(Bounce from, Bounce onto, double seconds) {
    return mover
        .move(from, onto, seconds, seconds)
        .map(m -> OptionalDouble.of(m.fromSeconds()))
        .orElse(OptionalDouble.empty());
  }
}
