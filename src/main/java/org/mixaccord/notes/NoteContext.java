package org.mixaccord.notes;

import java.util.List;
import java.util.OptionalDouble;
import java.util.OptionalInt;

/**
 * What is known of the song a note is about.
 *
 * @param sections its sections in song order; empty when none are set
 * @param bars where its bars and beats lie
 * @param elements names of the project's own parts (its stems); may be empty
 */
public record NoteContext(List<NamedSpan> sections, BarGrid bars, List<String> elements) {
  private static final int USUAL_BEATS = 4;

  /** Copies the lists in. */
  public NoteContext {
    sections = List.copyOf(sections);
    elements = List.copyOf(elements);
  }

  /**
   * A song of one tempo.
   *
   * @param sections its sections in song order; empty when none are set
   * @param tempoBpm beats per minute; empty when unknown
   * @param beatsPerBar beats in a bar; empty is read as four
   * @param firstBarSeconds where bar 1 begins; empty is read as 0 s
   * @param elements names of the project's own parts (its stems); may be empty
   */
  public NoteContext(
      List<NamedSpan> sections,
      OptionalDouble tempoBpm,
      OptionalInt beatsPerBar,
      OptionalDouble firstBarSeconds,
      List<String> elements) {
    this(sections, steady(tempoBpm, beatsPerBar, firstBarSeconds), elements);
  }

  /** The bars of one tempo; unknown where the tempo is, or makes no sense. */
  public static BarGrid steady(
      OptionalDouble tempoBpm, OptionalInt beatsPerBar, OptionalDouble firstBarSeconds) {
    double beatSeconds = 60.0 / tempoBpm.orElse(0);
    int beats = beatsPerBar.orElse(USUAL_BEATS);
    boolean usable = beatSeconds > 0 && Double.isFinite(beatSeconds) && beats > 0;
    return usable ? BarGrid.steady(beatSeconds, beats, firstBarSeconds.orElse(0)) : BarGrid.UNKNOWN;
  }

  /**
   * A context in which nothing is known.
   *
   * @return no sections, no tempo, no parts
   */
  public static NoteContext empty() {
    return new NoteContext(List.of(), BarGrid.UNKNOWN, List.of());
  }

  /**
   * Where the song ends as far as the sections tell.
   *
   * @return the last section's end in seconds; empty without sections
   */
  public OptionalDouble endSeconds() {
    return sections.stream().mapToDouble(NamedSpan::toSeconds).max();
  }
}
