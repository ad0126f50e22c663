package org.mixaccord.record;

import java.util.Optional;
import org.mixaccord.songs.Bounce;

/** Moves a place from one bounce's time line onto another's. */
public interface PlaceMover {
  /**
   * A place where it lies now.
   *
   * @param sure how sure the map is there, 0 to 1
   */
  record Moved(double fromSeconds, double toSeconds, double sure) {}

  /**
   * Moves a stretch; a moment has equal ends.
   *
   * @return empty when the two have not been aligned, or the stretch is not on the other
   */
  Optional<Moved> move(Bounce from, Bounce onto, double fromSeconds, double toSeconds);
}
