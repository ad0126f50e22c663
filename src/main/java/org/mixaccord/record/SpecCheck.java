package org.mixaccord.record;

import java.util.List;
import org.mixaccord.songs.Bounce;

/** Holds a measured bounce against what was agreed for delivery. */
public interface SpecCheck {
  /** What of the agreement the bounce does not keep, in words; empty when it keeps all of it. */
  List<String> misses(Bounce bounce);
}
