package org.mixaccord.compare;

import java.util.Optional;
import org.mixaccord.align.TimeSpan;

/**
 * A stretch that is judged: a section, or what lies between sections.
 *
 * @param section the section it is; empty for a stretch between sections
 * @param from start here, seconds
 * @param to end here, seconds
 * @param other where it lies on the other bounce; empty when it is not there
 * @param sharedSeconds how much of it is there
 * @param sums figures over its frames
 */
record Segment(
    Optional<NamedSection> section,
    double from,
    double to,
    Optional<TimeSpan> other,
    double sharedSeconds,
    BandSums sums) {
  double seconds() {
    return to - from;
  }
}
