package org.mixaccord.jobs;

import java.lang.ref.SoftReference;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import org.mixaccord.measure.MeasureTrack;

/**
 * The measure tracks asked for last, so that one screen's questions about a mix read it once. Held
 * only while there is memory to spare; a track never changes.
 */
final class RecentTracks {
  private static final int MOST = 8;

  private final Map<Path, SoftReference<MeasureTrack>> tracks =
      new LinkedHashMap<>(MOST, 0.75f, true) {
        private static final long serialVersionUID = 1L;

        @Override
        protected boolean removeEldestEntry(Map.Entry<Path, SoftReference<MeasureTrack>> eldest) {
          return size() > MOST;
        }
      };

  synchronized Optional<MeasureTrack> find(Path file) {
    return Optional.ofNullable(tracks.get(file)).map(SoftReference::get);
  }

  synchronized void keep(Path file, MeasureTrack track) {
    tracks.put(file, new SoftReference<>(track));
  }
}
