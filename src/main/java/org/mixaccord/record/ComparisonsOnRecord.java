package org.mixaccord.record;

import io.quarkus.arc.DefaultBean;
import jakarta.enterprise.context.ApplicationScoped;
import java.util.List;
import java.util.Optional;
import org.mixaccord.align.MapPiece;
import org.mixaccord.align.TimeMap;
import org.mixaccord.songs.Bounce;
import org.mixaccord.songs.ComparisonRecord;

/** Reads finished comparisons and moves places by the time maps they hold. */
@DefaultBean
@ApplicationScoped
public class ComparisonsOnRecord implements Evidence, PlaceMover {
  /** A place this close to a piece's end belongs to the piece: times are rounded in notes. */
  private static final double EDGE_SECONDS = 0.05;

  /** Pieces that lie no farther apart on either side are one stretch, cut by its clock alone. */
  private static final double SEAM_SECONDS = 1e-4;

  private final TimeMaps maps;

  ComparisonsOnRecord(TimeMaps maps) {
    this.maps = maps;
  }

  @Override
  public Optional<String> comparison(Bounce here, Bounce there) {
    return ComparisonRecord.newestReady(here, there).flatMap(ComparisonRecord::result);
  }

  @Override
  public Optional<Moved> move(Bounce from, Bounce onto, double fromSeconds, double toSeconds) {
    if (from.id().equals(onto.id())) {
      return Optional.of(new Moved(fromSeconds, toSeconds, 1));
    }
    return maps.between(from, onto).flatMap(map -> through(map, fromSeconds, toSeconds));
  }

  /** Both ends have to lie in one uninterrupted stretch, or a cut would be bridged in silence. */
  private static Optional<Moved> through(TimeMap map, double fromSeconds, double toSeconds) {
    List<MapPiece> pieces = map.pieces();
    for (int i = 0; i < pieces.size(); i++) {
      MapPiece first = pieces.get(i);
      if (fromSeconds < first.from() - EDGE_SECONDS || fromSeconds > first.to() + EDGE_SECONDS) {
        continue;
      }
      MapPiece last = first;
      double sure = first.sure();
      for (int j = i + 1; toSeconds > last.to() && j < pieces.size(); j++) {
        if (!joins(last, pieces.get(j))) {
          break;
        }
        last = pieces.get(j);
        sure = Math.min(sure, last.sure());
      }
      if (toSeconds <= last.to() + EDGE_SECONDS) {
        double begin = Math.max(0, first.toOther(fromSeconds));
        return Optional.of(new Moved(begin, Math.max(begin, last.toOther(toSeconds)), sure));
      }
    }
    return Optional.empty();
  }

  private static boolean joins(MapPiece one, MapPiece next) {
    return Math.abs(next.from() - one.to()) < SEAM_SECONDS
        && Math.abs(next.otherFrom() - one.otherTo()) < SEAM_SECONDS;
  }
}
