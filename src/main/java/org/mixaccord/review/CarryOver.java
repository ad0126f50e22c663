package org.mixaccord.review;

import java.util.List;
import java.util.Optional;
import org.mixaccord.changes.Place;
import org.mixaccord.changes.Seen;
import org.mixaccord.compare.Difference;
import org.mixaccord.compare.Likeness;

/**
 * Whether an approval holds for a later bounce too. Judged against the bounce that was heard, never
 * from one bounce to the next, since small drifts add up. Source: docs/review-rules.md, "Approval".
 */
public final class CarryOver {
  private CarryOver() {}

  /**
   * Whether an approval stays by itself.
   *
   * @param found how alike the later bounce is to the one that was heard
   * @param widest the widest likeness the project lets through: identical, same-audio or
   *     requantised; anything wider counts as identical
   */
  public static boolean stays(Likeness found, Likeness widest) {
    return switch (found) {
      case IDENTICAL -> true;
      case SAME_AUDIO -> widest == Likeness.SAME_AUDIO || widest == Likeness.REQUANTISED;
      case REQUANTISED -> widest == Likeness.REQUANTISED;
      default -> false;
    };
  }

  /**
   * A change an approval waits for.
   *
   * @param doneHere whether it is marked done in the later bounce or before it, or called good
   * @param seen what the evidence says, the bounce that was heard against the later one
   * @param place where it was to happen, on the time line of the sections
   */
  public record Awaited(boolean doneHere, Seen seen, Place place) {}

  /**
   * What comparing says of one section.
   *
   * @param name its name, lower case
   * @param span where it lies, on the time line of the places; empty when it is only on one side
   */
  public record Part(String name, Optional<Place.Span> span, Difference difference) {}

  /**
   * Why “fine once these are done” does not take effect on a later bounce.
   *
   * @param awaited the changes it waits for
   * @param sections every section of the comparison
   * @param sameLength whether nothing was cut or added
   * @return empty when it takes effect; whatever is doubtful does not
   */
  public static Optional<String> holdsBack(
      List<Awaited> awaited, List<Part> sections, boolean sameLength) {
    if (awaited.isEmpty() || !awaited.stream().allMatch(Awaited::doneHere)) {
      return Optional.of("Not everything it waits for is done.");
    }
    if (!awaited.stream().allMatch(a -> a.seen() == Seen.AS_ASKED)) {
      return Optional.of("Not everything it waits for is seen as asked.");
    }
    if (!sameLength) {
      return Optional.of("Something was cut or added.");
    }
    if (sections.isEmpty()) {
      return Optional.of("Without sections nobody can tell where else something changed.");
    }
    return sections.stream()
        .filter(part -> part.difference() != Difference.UNCHANGED)
        .filter(part -> awaited.stream().noneMatch(a -> covers(a.place(), part)))
        .findFirst()
        .map(part -> "Something else changed in " + part.name() + ".");
  }

  /** Only a place that takes in the whole section explains a change somewhere in it. */
  private static boolean covers(Place place, Part part) {
    if (place.isWholeSong()) {
      return true;
    }
    if (place.span().isEmpty()) {
      return place.sections().contains(part.name());
    }
    return part.span().isPresent()
        && place.span().get().fromSeconds() <= part.span().get().fromSeconds()
        && place.span().get().toSeconds() >= part.span().get().toSeconds();
  }
}
