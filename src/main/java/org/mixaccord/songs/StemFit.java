package org.mixaccord.songs;

import java.util.List;
import java.util.Locale;
import java.util.Optional;

/**
 * Whether a part lies where its bounce lies, as far as rate, length and time stamps tell.
 *
 * @param code {@code same-length}, {@code shorter}, {@code longer}, {@code other-start}, {@code
 *     other-rate}, {@code fits-other}
 * @param words the same in a sentence
 * @param fits the bounce it fits, if there is one
 */
public record StemFit(String code, String words, Optional<String> fits) {
  private static final double HALF_A_MILLISECOND = 0.0005;

  /** Workstations print parts a few frames longer or shorter than the mix; more is another take. */
  private static final double LENGTH_TOLERANCE_SECONDS = 0.5;

  /**
   * How a decoded part fits.
   *
   * @param others mixes of the song that may be named, if it fits one of them instead
   * @return empty until both the part and its bounce are decoded
   */
  public static Optional<StemFit> of(Stem stem, List<Bounce> others) {
    AudioFacts mix = stem.bounce().facts().orElse(null);
    if (mix == null || !stem.decoded()) {
      return Optional.empty();
    }
    String title = stem.bounce().title() + " (" + length(mix.seconds()) + ")";
    if (same(stem, mix)) {
      return Optional.of(start(stem, title));
    }
    for (Bounce other : others) {
      AudioFacts facts = other.facts().orElse(null);
      if (facts != null && !other.id().equals(stem.bounce().id()) && same(stem, facts)) {
        return Optional.of(
            new StemFit(
                "fits-other",
                "Fits " + other.title() + " (" + length(facts.seconds()) + "), not " + title + ".",
                Optional.of(other.id())));
      }
    }
    return Optional.of(unlike(stem, mix, title));
  }

  private static StemFit start(Stem stem, String title) {
    Long mixStart = stem.bounce().sessionFrame().orElse(null);
    Long partStart = stem.sessionFrame().orElse(null);
    Optional<String> fits = Optional.of(stem.bounce().id());
    if (mixStart == null || partStart == null) {
      return new StemFit("same-length", "Same length as " + title + ".", fits);
    }
    long apart = partStart - mixStart;
    if (apart == 0) {
      return new StemFit(
          "same-length", "Same length as " + title + ", and the same start in the session.", fits);
    }
    return new StemFit(
        "other-start",
        "Same length as "
            + title
            + ", but stamped to begin "
            + apart(Math.abs((double) apart) / stem.sampleRate())
            + (apart > 0 ? " later" : " earlier")
            + " in the session. Check that it begins where the mix begins.",
        Optional.empty());
  }

  private static StemFit unlike(Stem stem, AudioFacts mix, String title) {
    if (stem.sampleRate() != mix.sampleRate()) {
      return new StemFit(
          "other-rate",
          "It has "
              + kiloHertz(stem.sampleRate())
              + ", but "
              + stem.bounce().title()
              + " has "
              + kiloHertz(mix.sampleRate())
              + ".",
          Optional.empty());
    }
    long apart = stem.frames() - mix.frames();
    double apartSeconds = Math.abs((double) apart) / mix.sampleRate();
    return new StemFit(
        apart < 0 ? "shorter" : "longer",
        (apartSeconds < HALF_A_MILLISECOND ? "Less than 1 ms" : apart(apartSeconds))
            + (apart < 0 ? " shorter than " : " longer than ")
            + title
            + (usable(stem) ? "; used from the same start all the same." : "."),
        usable(stem) ? Optional.of(stem.bounce().id()) : Optional.empty());
  }

  /** Whether the comparison can use a part: same rate, and as good as the same length. */
  public static boolean usable(Stem stem) {
    AudioFacts mix = stem.bounce().facts().orElse(null);
    return mix == null
        || !stem.decoded()
        || (mix.sampleRate() == stem.sampleRate()
            && Math.abs(mix.frames() - stem.frames())
                <= LENGTH_TOLERANCE_SECONDS * mix.sampleRate());
  }

  private static boolean same(Stem stem, AudioFacts mix) {
    return stem.sampleRate() == mix.sampleRate() && stem.frames() == mix.frames();
  }

  /** A difference: under a second in milliseconds, beyond that as a length. */
  public static String apart(double seconds) {
    return seconds < 0.9995 ? Math.max(1, Math.round(seconds * 1000)) + " ms" : length(seconds);
  }

  /** Minutes, seconds and thousandths. */
  static String length(double seconds) {
    long millis = Math.round(seconds * 1000);
    return String.format(
        Locale.ROOT, "%d:%02d.%03d", millis / 60_000, millis / 1000 % 60, millis % 1000);
  }

  private static String kiloHertz(int hz) {
    return hz % 1000 == 0
        ? hz / 1000 + " kHz"
        : String.format(Locale.ROOT, "%s kHz", Double.toString(hz / 1000.0));
  }
}
