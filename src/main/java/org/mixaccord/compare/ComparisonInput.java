package org.mixaccord.compare;

import java.util.List;
import java.util.Map;
import org.mixaccord.audio.PcmSource;

/**
 * What comparing needs to know of two bounces.
 *
 * @param here the newer bounce; all results are on its time line
 * @param there the bounce it is set beside
 * @param sections sections on {@code here}, ordered; may leave gaps
 * @param sectionsThere sections on {@code there}; those that are only there are reported too. May
 *     be empty
 * @param stemsHere parts of {@code here} by element, same start as the bounce; may be empty
 * @param stemsThere parts of {@code there} by element; may be empty
 */
public record ComparisonInput(
    ComparedFile here,
    ComparedFile there,
    List<NamedSection> sections,
    List<NamedSection> sectionsThere,
    Map<String, PcmSource> stemsHere,
    Map<String, PcmSource> stemsThere) {
  public ComparisonInput {
    sections = List.copyOf(sections);
    sectionsThere = List.copyOf(sectionsThere);
    stemsHere = Map.copyOf(stemsHere);
    stemsThere = Map.copyOf(stemsThere);
    int a = here.pcm().channels();
    int b = there.pcm().channels();
    if (a != b && Math.max(a, b) > 2) {
      throw new IllegalArgumentException("cannot compare " + a + " channels with " + b);
    }
  }

  /** Two bounces without parts. */
  public static ComparisonInput of(
      ComparedFile here, ComparedFile there, List<NamedSection> sections) {
    return new ComparisonInput(here, there, sections, List.of(), Map.of(), Map.of());
  }
}
