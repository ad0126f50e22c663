package org.mixaccord.record;

import com.fasterxml.jackson.databind.JsonNode;
import jakarta.enterprise.context.ApplicationScoped;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.mixaccord.songs.Bounce;
import org.mixaccord.songs.Hearing;
import org.mixaccord.songs.Song;

/** What of a song's newest sent mix moved since somebody last heard the song. */
@ApplicationScoped
public class MovedSinceHeard {
  private static final Set<String> MOVED = Set.of("changed", "only-here");

  /** A section of the newest sent mix, seconds on it, and whether it moved for certain. */
  public record Stretch(String name, double from, double to, boolean moved) {}

  private final Evidence evidence;

  MovedSinceHeard(Evidence evidence) {
    this.evidence = evidence;
  }

  /** The sections in the order of time; empty where the two mixes have not been compared. */
  public Optional<List<Stretch>> of(Song song, String personId) {
    Optional<Bounce> newest = Bounce.newestSentMain(song);
    Optional<Bounce> heard = Hearing.lastMainHeard(personId, song);
    if (newest.isEmpty() || heard.isEmpty() || newest.get().id().equals(heard.get().id())) {
      return Optional.empty();
    }
    return evidence.comparison(newest.get(), heard.get()).map(MovedSinceHeard::stretches);
  }

  private static List<Stretch> stretches(String comparison) {
    List<Stretch> stretches = new ArrayList<>();
    for (JsonNode section : WireJson.tree(comparison).path("sections")) {
      if (section.path("from").isNumber() && section.path("to").isNumber()) {
        stretches.add(
            new Stretch(
                section.path("name").asText(),
                section.path("from").asDouble(),
                section.path("to").asDouble(),
                MOVED.contains(section.path("difference").asText())));
      }
    }
    return stretches;
  }
}
