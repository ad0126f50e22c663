package org.mixaccord.record;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.mixaccord.notes.Where;
import org.mixaccord.problem.ProblemException;
import org.mixaccord.songs.Bounce;
import org.mixaccord.songs.Form;
import org.mixaccord.songs.Section;
import org.mixaccord.songs.Song;
import org.mixaccord.worksheet.AskWords;

/** Which places there are in a song: its sections by name, and the times of one mix. */
final class SongPlaces {
  /** Times in scripts are rounded; a place may lie this far past the end. */
  static final double PAST_END_SECONDS = 0.5;

  /** What was read from an answer and sent back may have lost this much to rounding. */
  private static final double ROUNDING_SECONDS = 0.001;

  private final List<String> sections;
  private final OptionalDouble end;

  private SongPlaces(List<String> sections, OptionalDouble end) {
    this.sections = sections;
    this.end = end;
  }

  /** Those of a song, in seconds of one of its mixes. */
  static SongPlaces of(Song song, Bounce bounce) {
    List<String> names =
        Form.of(song).map(Form::sections).orElse(List.of()).stream().map(Section::name).toList();
    return new SongPlaces(
        names,
        bounce.facts().map(f -> OptionalDouble.of(f.seconds())).orElse(OptionalDouble.empty()));
  }

  /** Section names as the song writes them, however they were capitalised. */
  Where named(Where where) {
    return where.sections().isEmpty()
        ? where
        : Where.in(
            where.sections().stream().map(name -> known(name).orElse(name)).distinct().toList());
  }

  private Optional<String> known(String name) {
    return sections.stream().filter(section -> section.equalsIgnoreCase(name)).findFirst();
  }

  /** What is wrong with a place; sections of a song that has none yet are taken as they are. */
  Optional<ProblemException> complaint(Where where) {
    for (String name : where.sections()) {
      if (!sections.isEmpty() && known(name).isEmpty()) {
        return Optional.of(
            WireJson.invalid(
                "where",
                "This song has no “" + name + "”. It has " + AskWords.listed(sections) + "."));
      }
    }
    return isPastEnd(where)
        ? Optional.of(
            WireJson.invalid(
                "where",
                "That place lies past the end of the mix, which is at "
                    + AskWords.clock(end.getAsDouble())
                    + "."))
        : Optional.empty();
  }

  private boolean isPastEnd(Where where) {
    return end.isPresent()
        && where.toSeconds().isPresent()
        && where.toSeconds().getAsDouble() > end.getAsDouble() + PAST_END_SECONDS;
  }

  /** Whether a place begins after the mix it was written for has ended. */
  static boolean isAfterEnd(Where where, Bounce bounce) {
    return where.fromSeconds().isPresent()
        && bounce
            .facts()
            .filter(f -> where.fromSeconds().getAsDouble() > f.seconds() + PAST_END_SECONDS)
            .isPresent();
  }

  /** Whether two name the same place, but for the rounding of times. */
  static boolean same(Where one, Where other) {
    return one.sections().equals(other.sections())
        && near(one.fromSeconds(), other.fromSeconds())
        && near(one.toSeconds(), other.toSeconds());
  }

  private static boolean near(OptionalDouble one, OptionalDouble other) {
    return one.isPresent() == other.isPresent()
        && Math.abs(one.orElse(0) - other.orElse(0)) <= ROUNDING_SECONDS;
  }
}
