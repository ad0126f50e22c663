package org.mixaccord.record;

import com.fasterxml.jackson.databind.JsonNode;
import jakarta.enterprise.context.ApplicationScoped;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Deque;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.mixaccord.align.MapPiece;
import org.mixaccord.align.TimeMap;
import org.mixaccord.align.TimeSpan;
import org.mixaccord.songs.AudioFacts;
import org.mixaccord.songs.Bounce;
import org.mixaccord.songs.ComparisonRecord;

/**
 * How time runs between any two bounces of a song: as they were aligned, or where only others in
 * between were, through those.
 */
@ApplicationScoped
public class TimeMaps {
  /** Each step adds the rounding of its map; more steps than this are not believed. */
  private static final int MOST_STEPS = 12;

  private static final int MOST_KEPT = 200;

  /** A finished comparison never changes, so what was read of it is kept. */
  private final Map<String, TimeMap> read =
      Collections.synchronizedMap(
          new LinkedHashMap<>(16, 0.75f, true) {
            @Override
            protected boolean removeEldestEntry(Map.Entry<String, TimeMap> eldest) {
              return size() > MOST_KEPT;
            }
          });

  /** How time runs from one bounce to another, as far as it has been worked out. */
  public Optional<TimeMap> between(Bounce from, Bounce onto) {
    if (sound(from).isPresent() && sound(from).equals(sound(onto))) {
      return Optional.of(TimeMap.identity(seconds(from)));
    }
    return ComparisonRecord.newestReady(from, onto)
        .map(this::map)
        .or(() -> ComparisonRecord.newestReady(onto, from).map(c -> map(c).inverse()))
        .or(() -> through(from, onto));
  }

  /** The way with the fewest steps; of equally short ones the one by newer bounces. */
  private Optional<TimeMap> through(Bounce from, Bounce onto) {
    Map<String, Bounce> bounces = new LinkedHashMap<>();
    for (Bounce bounce : Bounce.of(from.song())) {
      bounces.put(bounce.id(), bounce);
    }
    Map<String, List<String>> next = neighbours(bounces, from);
    Map<String, String> before = new HashMap<>();
    Deque<String> open = new ArrayDeque<>(List.of(from.id()));
    before.put(from.id(), "");
    while (!open.isEmpty() && !before.containsKey(onto.id())) {
      String at = open.remove();
      for (String to : next.getOrDefault(at, List.of())) {
        if (before.putIfAbsent(to, at) == null) {
          open.add(to);
        }
      }
    }
    if (!before.containsKey(onto.id())) {
      return Optional.empty();
    }
    List<Bounce> way = new ArrayList<>();
    for (String at = onto.id(); !at.isEmpty(); at = before.get(at)) {
      way.add(0, bounces.get(at));
    }
    return way.size() > MOST_STEPS + 1 ? Optional.empty() : along(way);
  }

  private Optional<TimeMap> along(List<Bounce> way) {
    TimeMap whole = TimeMap.identity(seconds(way.get(0)));
    for (int i = 1; i < way.size(); i++) {
      Bounce here = way.get(i - 1);
      Bounce there = way.get(i);
      Optional<TimeMap> step =
          sound(here).equals(sound(there))
              ? Optional.of(TimeMap.identity(seconds(here)))
              : ComparisonRecord.newestReady(here, there)
                  .map(this::map)
                  .or(() -> ComparisonRecord.newestReady(there, here).map(c -> map(c).inverse()));
      if (step.isEmpty()) {
        return Optional.empty();
      }
      whole = whole.then(step.get(), seconds(way.get(0)), seconds(there));
    }
    return Optional.of(whole);
  }

  /** Which bounces have been compared, or sound the same; newer ones first. */
  private static Map<String, List<String>> neighbours(Map<String, Bounce> bounces, Bounce of) {
    Map<String, List<String>> next = new HashMap<>();
    for (ComparisonRecord.Pair pair : ComparisonRecord.readyPairs(of.song())) {
      link(next, pair.here(), pair.there());
    }
    Map<String, String> first = new HashMap<>();
    bounces
        .values()
        .forEach(
            bounce ->
                sound(bounce)
                    .map(sound -> first.putIfAbsent(sound, bounce.id()))
                    .ifPresent(same -> link(next, bounce.id(), same)));
    next.values()
        .forEach(
            ids -> {
              ids.removeIf(id -> !bounces.containsKey(id));
              ids.sort(
                  (a, b) -> bounces.get(b).uploadedAt().compareTo(bounces.get(a).uploadedAt()));
            });
    return next;
  }

  private static void link(Map<String, List<String>> next, String one, String other) {
    next.computeIfAbsent(one, id -> new ArrayList<>()).add(other);
    next.computeIfAbsent(other, id -> new ArrayList<>()).add(one);
  }

  private static Optional<String> sound(Bounce bounce) {
    return bounce.facts().map(AudioFacts::pcmSha256);
  }

  private static double seconds(Bounce bounce) {
    return bounce.facts().map(AudioFacts::seconds).orElse(0.0);
  }

  private TimeMap map(ComparisonRecord comparison) {
    TimeMap kept = read.get(comparison.id());
    if (kept == null) {
      kept = comparison.result().map(TimeMaps::parsed).orElseThrow();
      read.put(comparison.id(), kept);
    }
    return kept;
  }

  private static TimeMap parsed(String result) {
    JsonNode tree = WireJson.tree(result);
    List<MapPiece> pieces = new ArrayList<>();
    for (JsonNode p : tree.path("timeMap")) {
      pieces.add(
          new MapPiece(
              p.path("from").asDouble(),
              p.path("to").asDouble(),
              p.path("otherFrom").asDouble(),
              p.path("otherTo").asDouble(),
              p.path("sure").asDouble()));
    }
    return new TimeMap(pieces, spans(tree.path("onlyHere")), spans(tree.path("onlyThere")));
  }

  private static List<TimeSpan> spans(JsonNode rows) {
    List<TimeSpan> spans = new ArrayList<>();
    rows.forEach(r -> spans.add(new TimeSpan(r.path("from").asDouble(), r.path("to").asDouble())));
    return spans;
  }
}
