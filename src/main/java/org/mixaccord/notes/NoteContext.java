package org.mixaccord.notes;

import java.util.List;
import java.util.OptionalDouble;
import java.util.OptionalInt;

/**
 * What is known of the song a note is about.
 *
 * @param sections its sections in song order; empty when none are set
 * @param tempoBpm beats per minute; empty when unknown
 * @param beatsPerBar beats in a bar; empty is read as four
 * @param firstBarSeconds where bar 1 begins; empty is read as 0 s
 * @param elements names of the project's own parts (its stems); may be empty
 */
public record NoteContext(
    List<NamedSpan> sections,
    OptionalDouble tempoBpm,
    OptionalInt beatsPerBar,
    OptionalDouble firstBarSeconds,
    List<String> elements) {
  /** Copies the lists in. */
  public NoteContext {
    sections = List.copyOf(sections);
    elements = List.copyOf(elements);
  }

  /**
   * A context in which nothing is known.
   *
   * @return no sections, no tempo, no parts
   */
  public static NoteContext empty() {
    return new NoteContext(
        List.of(), OptionalDouble.empty(), OptionalInt.empty(), OptionalDouble.empty(), List.of());
  }

  /**
   * Where the song ends as far as the sections tell.
   *
   * @return the last section's end in seconds; empty without sections
   */
  public OptionalDouble endSeconds() {
    return sections.stream().mapToDouble(NamedSpan::toSeconds).max();
  }

  /**
   * Length of one beat.
   *
   * @return seconds; empty when no usable tempo is known
   */
  public OptionalDouble beatSeconds() {
    return tempoBpm.isPresent() && tempoBpm.getAsDouble() > 0
        ? OptionalDouble.of(60.0 / tempoBpm.getAsDouble())
        : OptionalDouble.empty();
  }
}
