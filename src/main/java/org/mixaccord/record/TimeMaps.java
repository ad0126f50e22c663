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
    Map<String, Bounce> bounces = new LinkedHashMap<>();
    for (Bounce bounce : Bounce.of(from.song())) {
      bounces.put(bounce.id(), bounce);
    }
    return way(from.id(), onto.id(), steps(from, bounces)).map(way -> along(way, from, bounces));
  }

  /** One step from a bounce to another: a comparison, or none where both sound the same. */
  private record Step(String onto, Optional<String> comparison, boolean isInverse) {}

  /** The steps there are, by the bounce they begin at; the newest comparison of two counts. */
  private static Map<String, Map<String, Step>> steps(Bounce of, Map<String, Bounce> bounces) {
    Map<String, Map<String, Step>> steps = new HashMap<>();
    for (ComparisonRecord.Pair pair : ComparisonRecord.readyPairs(of.song())) {
      add(steps, pair.here(), new Step(pair.there(), Optional.of(pair.id()), false));
      add(steps, pair.there(), new Step(pair.here(), Optional.of(pair.id()), true));
    }
    Map<String, String> first = new HashMap<>();
    for (Bounce bounce : bounces.values()) {
      String same = sound(bounce).map(s -> first.putIfAbsent(s, bounce.id())).orElse(null);
      if (same != null) {
        add(steps, bounce.id(), new Step(same, Optional.empty(), false));
        add(steps, same, new Step(bounce.id(), Optional.empty(), false));
      }
    }
    return steps;
  }

  private static void add(Map<String, Map<String, Step>> steps, String from, Step step) {
    steps.computeIfAbsent(from, id -> new LinkedHashMap<>()).put(step.onto(), step);
  }

  /** The way with the fewest steps, which is their own comparison where there is one. */
  private static Optional<List<Step>> way(
      String from, String onto, Map<String, Map<String, Step>> steps) {
    Map<String, List<Step>> ways = new HashMap<>(Map.of(from, List.of()));
    Deque<String> open = new ArrayDeque<>(List.of(from));
    while (!open.isEmpty() && !ways.containsKey(onto)) {
      String at = open.remove();
      if (ways.get(at).size() == MOST_STEPS) {
        break;
      }
      for (Step step : steps.getOrDefault(at, Map.of()).values()) {
        if (!ways.containsKey(step.onto())) {
          List<Step> way = new ArrayList<>(ways.get(at));
          way.add(step);
          ways.put(step.onto(), way);
          open.add(step.onto());
        }
      }
    }
    return Optional.ofNullable(ways.get(onto));
  }

  private TimeMap along(List<Step> way, Bounce from, Map<String, Bounce> bounces) {
    Bounce at = from;
    Optional<TimeMap> whole = Optional.empty();
    for (Step step : way) {
      TimeMap next = map(step, at);
      Bounce onto = bounces.get(step.onto());
      whole =
          Optional.of(whole.map(map -> map.then(next, seconds(from), seconds(onto))).orElse(next));
      at = onto;
    }
    return whole.orElseThrow();
  }

  private static Optional<String> sound(Bounce bounce) {
    return bounce.facts().map(AudioFacts::pcmSha256);
  }

  private static double seconds(Bounce bounce) {
    return bounce.facts().map(AudioFacts::seconds).orElse(0.0);
  }

  private TimeMap map(Step step, Bounce at) {
    if (step.comparison().isEmpty()) {
      return TimeMap.identity(seconds(at));
    }
    String id = step.comparison().get();
    TimeMap kept = read.get(id);
    if (kept == null) {
      kept = parsed(ComparisonRecord.<ComparisonRecord>findById(id).result().orElseThrow());
      read.put(id, kept);
    }
    return step.isInverse() ? kept.inverse() : kept;
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
