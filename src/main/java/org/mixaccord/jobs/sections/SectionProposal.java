package org.mixaccord.jobs.sections;

import java.util.List;
import org.mixaccord.songs.Section;

/**
 * Sections that could be kept; nothing is changed by proposing them.
 *
 * @param source where they come from: {@code markers}, {@code tempo-map} …
 * @param words what they are and how far they can be trusted, for the engineer
 * @param sections in order of time, without overlaps, on the bounce they are proposed for
 */
public record SectionProposal(String source, String words, List<Section> sections) {
  public SectionProposal {
    sections = List.copyOf(sections);
  }
}
