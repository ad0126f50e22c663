package org.mixaccord.changes;

import java.util.Optional;
import org.mixaccord.notes.Amount;

/**
 * A change as far as it can contradict or repeat another.
 *
 * @param id of the change
 * @param asker the person it belongs to
 * @param element the part it is about
 * @param aspect what about it
 * @param direction which way
 * @param amount how much, where it was said
 * @param place where
 */
public record Wish(
    String id,
    String asker,
    String element,
    String aspect,
    String direction,
    Optional<Amount> amount,
    Place place) {
  /**
   * Whether the two cannot both be followed: other askers want the same aspect of the same part,
   * where their places overlap, in opposite directions.
   */
  public boolean contradicts(Wish other) {
    return !asker.equals(other.asker)
        && sameMatter(other)
        && place.overlaps(other.place)
        && Directions.exclude(direction, other.direction);
  }

  /**
   * Whether the two ask for the same, so that doing one does the other: same part, aspect,
   * direction and place, and no two different amounts.
   */
  public boolean repeats(Wish other) {
    return !id.equals(other.id)
        && sameMatter(other)
        && direction.equals(other.direction)
        && place.sameAs(other.place)
        && (amount.isEmpty() || other.amount.isEmpty() || amount.equals(other.amount))
        // Nothing says that two odd wishes mean the same.
        && !aspect.equals("other")
        && !aspect.equals("effect")
        && !aspect.equals("delivery");
  }

  private boolean sameMatter(Wish other) {
    return element.equals(other.element) && aspect.equals(other.aspect);
  }
}
