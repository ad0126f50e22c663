package org.mixaccord.record;

import java.util.Optional;
import org.mixaccord.songs.Bounce;

/** What comparing two bounces of a song says, where it has been worked out. */
public interface Evidence {
  /**
   * The comparison of two bounces, as the API answers it, single parts included.
   *
   * @param here the newer
   * @param there the other
   * @return its JSON; empty while it is not there
   */
  Optional<String> comparison(Bounce here, Bounce there);
}
