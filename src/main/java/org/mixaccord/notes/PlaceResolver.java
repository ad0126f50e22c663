package org.mixaccord.notes;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;

/** Turns the places a request names into where it is to be done. */
final class PlaceResolver {
  /** Clock times this close to a section's begin name the section. */
  private static final double SAME_SECONDS = 0.5;

  private final NoteContext context;
  private final SectionNames names;

  PlaceResolver(NoteContext context, SectionNames names) {
    this.context = context;
    this.names = names;
  }

  /** One place, or one for each single moment that is named. */
  List<Where> resolve(List<Place> places, List<Place> excluded) {
    List<Place> times = new ArrayList<>();
    Set<Integer> sections = new TreeSet<>();
    Set<String> said = new LinkedHashSet<>();
    for (Place place : places) {
      switch (place.kind()) {
        case TIME -> times.add(place);
        case SECTIONS -> sections.addAll(expand(place));
        case NAMES -> said.addAll(place.names());
        default -> {}
      }
    }
    if (!times.isEmpty()) {
      List<Integer> named = sectionsAtTimes(times, sections);
      return named.isEmpty() ? times(times) : List.of(Where.in(toNames(named)));
    }
    Set<Integer> taken = new TreeSet<>();
    for (Place place : excluded) {
      taken.addAll(place.sections());
      said.removeAll(place.names());
    }
    if (!taken.isEmpty() && sections.isEmpty()) {
      for (int s = 0; s < names.size(); s++) {
        sections.add(s);
      }
    }
    sections.removeAll(taken);
    if (!said.isEmpty()) {
      return List.of(Where.in(new ArrayList<>(said)));
    }
    return List.of(Where.in(toNames(new ArrayList<>(sections))));
  }

  /** What is left of places when others are taken out of them. */
  List<Place> without(List<Place> places, List<Place> excluded) {
    List<Place> left = new ArrayList<>();
    for (Place place : places) {
      if (!place.is(Place.Kind.SECTIONS)) {
        left.add(place);
        continue;
      }
      List<Integer> sections = new ArrayList<>(expand(place));
      excluded.forEach(taken -> sections.removeAll(taken.sections()));
      left.add(Place.ofSections(sections, place.words(), place.sectionKind()));
    }
    return left;
  }

  private List<Integer> expand(Place place) {
    if (place.open() != Place.Open.UNTIL) {
      return place.sections();
    }
    int first = place.sections().stream().mapToInt(Integer::intValue).min().orElse(0);
    List<Integer> before = new ArrayList<>();
    for (int s = 0; s < first; s++) {
      before.add(s);
    }
    return before;
  }

  /** "0:48 pre-chorus" is the pre-chorus that begins there. */
  private List<Integer> sectionsAtTimes(List<Place> times, Set<Integer> sections) {
    List<Integer> found = new ArrayList<>();
    for (Place time : times) {
      for (int s : sections) {
        boolean starts = Math.abs(names.get(s).fromSeconds() - time.from()) <= SAME_SECONDS;
        if (starts && time.from() == time.to() && !found.contains(s)) {
          found.add(s);
        }
      }
    }
    return found;
  }

  private List<Where> times(List<Place> times) {
    List<Where> all = new ArrayList<>();
    for (Place time : times) {
      Where where = Where.between(time.from(), time.to());
      if (!all.contains(where)) {
        all.add(where);
      }
    }
    return all;
  }

  private List<String> toNames(List<Integer> sections) {
    List<String> list = new ArrayList<>();
    for (int s : sections) {
      list.add(names.get(s).name());
    }
    return list;
  }

  /** Whether moments lie inside the sections named elsewhere. */
  boolean lies(List<Place> moments, List<Place> sections) {
    for (Place moment : moments) {
      int at = moment.is(Place.Kind.TIME) ? names.at(moment.from()) : -1;
      boolean inside =
          at >= 0
              && sections.stream()
                  .anyMatch(p -> p.is(Place.Kind.SECTIONS) && p.sections().contains(at));
      if (!inside) {
        return false;
      }
    }
    return !moments.isEmpty();
  }

  /** What follows a place, to the end of the song. */
  Place after(Place place) {
    double end = context.endSeconds().orElse(-1);
    switch (place.kind()) {
      case TIME:
        return Place.time(place.to(), Math.max(place.to(), end), place.words());
      case SECTIONS:
        int last = place.sections().stream().mapToInt(Integer::intValue).max().orElse(-1);
        // "until the bridge" ends where the bridge begins
        int first = place.open() == Place.Open.UNTIL ? last : last + 1;
        List<Integer> rest = new ArrayList<>();
        for (int s = first; s < names.size(); s++) {
          rest.add(s);
        }
        return Place.ofSections(rest, place.words(), "");
      default:
        return place;
    }
  }

  /** All sections but those named; none where no sections were named. */
  List<Place> elsewhere(List<Place> places) {
    Set<Integer> named = new TreeSet<>();
    for (Place place : places) {
      if (!place.is(Place.Kind.SECTIONS)) {
        return List.of();
      }
      named.addAll(expand(place));
    }
    List<Integer> rest = new ArrayList<>();
    for (int s = 0; s < names.size(); s++) {
      if (!named.contains(s)) {
        rest.add(s);
      }
    }
    return named.isEmpty() || rest.isEmpty()
        ? List.of()
        : List.of(Place.ofSections(rest, "elsewhere", ""));
  }

  /** The song's sections of one kind, such as the outro. */
  List<Place> ofKind(String kind) {
    List<Integer> found = names.ofKind(kind);
    return found.isEmpty() ? List.of() : List.of(Place.ofSections(found, kind, kind));
  }
}
