package org.mixaccord.record;

import jakarta.enterprise.context.ApplicationScoped;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.mixaccord.changes.Place;
import org.mixaccord.changes.Wish;
import org.mixaccord.notes.Where;
import org.mixaccord.songs.Bounce;
import org.mixaccord.songs.Form;
import org.mixaccord.songs.Section;
import org.mixaccord.songs.Song;

/** Finds where places lie: on another bounce, and against each other. */
@ApplicationScoped
public class Places {
  private final PlaceMover mover;

  Places(PlaceMover mover) {
    this.mover = mover;
  }

  /**
   * Where a place is shown on a bounce.
   *
   * @param how {@code exact}, {@code section} (only the section is known) or {@code song}
   */
  public record Shown(Optional<Double> fromSeconds, Optional<Double> toSeconds, String how) {
    static final Shown SONG = new Shown(Optional.empty(), Optional.empty(), "song");
  }

  /**
   * Moves a stretch onto a bounce; what cannot be moved falls back to its section, then the song.
   */
  public Shown show(Bounce from, Bounce onto, double fromSeconds, double toSeconds) {
    return mover
        .move(from, onto, fromSeconds, toSeconds)
        .map(m -> new Shown(Optional.of(m.fromSeconds()), Optional.of(m.toSeconds()), "exact"))
        .or(() -> section(from, onto, fromSeconds))
        .orElse(Shown.SONG);
  }

  private Optional<Shown> section(Bounce from, Bounce onto, double seconds) {
    Optional<Section> inside =
        sectionsOn(from.song(), from).stream()
            .filter(s -> s.from() <= seconds && seconds < s.to())
            .findFirst();
    return inside.flatMap(
        there ->
            sectionsOn(onto.song(), onto).stream()
                .filter(s -> s.name().equals(there.name()))
                .findFirst()
                .map(s -> new Shown(Optional.of(s.from()), Optional.of(s.to()), "section")));
  }

  /** The sections of a song that are known to lie on a bounce, in song order. */
  public List<Section> sectionsOn(Song song, Bounce bounce) {
    Optional<Form> form = Form.of(song);
    if (form.isEmpty()) {
      return List.of();
    }
    List<Section> moved = new ArrayList<>();
    for (Section section : form.get().sections()) {
      mover
          .move(form.get().bounce(), bounce, section.from(), section.to())
          .ifPresent(m -> moved.add(new Section(section.name(), m.fromSeconds(), m.toSeconds())));
    }
    return moved;
  }

  /** The changes as wishes, their places on one time line: that of the bounce the form is on. */
  List<Wish> wishes(Collection<Change> changes) {
    if (changes.isEmpty()) {
      return List.of();
    }
    Optional<Form> form = Form.of(changes.iterator().next().song());
    List<Section> sections = form.map(Form::sections).orElse(List.of());
    Map<String, Optional<PlaceMover.Moved>> known = new HashMap<>();
    return changes.stream()
        .map(
            c ->
                new Wish(
                    c.id(),
                    c.asker().id(),
                    c.element(),
                    c.aspect(),
                    c.direction(),
                    c.amount(),
                    place(c, form, sections, known)))
        .toList();
  }

  private Place place(
      Change change,
      Optional<Form> form,
      List<Section> sections,
      Map<String, Optional<PlaceMover.Moved>> known) {
    Where where = change.where();
    if (where.isWholeSong()) {
      return Place.WHOLE_SONG;
    }
    if (where.fromSeconds().isEmpty()) {
      return new Place(lower(where.sections()), Optional.empty());
    }
    double from = where.fromSeconds().getAsDouble();
    double to = where.toSeconds().getAsDouble();
    // Not aligned yet: mixes of one song begin within moments of each other, and a contradiction is
    // put before a person anyway.
    PlaceMover.Moved moved =
        form.flatMap(
                f ->
                    known.computeIfAbsent(
                        change.bounce().id() + " " + from + " " + to,
                        key -> mover.move(change.bounce(), f.bounce(), from, to)))
            .orElse(new PlaceMover.Moved(from, to, 0));
    return new Place(
        lower(touched(sections, moved.fromSeconds(), moved.toSeconds())),
        Optional.of(new Place.Span(moved.fromSeconds(), moved.toSeconds())));
  }

  private static List<String> touched(List<Section> sections, double from, double to) {
    return sections.stream()
        .filter(s -> from < s.to() && (to > s.from() || (to == from && to == s.from())))
        .map(Section::name)
        .toList();
  }

  private static Set<String> lower(Collection<String> names) {
    return names.stream().map(n -> n.toLowerCase(Locale.ROOT)).collect(Collectors.toSet());
  }
}
