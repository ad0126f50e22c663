package org.mixaccord.record;

import com.fasterxml.jackson.databind.JsonNode;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.transaction.Transactional;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import org.mixaccord.changes.ChangeState;
import org.mixaccord.changes.PartMoved;
import org.mixaccord.changes.Place;
import org.mixaccord.songs.Bounce;
import org.mixaccord.songs.BounceKind;

/** Finds what moved in a bounce, against the main before it, that nobody asked for. */
@ApplicationScoped
public class CheckedParts {
  /**
   * Something that moved without being asked for.
   *
   * @param code {@code dropped-part}, {@code something-else-moved} or {@code keep-broken}
   * @param element the part, or null when it is about the whole mix
   * @param from start on the bounce's time line, in seconds
   */
  public record Check(String code, String element, String detail, double from, double to) {}

  private final Evidence evidence;
  private final Places places;

  CheckedParts(Evidence evidence, Places places) {
    this.evidence = evidence;
    this.places = places;
  }

  /** The checks of a bounce; empty while it has not been compared with the main before it. */
  @Transactional
  public List<Check> of(Bounce bounce) {
    Optional<Bounce> before =
        Bounce.of(bounce.song()).stream()
            .filter(b -> b.kind() == BounceKind.MAIN && b.ready() && b.number() < bounce.number())
            .reduce((first, second) -> second);
    Optional<String> comparison = before.flatMap(b -> evidence.comparison(bounce, b));
    if (bounce.kind() != BounceKind.MAIN || comparison.isEmpty()) {
      return List.of();
    }
    List<Change> changes =
        Change.of(bounce.song()).stream()
            .filter(c -> c.state() != ChangeState.WITHDRAWN && c.state() != ChangeState.LEFT)
            // What was asked of this bounce or a later one cannot be why this one moved.
            .filter(c -> c.bounce().uploadedAt().isBefore(bounce.uploadedAt()))
            .toList();
    List<Place> asked = places.wishes(changes).stream().map(w -> w.place()).toList();
    JsonNode tree = WireJson.tree(comparison.get());
    List<Check> checks = new ArrayList<>();
    for (JsonNode section : tree.path("sections")) {
      if (section.path("from").isNumber()) {
        parts(section, tree.path("gainDb").asDouble(0), before.get(), changes, asked, checks);
        keeps(section, Keep.of(bounce.song()), checks);
      }
    }
    return checks;
  }

  private static void parts(
      JsonNode section,
      double overallDb,
      Bounce before,
      List<Change> changes,
      List<Place> asked,
      List<Check> checks) {
    String name = section.path("name").asText();
    for (JsonNode element : section.path("elements")) {
      PartMoved moved = moved(element, overallDb);
      boolean wanted = false;
      for (int i = 0; i < changes.size() && !wanted; i++) {
        wanted =
            PartMoved.concerns(changes.get(i).element(), moved.element())
                && in(asked.get(i), section);
      }
      Optional<PartMoved.Kind> kind = wanted ? Optional.empty() : moved.unasked();
      kind.ifPresent(
          k ->
              checks.add(
                  k == PartMoved.Kind.DROPPED_PART
                      ? check(
                          "dropped-part",
                          moved.element(),
                          capital(moved.element())
                              + " dropped out in "
                              + name
                              + ". It sounds there in "
                              + before.title()
                              + ", and nobody asked for it to go.",
                          section)
                      : check(
                          "something-else-moved",
                          moved.element(),
                          capital(moved.element())
                              + " moved by "
                              + moved.words()
                              + " in "
                              + name
                              + ", and nobody asked for it.",
                          section)));
    }
  }

  private static PartMoved moved(JsonNode element, double overallDb) {
    JsonNode gain = element.path("gainChangeDb");
    return new PartMoved(
        element.path("element").asText(),
        gain.isNumber() ? OptionalDouble.of(gain.asDouble() - overallDb) : OptionalDouble.empty(),
        Math.abs(element.path("plusMinusDb").asDouble(0)),
        element.path("present").asBoolean(true),
        element.path("presentThere").asBoolean(true));
  }

  private static void keeps(JsonNode section, List<Keep> keeps, List<Check> checks) {
    if (!"changed".equals(section.path("difference").asText())) {
      return;
    }
    String name = section.path("name").asText();
    for (Keep keep : keeps) {
      boolean here = keep.where().sections().stream().anyMatch(s -> s.equalsIgnoreCase(name));
      if (here && keep.element().equals("mix")) {
        checks.add(
            check(
                "keep-broken",
                null,
                name
                    + " has changed, and "
                    + keep.note().author().name()
                    + " asked to leave it alone.",
                section));
      }
    }
  }

  private static boolean in(Place place, JsonNode section) {
    if (place.isWholeSong()) {
      return true;
    }
    boolean named =
        place.sections().contains(section.path("name").asText().toLowerCase(Locale.ROOT));
    return named
        || place
            .span()
            .filter(
                s ->
                    s.fromSeconds() < section.path("to").asDouble()
                        && s.toSeconds() > section.path("from").asDouble())
            .isPresent();
  }

  private static Check check(String code, String element, String detail, JsonNode section) {
    return new Check(
        code, element, detail, section.path("from").asDouble(), section.path("to").asDouble());
  }

  private static String capital(String word) {
    return Character.toUpperCase(word.charAt(0)) + word.substring(1);
  }
}
