package org.mixaccord.record;

import jakarta.enterprise.context.ApplicationScoped;
import java.util.List;
import java.util.Locale;
import org.mixaccord.accounts.Doorkeeper;
import org.mixaccord.align.TimeSpan;
import org.mixaccord.notes.Where;
import org.mixaccord.songs.AudioFacts;
import org.mixaccord.songs.Bounce;
import org.mixaccord.songs.Section;
import org.mixaccord.songs.SongDoor;

/** Finds the two mixes and the one place that are to be listened to against each other. */
@ApplicationScoped
public class HeardPlaces {
  /** Shorter is hard to hear and has no loudness; longer nobody keeps in mind (seconds). */
  static final double LEAST_SECONDS = 1;

  static final double MOST_SECONDS = 60;

  private static final String TOO_SHORT_OR_LONG =
      "A place to listen to lasts from one second to a minute.";

  /**
   * What was asked for.
   *
   * @param mixes ids of two bounces
   * @param section name of a section, or null
   * @param from start in seconds, or null
   * @param to end in seconds, or null
   * @param on id of the bounce the times were taken from; null for the first of the two
   */
  public record Asked(List<String> mixes, String section, Double from, Double to, String on) {
    boolean saysPlace() {
      return section != null || from != null || to != null;
    }
  }

  /** The two mixes. */
  public record Pair(Bounce one, Bounce two) {}

  /** A place on the first of the two, and in words, with times as they were given. */
  public record Place(TimeSpan span, String words) {}

  private final Places places;

  HeardPlaces(Places places) {
    this.places = places;
  }

  /** The two mixes of the song, which the caller has to be allowed to hear. */
  Pair pair(SongDoor.ToSong in, Asked asked) {
    if (asked.mixes() == null || asked.mixes().size() != 2 || asked.mixes().contains(null)) {
      throw WireJson.invalid("mixes", "Name the two mixes that are to be heard.");
    }
    return new Pair(bounce(in, asked.mixes().get(0)), bounce(in, asked.mixes().get(1)));
  }

  private static Bounce bounce(SongDoor.ToSong in, String id) {
    return Bounce.<Bounce>findByIdOptional(id)
        .filter(b -> b.song().id().equals(in.song().id()) && b.mayBeHeardBy(in.access()))
        .orElseThrow(Doorkeeper::notFound);
  }

  /** The place named by section or by times. */
  Place place(SongDoor.ToSong in, Pair pair, Asked asked) {
    if (asked.section() != null) {
      return section(pair, asked.section());
    }
    if (asked.from() == null || asked.to() == null) {
      throw WireJson.invalid("section", "Say where: a section, or “from” and “to”.");
    }
    if (asked.on() == null) {
      return span(pair, asked.from(), asked.to());
    }
    Bounce on = bounce(in, asked.on());
    if (!(asked.from() >= 0) || !(asked.to() > asked.from())) {
      throw WireJson.invalid("to", TOO_SHORT_OR_LONG);
    }
    PlacesShown there = shown(places.show(on, pair.one(), asked.from(), asked.to()));
    return new Place(checked(pair, there.from(), there.to()), words(asked.from(), asked.to()));
  }

  /** The place a change is about: its first section, or its stretch. */
  Place placeOf(Pair pair, Change change) {
    Where where = change.where();
    if (where.fromSeconds().isPresent()) {
      PlacesShown shown =
          shown(
              places.show(
                  change.bounce(),
                  pair.one(),
                  where.fromSeconds().getAsDouble(),
                  where.toSeconds().getAsDouble()));
      return span(pair, shown.from(), shown.to());
    }
    if (where.sections().isEmpty()) {
      throw WireJson.invalid(
          "section", "This change is about the whole song. Say a section to hear it in.");
    }
    return section(pair, where.sections().get(0));
  }

  private record PlacesShown(double from, double to) {}

  private static PlacesShown shown(Places.Shown shown) {
    if (shown.fromSeconds().isEmpty()) {
      throw WireJson.invalid(
          "section", "That place is not in the first of the two. Say a section, or another place.");
    }
    double from = shown.fromSeconds().get();
    return new PlacesShown(from, Math.max(from + LEAST_SECONDS, shown.toSeconds().orElse(from)));
  }

  private Place section(Pair pair, String name) {
    Section section =
        places.sectionsOn(pair.one().song(), pair.one()).stream()
            .filter(s -> s.name().toLowerCase(Locale.ROOT).equals(name.toLowerCase(Locale.ROOT)))
            .findFirst()
            .orElseThrow(
                () -> WireJson.invalid("section", "That section is not known on this mix."));
    double to = Math.min(section.to(), section.from() + MOST_SECONDS);
    String words = section.name() + (to < section.to() ? ", its first minute" : "");
    return new Place(checked(pair, section.from(), to), words);
  }

  private static Place span(Pair pair, double from, double to) {
    return new Place(checked(pair, from, to), words(from, to));
  }

  private static String words(double from, double to) {
    return clock(from) + " to " + clock(to);
  }

  private static TimeSpan checked(Pair pair, double from, double to) {
    double end = pair.one().facts().map(AudioFacts::seconds).orElse(Double.MAX_VALUE);
    if (!(from >= 0) || !(to - from >= LEAST_SECONDS) || !(to - from <= MOST_SECONDS)) {
      throw WireJson.invalid("to", TOO_SHORT_OR_LONG);
    }
    if (to > end + 0.01) {
      throw WireJson.invalid("to", "The mix ends before that.");
    }
    return new TimeSpan(from, Math.min(to, end));
  }

  /** A place found through a time map may lie a hair before the second it is meant to be. */
  private static String clock(double seconds) {
    long whole = (long) Math.floor(seconds + 0.0005);
    return whole / 60 + ":" + String.format(Locale.ROOT, "%02d", whole % 60);
  }
}
