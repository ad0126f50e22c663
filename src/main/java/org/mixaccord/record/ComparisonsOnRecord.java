package org.mixaccord.record;

import com.fasterxml.jackson.databind.JsonNode;
import io.quarkus.arc.DefaultBean;
import jakarta.enterprise.context.ApplicationScoped;
import java.util.Optional;
import org.mixaccord.songs.Bounce;
import org.mixaccord.songs.ComparisonRecord;

/** Reads finished comparisons and moves places by the time maps they hold. */
@DefaultBean
@ApplicationScoped
public class ComparisonsOnRecord implements Evidence, PlaceMover {
  /** A place this close to a piece's end belongs to the piece: times are rounded in notes. */
  private static final double EDGE_SECONDS = 0.05;

  @Override
  public Optional<String> comparison(Bounce here, Bounce there) {
    return ComparisonRecord.newestReady(here, there).flatMap(ComparisonRecord::result);
  }

  @Override
  public Optional<Moved> move(Bounce from, Bounce onto, double fromSeconds, double toSeconds) {
    if (from.id().equals(onto.id()) || identical(from, onto)) {
      return Optional.of(new Moved(fromSeconds, toSeconds, 1));
    }
    Optional<Moved> found =
        comparison(from, onto)
            .flatMap(json -> through(json, "from", "to", "otherFrom", fromSeconds, toSeconds));
    return found.or(
        () ->
            comparison(onto, from)
                .flatMap(
                    json -> through(json, "otherFrom", "otherTo", "from", fromSeconds, toSeconds)));
  }

  private static boolean identical(Bounce one, Bounce other) {
    return one.facts().isPresent() && ApprovalBooks.hash(one).equals(ApprovalBooks.hash(other));
  }

  /** Both ends have to lie in one piece, or a cut would be bridged in silence. */
  private static Optional<Moved> through(
      String json, String from, String to, String target, double fromSeconds, double toSeconds) {
    String targetEnd = target.equals("from") ? "to" : "otherTo";
    for (JsonNode piece : WireJson.tree(json).path("timeMap")) {
      double begin = piece.path(from).asDouble();
      double end = piece.path(to).asDouble();
      if (end > begin && fromSeconds >= begin - EDGE_SECONDS && toSeconds <= end + EDGE_SECONDS) {
        double base = piece.path(target).asDouble();
        double ratio = (piece.path(targetEnd).asDouble() - base) / (end - begin);
        return Optional.of(
            new Moved(
                Math.max(0, base + (fromSeconds - begin) * ratio),
                Math.max(0, base + (toSeconds - begin) * ratio),
                piece.path("sure").asDouble(0)));
      }
    }
    return Optional.empty();
  }
}
