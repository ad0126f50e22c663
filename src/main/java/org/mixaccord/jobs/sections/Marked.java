package org.mixaccord.jobs.sections;

import java.util.List;
import java.util.Optional;
import org.mixaccord.audio.MarkedSections;
import org.mixaccord.songs.Form;
import org.mixaccord.songs.Section;

/** Turns marks into a proposal that can be kept as it is. */
final class Marked {
  private Marked() {}

  /**
   * A proposal out of marks.
   *
   * @param words what they are, one sentence or more
   * @param length seconds of the bounce
   * @return empty where no section comes of them
   */
  static Optional<SectionProposal> proposal(
      String source, String words, List<MarkedSections.Mark> marks, double length) {
    List<Section> sections =
        MarkedSections.of(marks, length, Form.MOST_NAME_CHARS).stream()
            .map(s -> new Section(s.name(), s.from(), s.to()))
            .toList();
    if (sections.isEmpty()) {
      return Optional.empty();
    }
    boolean many = sections.size() > Form.MOST_SECTIONS;
    return Optional.of(
        new SectionProposal(
            source,
            many
                ? words
                    + " Only the first "
                    + Form.MOST_SECTIONS
                    + " are shown; a song has no more."
                : words,
            many ? sections.subList(0, Form.MOST_SECTIONS) : sections));
  }

  /** "1 marker", "9 markers". */
  static String count(int number) {
    return number == 1 ? "1 marker" : number + " markers";
  }
}
