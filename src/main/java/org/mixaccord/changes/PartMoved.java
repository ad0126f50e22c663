package org.mixaccord.changes;

import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * What one part did in one section between two bounces, with the overall gain taken out.
 *
 * @param element the part
 * @param gainDb its gain change in dB; empty where it cannot be told
 * @param plusMinusDb uncertainty of that in dB, 0 or more
 * @param present whether the part sounds in the newer bounce
 * @param presentBefore whether it sounds in the older one
 */
public record PartMoved(
    String element,
    OptionalDouble gainDb,
    double plusMinusDb,
    boolean present,
    boolean presentBefore) {
  /**
   * Less than this is not worth a look: rounding of automation, plug-ins that move by themselves.
   */
  private static final double LEAST_DB = 0.3;

  /** What it is when nobody asked for it. */
  public enum Kind {
    DROPPED_PART,
    SOMETHING_ELSE_MOVED
  }

  /** Whether a wish for one element is about another: the same, all, or a group it belongs to. */
  public static boolean concerns(String wished, String element) {
    return wished.equals(element)
        || wished.equals("mix")
        || (wished.equals("vocals") && element.endsWith(" vocal"))
        || (wished.equals("vocals") && element.endsWith(" vocals"))
        || (wished.equals("guitars") && element.contains("guitar"));
  }

  /**
   * What there is to say about the part if nobody asked for it to move.
   *
   * @return empty when it stayed where it was, or cannot be told
   */
  public Optional<Kind> unasked() {
    if (!present) {
      return presentBefore ? Optional.of(Kind.DROPPED_PART) : Optional.empty();
    }
    boolean moved =
        gainDb.isPresent() && Math.abs(gainDb.getAsDouble()) >= Math.max(LEAST_DB, 3 * plusMinusDb);
    return moved ? Optional.of(Kind.SOMETHING_ELSE_MOVED) : Optional.empty();
  }

  /** The gain change as it is shown: sign, true minus, one decimal, unit. */
  public String words() {
    double gain = gainDb.orElse(0);
    return (gain < 0 ? "−" : "+") + String.format(Locale.ROOT, "%.1f dB", Math.abs(gain));
  }
}
