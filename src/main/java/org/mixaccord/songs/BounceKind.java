package org.mixaccord.songs;

import java.util.Locale;
import org.mixaccord.problem.Problem;
import org.mixaccord.problem.ProblemException;

/** What a bounce is of the song. */
public enum BounceKind {
  MAIN,
  INSTRUMENTAL,
  A_CAPPELLA,
  TV,
  CLEAN,
  VOCAL_UP,
  VOCAL_DOWN,
  LOUD_COPY,
  ROUGH,
  REFERENCE,
  MASTER;

  /** Name on the wire and in the database. */
  public String wire() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  /** The kind with that name, or the problem {@code invalid}. */
  public static BounceKind of(String wire) {
    for (BounceKind kind : values()) {
      if (kind.wire().equals(wire)) {
        return kind;
      }
    }
    throw new ProblemException(
        Problem.INVALID,
        "“"
            + wire
            + "” is no kind of mix. Known are main, instrumental, a-cappella, tv, clean, vocal-up,"
            + " vocal-down, loud-copy, rough, reference and master.");
  }

  /** Roughs and references may come from artists and managers too, and count as sent on arrival. */
  public boolean fromAnyone() {
    return this == ROUGH || this == REFERENCE;
  }

  /** An alternate names the main it was made from and shares its label. */
  public boolean alternate() {
    return !fromAnyone() && this != MAIN && this != MASTER;
  }

  /** The kind in words, for labels. */
  public String words() {
    return switch (this) {
      case MAIN -> "Mix";
      case TV -> "TV";
      default -> {
        String plain = name().toLowerCase(Locale.ROOT).replace('_', ' ');
        yield Character.toUpperCase(plain.charAt(0)) + plain.substring(1);
      }
    };
  }
}
