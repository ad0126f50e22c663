package org.mixaccord.changes;

import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;

/**
 * The place of a change, on one time line that all changes of the song share.
 *
 * @param sections names of the sections it lies in, lower case; empty for the whole song or where
 *     no section is
 * @param span the stretch of time, where one was named
 */
public record Place(Set<String> sections, Optional<Span> span) {
  /**
   * A stretch of time; a moment has equal ends.
   *
   * @param fromSeconds begin, finite
   * @param toSeconds end, not before the begin
   */
  public record Span(double fromSeconds, double toSeconds) {
    /**
     * Checks the order.
     *
     * @throws IllegalArgumentException if the ends are not finite and in order
     */
    public Span {
      if (!Double.isFinite(fromSeconds) || !(toSeconds >= fromSeconds)) {
        throw new IllegalArgumentException("span " + fromSeconds + " to " + toSeconds);
      }
    }

    boolean meets(Span other) {
      return fromSeconds <= other.toSeconds && other.fromSeconds <= toSeconds;
    }

    boolean sameAs(Span other) {
      return Math.abs(fromSeconds - other.fromSeconds) <= SAME_SECONDS
          && Math.abs(toSeconds - other.toSeconds) <= SAME_SECONDS;
    }
  }

  /** Two people who point at the same moment rarely hit it closer than this. */
  private static final double SAME_SECONDS = 1.0;

  /** Everything. */
  public static final Place WHOLE_SONG = new Place(Set.of(), Optional.empty());

  /** Copies the names in. */
  public Place {
    sections = Set.copyOf(sections);
  }

  /** Whether it is the whole song, or nothing narrower was said. */
  public boolean isWholeSong() {
    return sections.isEmpty() && span.isEmpty();
  }

  /** Whether two places share something. */
  public boolean overlaps(Place other) {
    if (isWholeSong() || other.isWholeSong()) {
      return true;
    }
    if (span.isPresent() && other.span.isPresent()) {
      return span.get().meets(other.span.get());
    }
    Set<String> common = new TreeSet<>(sections);
    common.retainAll(other.sections);
    return !common.isEmpty();
  }

  /** Whether two places mean the same. */
  public boolean sameAs(Place other) {
    if (span.isPresent() != other.span.isPresent()) {
      return false;
    }
    return span.isPresent() ? span.get().sameAs(other.span.get()) : sections.equals(other.sections);
  }
}
