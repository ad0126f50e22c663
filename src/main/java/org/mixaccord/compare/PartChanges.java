package org.mixaccord.compare;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.TreeMap;
import java.util.TreeSet;
import org.mixaccord.align.Alignment;
import org.mixaccord.align.Retimed;
import org.mixaccord.audio.PcmSource;

/**
 * What each part did, from stems.
 *
 * <p>A part with a stem of both bounces is compared directly: the two stems, aligned as the bounces
 * are, give its level, side and lateness without a model; an overall level that was set behind them
 * is added, so that figures are as delivered. Where only one bounce has stems, the other bounce is
 * explained as their weighted sum by least squares; that needs all loud parts among the stems, and
 * says so through {@code explained}.
 */
final class PartChanges {
  /** Lags this near each other are the same one. */
  private static final double SAME_LAG_SECONDS = 0.001;

  /** An overall level under this is none (dB). */
  private static final double LEAST_GAIN_DB = 0.02;

  private final List<Source> sources;

  private PartChanges(List<Source> sources) {
    this.sources = sources;
  }

  /** Something that can tell parts' changes in a stretch. */
  interface Source {
    /** Changes between two times here. */
    List<Comparison.ElementDifference> in(double from, double to) throws IOException;
  }

  /**
   * Prepares telling parts' changes.
   *
   * @param gainDb overall level difference
   * @param mixDb level of this bounce over the other's, over what both have
   */
  static PartChanges of(ComparisonInput input, Alignment alignment, double gainDb, double mixDb)
      throws IOException {
    List<Source> sources = new ArrayList<>();
    List<StemPair> pairs = new ArrayList<>();
    PcmSource here = input.here().pcm();
    Map<String, PcmSource> moved = new TreeMap<>();
    for (Map.Entry<String, PcmSource> e : input.stemsThere().entrySet()) {
      moved.put(
          e.getKey(),
          new Retimed(e.getValue(), alignment.timeMap(), here.sampleRate(), here.frames()));
    }
    TreeSet<String> onlyThere = new TreeSet<>(moved.keySet());
    TreeSet<String> onlyHere = new TreeSet<>(input.stemsHere().keySet());
    for (String element : new TreeSet<>(input.stemsHere().keySet())) {
      PcmSource stem = input.stemsHere().get(element);
      if (moved.containsKey(element) && stem.sampleRate() == here.sampleRate()) {
        pairs.add(StemPair.of(element, stem, moved.get(element), here.frames()));
        onlyThere.remove(element);
        onlyHere.remove(element);
      }
    }
    double onTheBusDb = onTheBusDb(pairs, gainDb, mixDb);
    pairs.forEach(pair -> sources.add((from, to) -> pair.in(from, to, onTheBusDb)));
    if (!onlyThere.isEmpty()) {
      sources.add(StemFit.of(moved, onlyThere, here, true));
    }
    onlyHere.removeIf(e -> input.stemsHere().get(e).sampleRate() != here.sampleRate());
    if (!onlyHere.isEmpty()) {
      PcmSource there =
          new Retimed(input.there().pcm(), alignment.timeMap(), here.sampleRate(), here.frames());
      sources.add(StemFit.of(new TreeMap<>(input.stemsHere()), onlyHere, there, false));
    }
    return new PartChanges(sources);
  }

  /**
   * The overall level the parts' files lack. They may end before the mix bus or behind it: where
   * their own levels did not take part in what the mixes' did, they end before it, and a part's
   * change as delivered is its own and that of the bus.
   */
  private static double onTheBusDb(List<StemPair> pairs, double gainDb, double mixDb) {
    double here = 0;
    double there = 0;
    for (StemPair pair : pairs) {
      here += pair.energyHere();
      there += pair.energyThere();
    }
    if (!(here > 0 && there > 0) || Math.abs(gainDb) < LEAST_GAIN_DB) {
      return 0;
    }
    double missingDb = mixDb - 10 * Math.log10(here / there);
    return Math.abs(missingDb - gainDb) < Math.abs(missingDb) ? gainDb : 0;
  }

  /** Changes of all parts between two times here, by name. */
  List<Comparison.ElementDifference> in(double from, double to) throws IOException {
    List<Comparison.ElementDifference> out = new ArrayList<>();
    for (Source source : sources) {
      out.addAll(source.in(from, to));
    }
    out.sort((a, b) -> a.element().compareTo(b.element()));
    return withoutCommonLag(out);
  }

  /**
   * Lateness is told against the rest of the music. Where most parts are equally late, the files of
   * the parts do not start with the bounce (a codec's run-up, a print that drifts); none moved.
   */
  private static List<Comparison.ElementDifference> withoutCommonLag(
      List<Comparison.ElementDifference> parts) {
    double[] lags =
        parts.stream()
            .filter(e -> e.lagSeconds().isPresent())
            .mapToDouble(e -> e.lagSeconds().getAsDouble())
            .sorted()
            .toArray();
    double common = lags.length < 3 ? 0 : lags[lags.length / 2];
    long alike = Arrays.stream(lags).filter(l -> Math.abs(l - common) <= SAME_LAG_SECONDS).count();
    if (common == 0 || 2 * alike <= lags.length) {
      return parts;
    }
    return parts.stream().map(e -> e.lagSeconds().isPresent() ? later(e, -common) : e).toList();
  }

  private static Comparison.ElementDifference later(
      Comparison.ElementDifference e, double seconds) {
    double lag = e.lagSeconds().orElseThrow() + seconds;
    return new Comparison.ElementDifference(
        e.element(),
        e.gainChangeDb(),
        e.plusMinusDb(),
        e.explained(),
        e.panChange(),
        OptionalDouble.of(Math.abs(lag) <= SAME_LAG_SECONDS ? 0 : lag),
        e.present(),
        e.presentThere());
  }
}
